import type { Day } from '../plan/dates';
import { bestFilling, type Filling, type Pickings, withPickings } from './intake';
import { type Likeness, likenessOf, mayJoin, unlikeCost, withLotIn } from './likeness';
import type { FillProblem, FreeRoom, LotToPlace } from './types';
import { weights, wellFilled } from './weights';

/** Offers by lot; null for one that does not fit. */
export type Offers = Map<number, Offer | null>;

/** A place in a load where a memo keeps what it knows of it: it goes with the load, once no room holds that any more. */
export interface Tried {
  /** The memo that knows it. */
  by?: object;
  offers?: Offers;
}

/**
 * What a room takes: bins of lots by their arrivals, in the order of `LotToPlace.arrivals`. What a fill of the plan has
 * put into the room before is no part of it. Never changed in place.
 */
export interface RoomLoad {
  /** Index into the problem's regimes. */
  readonly regime: number;
  readonly parts: readonly LoadPart[];
  readonly bins: number;
  readonly firstDay: Day;
  /** From first bin to last, with what the room has begun with. */
  readonly days: number;
  readonly cost: number;
  readonly pickings: Pickings;
  readonly likeness: Likeness;
  /** What the search has found for lots that might come into it too. */
  readonly tried: Tried;
}

export interface LoadPart {
  readonly lot: number;
  readonly bins: number;
  readonly byArrival: readonly number[];
}

/**
 * The load of a room with its cost, or undefined where it cannot be: more bins than places, or more on a day than may
 * come in even though bins wait, a filling that takes too long, or growers who may not share a room.
 */
export function loadOf(
  problem: FillProblem,
  room: FreeRoom,
  regime: number,
  parts: readonly LoadPart[],
): RoomLoad | undefined {
  let bins = 0;
  let pickings: Pickings | undefined;
  let likeness: Likeness | undefined = likenessOf(room);
  for (const part of parts) {
    const lot = problem.lots[part.lot];
    if (!lot || !likeness) return undefined;
    likeness = withLotIn(likeness, lot, regime, part.bins);
    pickings = withPickings(pickings, lot.arrivals, part.byArrival);
    bins += part.bins;
  }
  if (!pickings || !likeness || bins === 0 || bins > freePlaces(room)) return undefined;
  if (room.held && room.held.regime !== regime) return undefined;
  const filling = bestFilling(problem, room, pickings);
  return filling && made(room, { regime, parts, bins, pickings, likeness }, filling);
}

/** The load with more bins of a lot, `more` by its arrivals; as `loadOf` of all its parts, found faster. */
export function withMore(
  problem: FillProblem,
  room: FreeRoom,
  regime: number,
  before: RoomLoad | undefined,
  index: number,
  more: readonly number[],
): RoomLoad | undefined {
  const sum = summed(problem, room, regime, before, index, more);
  if (!sum) return undefined;
  const parts = partsWith(before?.parts ?? [], index, more, sum.taken);
  return made(room, { ...sum, regime, parts }, sum.filling);
}

/** What a room would cost with more bins of a lot, and how many are in it then: what `withMore` gives, found faster. */
export function offerOf(
  problem: FillProblem,
  room: FreeRoom,
  regime: number,
  before: RoomLoad | undefined,
  index: number,
  more: readonly number[],
): Offer | undefined {
  const sum = summed(problem, room, regime, before, index, more);
  return sum && { cost: costOf(room, regime, sum), bins: sum.bins, more };
}

export interface Offer {
  readonly cost: number;
  /** In the room, with those that come. */
  readonly bins: number;
  /** Bins that come, by arrival of their lot. */
  readonly more: readonly number[];
}

interface Sum {
  readonly bins: number;
  readonly taken: number;
  readonly pickings: Pickings;
  readonly likeness: Likeness;
  readonly filling: Filling;
}

function summed(
  problem: FillProblem,
  room: FreeRoom,
  regime: number,
  before: RoomLoad | undefined,
  index: number,
  more: readonly number[],
): Sum | undefined {
  const lot = problem.lots[index];
  let taken = 0;
  for (let arrival = 0; arrival < more.length; arrival++) taken += more[arrival] as number;
  const bins = (before?.bins ?? 0) + taken;
  if (!lot || taken === 0 || bins > freePlaces(room)) return undefined;
  if (!mayTake(room, regime, before, lot)) return undefined;
  const pickings = withPickings(before?.pickings, lot.arrivals, more);
  const filling = bestFilling(problem, room, pickings);
  const likeness = filling && withLotIn(before?.likeness ?? likenessOf(room), lot, regime, taken);
  return filling && likeness && { bins, taken, pickings, likeness, filling };
}

/**
 * Of each picking of a lot as many of the bins `left` as can go into the room beside what is in it, the first picked
 * first, up to `places` in all; by its arrivals. Undefined where none can.
 */
export function asManyAsFit(
  problem: FillProblem,
  room: FreeRoom,
  regime: number,
  before: RoomLoad | undefined,
  index: number,
  left: readonly number[],
  places: number,
): readonly number[] | undefined {
  const lot = problem.lots[index];
  if (!lot || !mayTake(room, regime, before, lot)) return undefined;
  const taken = left.map(() => 0);
  let free = places;
  for (let arrival = 0; arrival < left.length && free > 0; arrival++) {
    const most = Math.min(left[arrival] ?? 0, free);
    if (most === 0) continue;
    taken[arrival] = most;
    const pickings = withPickings(before?.pickings, lot.arrivals, taken);
    const at = (lot.arrivals[arrival]?.day ?? 0) - pickings.from;
    const others = (pickings.bins[at] ?? 0) - most;
    const fits = mostThat(most, (bins) => {
      pickings.bins[at] = others + bins;
      return bestFilling(problem, room, pickings) !== undefined;
    });
    taken[arrival] = fits;
    free -= fits;
  }
  return free < places ? taken : undefined;
}

/** The largest number up to `most` that fits, where fewer fit too; all of it is tried first. */
function mostThat(most: number, fits: (count: number) => boolean): number {
  let [least, above, tried] = [0, most, most];
  while (least < above) {
    if (fits(tried)) least = tried;
    else above = tried - 1;
    tried = Math.ceil((least + above) / 2);
  }
  return least;
}

function mayTake(room: FreeRoom, regime: number, before: RoomLoad | undefined, lot: LotToPlace): boolean {
  if (room.held && room.held.regime !== regime) return false;
  return mayJoin(before?.likeness ?? likenessOf(room), lot);
}

/** Places that a fill has not taken already. */
export function freePlaces({ places, held }: FreeRoom): number {
  return places - (held?.bins ?? 0);
}

function made(
  room: FreeRoom,
  load: Pick<RoomLoad, 'regime' | 'parts' | 'bins' | 'pickings' | 'likeness'>,
  filling: Filling,
): RoomLoad {
  const { regime, parts, bins, pickings, likeness } = load;
  const { firstDay, days } = filling;
  const cost = costOf(room, regime, { bins, likeness, filling });
  return { regime, parts, bins, firstDay, days, cost, pickings, likeness, tried: {} };
}

function costOf(
  room: FreeRoom,
  regime: number,
  { bins, likeness, filling }: Pick<Sum, 'bins' | 'likeness' | 'filling'>,
): number {
  return placesCost(room, regime, bins) + filling.cost + unlikeCost(likeness, room);
}

/** Of a room that a fill has begun: the places that are empty no longer, and that it is no longer partly filled. */
function placesCost(room: FreeRoom, regime: number, bins: number): number {
  const { places, held } = room;
  const partly = (count: number) => (count < wellFilled * places ? weights.partlyFilled : 0);
  if (held) return partly(held.bins + bins) - partly(held.bins) - weights.emptyPlace * bins;
  return (
    weights.room + (room.costInRegime[regime] ?? 0) + weights.emptyPlace * (places - bins) + partly(bins)
  );
}

function partsWith(
  parts: readonly LoadPart[],
  lot: number,
  more: readonly number[],
  taken: number,
): LoadPart[] {
  const had = parts.find((part) => part.lot === lot);
  if (!had) return [...parts, { lot, byArrival: [...more], bins: taken }];
  const byArrival = more.map((bins, index) => bins + (had.byArrival[index] ?? 0));
  return [...parts.filter((part) => part !== had), { lot, byArrival, bins: had.bins + taken }];
}
