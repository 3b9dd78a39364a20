import type { Fill, Lot, Plan, Progress } from '../plan/model';
import { placeAt } from '../plan/span';
import { listed } from '../plan/wording';
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
  return !(fill.hasUnreadLots || fill.planned?.hasUnreadLots);
}

/**
 * Whether bins of a lot are written that cannot be read: those that it brings, or those of it in a fill or in a record of
 * what went in. The figure has an error of its own, and any sum without it would blame something else. To be asked only
 * where something looks wrong: it goes through the fills.
 */
export function hasUnreadBins({ fills, progress }: Pick<Plan, 'fills' | 'progress'>, lot: Lot): boolean {
  if (isReceiptUnread(lot)) return true;
  for (const fill of fills.values()) {
    if (areBinsRead({ fill })) continue;
    const recorded = progress.get(fill.id);
    if (isNamedUnread(fill.planned ?? fill, lot.id) || (recorded && isNamedUnread(recorded, lot.id)))
      return true;
  }
  return false;
}

/** What came in is written, all of it or of a day, and cannot be read. */
export function isReceiptUnread({ places, receivedBins, receivedByDay }: Lot): boolean {
  const { entries } = places;
  const days = entries?.get('received-by-day')?.entries?.size ?? 0;
  return (
    days > (receivedByDay?.size ?? 0) || (!receivedBins && days === 0 && entries?.has('received') === true)
  );
}

function isNamedUnread({ places, lots }: Pick<Fill | Progress, 'places' | 'lots'>, id: string): boolean {
  const isNamed = placeAt(places, ['lots']).entries?.has(id) === true;
  return isNamed && !lots.some(({ lot }) => lot.value === id);
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
