import { finish, type Steps } from '../plan/steps';
import { CLOSED, type Placement, type SeasonState } from './season-state';

/** Shares of a room's bins that are moved between two of its weeks, large steps first. */
const STEPS = [0.5, 0.25, 0.1, 0.04];
const MOST_ROUNDS = 4;

/** Improves how each room's bins are spread over its weeks, one room at a time, until nothing is gained. */
export function polishShares(state: SeasonState, rooms: readonly number[]): void {
  finish(polishSharesSteps(state, rooms));
}

/** The same in steps, a room each. */
export function* polishSharesSteps(state: SeasonState, rooms: readonly number[]): Steps<void> {
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let improved = false;
    for (const room of rooms) {
      yield;
      improved = polishRoom(state, room) || improved;
    }
    if (!improved) return;
  }
}

function polishRoom(state: SeasonState, room: number): boolean {
  const week = state.opens[room] as number;
  if (week === CLOSED) return false;
  const count = state.emptyingWeeks(room, week);
  const all = state.problem.rooms[room]?.bins ?? 0;
  let improved = false;
  for (const step of STEPS) {
    if (state.isFromField(room) && polishAmount(state, room, week, step * all)) improved = true;
    for (let from = 0; from < count; from++) {
      for (let to = 0; to < count; to++) {
        if (from !== to && shift(state, room, week, from, to, step * all)) improved = true;
      }
    }
  }
  return improved;
}

/** Packs up to so many bins more, or fewer, of fruit from the field in each of its weeks. */
function polishAmount(state: SeasonState, room: number, week: number, bins: number): boolean {
  const all = state.problem.rooms[room]?.bins ?? 0;
  let improved = false;
  for (let since = 0; since < state.emptyingWeeks(room, week); since++) {
    const row = packedOf(state, room);
    const left = all - row.reduce((sum, one) => sum + one, 0);
    const more = Math.min(bins, left, roomFor(state, room, week, since, row));
    const fewer = Math.min(bins, row[since] as number);
    improved = [more, -fewer].some((change) => add(state, room, week, since, change)) || improved;
  }
  return improved;
}

function add(state: SeasonState, room: number, week: number, since: number, bins: number): boolean {
  if (Math.abs(bins) <= 1e-6) return false;
  const row = packedOf(state, room);
  row[since] = (row[since] as number) + bins;
  return makeIfBetter(state, { room, week, bins: row });
}

/** Moves up to `bins` from one week of the room's emptying to another; false where it gains nothing. */
function shift(
  state: SeasonState,
  room: number,
  week: number,
  from: number,
  to: number,
  bins: number,
): boolean {
  const row = packedOf(state, room);
  const moved = Math.min(bins, row[from] as number, roomFor(state, room, week, to, row));
  if (moved <= 1e-6) return false;
  row[from] = (row[from] as number) - moved;
  row[to] = (row[to] as number) + moved;
  return makeIfBetter(state, { room, week, bins: row });
}

function packedOf(state: SeasonState, room: number): Float64Array {
  return state.packed.slice(room * state.span, (room + 1) * state.span);
}

/** Bins more that may be packed of the room in a week of its emptying. */
function roomFor(state: SeasonState, room: number, week: number, since: number, row: Float64Array): number {
  const most = state.problem.rooms[room]?.fromField?.mostBins[since];
  const free = state.freeSince(room, week, since);
  return most === undefined ? free : Math.min(free, most - (row[since] as number));
}

function makeIfBetter(state: SeasonState, placement: Placement): boolean {
  const placements: [Placement] = [placement];
  const change = state.try(placements);
  if (change <= 1e-6) return false;
  state.lift(placement.room);
  state.commit(placements, change);
  return true;
}
