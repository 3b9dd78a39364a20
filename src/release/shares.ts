import { CLOSED, type Placement, type SeasonState } from './season-state';

/** Shares of a room's bins that are moved between two of its weeks, large steps first. */
const STEPS = [0.5, 0.25, 0.1, 0.04];
const MOST_ROUNDS = 4;

/** Improves how each room's bins are spread over its weeks, one room at a time, until nothing is gained. */
export function polishShares(state: SeasonState, rooms: readonly number[]): void {
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let improved = false;
    for (const room of rooms) improved = polishRoom(state, room) || improved;
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
    for (let from = 0; from < count; from++) {
      for (let to = 0; to < count; to++) {
        if (from !== to && shift(state, room, week, from, to, step * all)) improved = true;
      }
    }
  }
  return improved;
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
  const row = state.packed.slice(room * state.span, (room + 1) * state.span);
  const moved = Math.min(bins, row[from] as number, state.freeSince(room, week, to));
  if (moved <= 1e-6) return false;
  row[from] = (row[from] as number) - moved;
  row[to] = (row[to] as number) + moved;
  const placements: [Placement] = [{ room, week, bins: row }];
  const change = state.try(placements);
  if (change <= 1e-6) return false;
  state.lift(room);
  state.commit(placements, change);
  return true;
}
