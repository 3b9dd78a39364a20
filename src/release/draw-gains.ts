import type { DrawInputs } from './draw-inputs';
import { type DrawSpan, drawsOf } from './draw-tally';
import { drawnProblem } from './drawn-problem';
import { bestPlacement, type RoomMove, takeSchedule } from './placing';
import { type Placement, SeasonState } from './season-state';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/** Moves made together. */
export type Candidate = readonly RoomMove[];

/**
 * About what each candidate would bring, added over the seasons of a span: the room's bins packed anew in each season
 * and sales by the search's rule. It ranks candidates; what is taken is reckoned exactly.
 */
export function gainsInDraws(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  inputs: DrawInputs,
  span: DrawSpan,
  candidates: readonly Candidate[],
): number[] {
  const gains = new Array<number>(candidates.length).fill(0);
  for (const draw of drawsOf(problem, inputs, span)) {
    const state = new SeasonState(drawnProblem(problem, inputs, draw));
    takeSchedule(state, schedule);
    candidates.forEach((candidate, at) => {
      gains[at] = (gains[at] ?? 0) + gainOf(state, candidate);
    });
  }
  return gains;
}

/** Worth little where a move cannot be made in a season: the room is then packed as far as it goes. */
function gainOf(state: SeasonState, candidate: Candidate): number {
  for (const { room } of candidate) state.lift(room);
  const placements: Placement[] = [];
  let change = 0;
  for (const move of candidate) {
    const found = bestPlacement(state, move, false);
    if (!found) {
      for (const { room } of candidate) state.putBack(room);
      return 0;
    }
    placements.push(found.placement);
    change = found.change;
  }
  if (placements.length > 1) change = state.try(placements);
  for (const { room } of candidate) state.putBack(room);
  return change;
}
