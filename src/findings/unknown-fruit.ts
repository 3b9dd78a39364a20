import type { FilledRoom } from '../room/types';

/**
 * Whether all of a fill's fruit is reckoned with. A lot, variety or number of bins that is not known is left out and told
 * itself; what the fruit uses and gives off is then too little, and a finding that sets a leak or a day against it would
 * be wrong.
 */
export function isFruitKnown(filled: FilledRoom): boolean {
  return filled.lots.length === filled.fill.lots.length && areBinsRead(filled);
}

/** Whether the bins of all the lots that a fill's text names could be read. */
export function areBinsRead({ fill }: Pick<FilledRoom, 'fill'>): boolean {
  return !(fill.planned ?? fill).hasUnreadLots;
}
