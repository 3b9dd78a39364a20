import type { Day } from '../plan/dates';
import { bestFilling, type Filling, type Pickings, withPickings } from './intake';
import { type Likeness, likenessOf, mayJoin, unlikeCost, withLotIn } from './likeness';
import type { FillProblem, FreeRoom } from './types';
import { weights, wellFilled } from './weights';

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
  const lot = problem.lots[index];
  let taken = 0;
  for (const bins of more) taken += bins;
  const bins = (before?.bins ?? 0) + taken;
  if (!lot || taken === 0 || bins > freePlaces(room)) return undefined;
  if (room.held && room.held.regime !== regime) return undefined;
  if (!mayJoin(before?.likeness ?? likenessOf(room), lot)) return undefined;
  const pickings = withPickings(before?.pickings, lot.arrivals, more);
  const filling = bestFilling(problem, room, pickings);
  const likeness = filling && withLotIn(before?.likeness ?? likenessOf(room), lot, regime, taken);
  if (!filling || !likeness) return undefined;
  const parts = partsWith(before?.parts ?? [], index, more, taken);
  return made(room, { regime, parts, bins, pickings, likeness }, filling);
}

/** Places that a fill has not taken already. */
export function freePlaces({ places, held }: FreeRoom): number {
  return places - (held?.bins ?? 0);
}

function made(
  room: FreeRoom,
  load: Omit<RoomLoad, 'cost' | 'firstDay' | 'days'>,
  filling: Filling,
): RoomLoad {
  const { regime, bins, likeness } = load;
  const cost = placesCost(room, regime, bins) + filling.cost + unlikeCost(likeness, room);
  return { ...load, firstDay: filling.firstDay, days: filling.days, cost };
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
