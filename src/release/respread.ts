import type { DrawInputs } from './draw-inputs';
import type { DrawnSales } from './drawn-firmness';
import { drawnProblem } from './drawn-problem';
import { drawnFilling } from './drawn-room';
import type { Draw } from './draws';
import { bestPlacement, packedIn } from './placing';
import { type Placement, SeasonState, spreadBins } from './season-state';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/** Rounds over the rooms; a second one takes up what others have left free. */
const ROUNDS = 2;

/**
 * Bins to pack by room and week in a season drawn, spread anew over the weeks in which each room is emptied, the opening
 * weeks held: as a planner would once the crop, the packout and the orders show. It starts from the planned proportions
 * and changes a room's spread where that gains, all others as they are. What the packhouse cannot take of a room stands
 * in its last week, to wait.
 */
export function packedAnew(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  inputs: DrawInputs,
  draw: Draw,
  sales: DrawnSales | undefined,
): number[][] {
  const state = new SeasonState(drawnProblem(problem, inputs, draw, sales));
  const rooms = schedule.opens
    .flatMap((week, room) => (week === null ? [] : [{ room, week }]))
    .sort((a, b) => a.week - b.week || a.room - b.room);
  for (const { room, week } of rooms) {
    const placement = inProportion(state, problem, schedule, room, week);
    state.commit([placement], state.try([placement]));
  }
  for (let round = 0; round < ROUNDS; round++) {
    for (const move of rooms) {
      state.lift(move.room);
      const found = bestPlacement(state, move, true);
      if (found && found.change > 0) state.commit([found.placement], state.try([found.placement]));
      else state.putBack(move.room);
    }
  }
  const packed = packedIn(state);
  for (const { room, week } of rooms) {
    const one = problem.rooms[room];
    const row = packed[room];
    if (!one || !row || one.fromField) continue;
    const rest = one.bins * drawnFilling(problem, inputs, room, draw).bins - sum(row);
    const last = week + state.emptyingWeeks(room, week) - 1;
    if (rest > 0) row[last] = (row[last] ?? 0) + rest;
  }
  return packed;
}

/** The room packed in the planned proportions, as far as the packhouse takes it. */
function inProportion(
  state: SeasonState,
  problem: ReleaseProblem,
  { packed }: ReleaseSchedule,
  room: number,
  week: number,
): Placement {
  const one = problem.rooms[room];
  const weights = Array.from({ length: state.span }, (_, since) => packed[room]?.[week + since] ?? 0);
  // Fruit from the field need not be packed whole; a room must be.
  const share = one?.fromField && one.bins > 0 ? Math.min(1, sum(weights) / one.bins) : 1;
  const bins = new Float64Array(state.span);
  spreadBins(state, room, weights, week, bins, share);
  return { room, week, bins };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
