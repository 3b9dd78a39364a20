import { anneal, Best } from './anneal';
import { placeBest } from './greedy';
import { bestPlacement, movable, packedIn, type RoomMove, takeSchedule } from './placing';
import { seededRandom } from './random';
import { CLOSED, SeasonState } from './season-state';
import { settledSchedule } from './settle';
import { polishShares } from './shares';
import type { ReleaseProblem, ReleaseSchedule, SearchOptions } from './types';

/** Moves after which a schedule of some sixty rooms has found its way around an opening that was dragged. */
export const MOVES_AROUND = 25_000;

/** The start is a good schedule already, which more heat would lose. */
const [HOT, COLD] = [0.02, 0.002];

/** Rounds in which each room takes its best week. */
const MOST_ROUNDS = 3;

/** A schedule as a state that openings can be moved in one by one. */
export function stateOf(problem: ReleaseProblem, schedule: ReleaseSchedule): SeasonState {
  const state = new SeasonState(problem);
  takeSchedule(state, schedule);
  return state;
}

/**
 * Opens a room in another week (`CLOSED` leaves it shut), its bins spread over its weeks as is best, all other rooms as
 * they stand. Returns the change of value in money; only the products that the room gives are valued anew, and the state
 * is what it would be from scratch. Undefined, and nothing changed, where the room may not open then or does not fit.
 */
export function reviseOpening(state: SeasonState, room: number, week: number): number | undefined {
  state.lift(room);
  const found = bestPlacement(state, { room, week }, week !== CLOSED);
  if (!found) {
    state.putBack(room);
    return undefined;
  }
  const change = state.try([found.placement]);
  state.commit([found.placement], change);
  return change;
}

/** A schedule found around openings that are held. */
export interface Around {
  readonly schedule: ReleaseSchedule;
  /** Money more than with the held openings alone moved, sales by the same rule. */
  readonly gain: number;
}

/**
 * A better schedule around openings that the planner has dragged: those are made and held, all other rooms that are not
 * pinned may move. Never worth less than with the held openings alone. Moves are counted, so the same seed finds the
 * same. Undefined where the held openings cannot all be made.
 */
export function betterAround(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  held: readonly RoomMove[],
  options: SearchOptions & { readonly unmet?: readonly number[] },
): Around | undefined {
  const state = stateOf(problem, schedule);
  for (const { room, week } of held) {
    if (state.opens[room] !== week && reviseOpening(state, room, week) === undefined) return undefined;
  }
  const before = state.value;
  const best = new Best(state);
  const rooms = movable(problem, options.unmet ?? []).filter((room) =>
    held.every((one) => one.room !== room),
  );
  if (rooms.length > 0) {
    const cooling = { moves: options.moves, hot: HOT, cold: COLD };
    anneal(state, rooms, cooling, seededRandom(options.seed), best, () => false);
    best.restore(state);
    for (let round = 0; round < MOST_ROUNDS && placeBest(state, rooms); round++);
    polishShares(state, rooms);
    best.note(state);
    best.restore(state);
  }
  const found = { opens: state.opens.slice(), packed: packedIn(state) };
  return { schedule: settledSchedule(problem, found), gain: best.value - before };
}
