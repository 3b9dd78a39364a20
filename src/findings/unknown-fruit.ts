import type { FilledRoom } from '../room/types';
import { listed } from './say';

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

/**
 * What stands in the place of a cure where some of the fruit is not known: what it gives off is more than is told, so that
 * what is too much already stays too much, and what would do for it cannot be told. Empty where all fruit is known.
 */
export function moreThanTold(rooms: readonly FilledRoom[]): string {
  const unknown = rooms.filter((one) => !isFruitKnown(one)).map(({ fill }) => fill.id);
  return unknown.length === 0
    ? ''
    : ` Not all of the fruit in ${listed(unknown)} is known, so it is more than told here; what would do is told once it is.`;
}
