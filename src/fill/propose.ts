import type { Highs } from 'highs';
import { LEAST_UNPLACED_RESTS_ON, leastUnplaced } from './bound';
import { type ExactFill, exactFill, MOST_ROOMS_EXACT } from './exact';
import { proposalOf } from './proposal';
import { searchFill } from './search';
import type { FillOptions, FillProblem, FillResult } from './types';
import { withoutRooms } from './without-room';

export interface ProposeOptions extends FillOptions {
  /** Loads the solver; asked for only where the rooms are few enough for an exact answer. */
  readonly loadHighs?: (() => Promise<Highs>) | undefined;
  readonly timeLimitSeconds?: number | undefined;
}

const USUAL_SECONDS = 10;
const ROUNDING = 1e-3;

/**
 * Which lots to put into which room: by search, and with few rooms also by an exact model, which then proves the fill
 * or betters it. The same problem, seed and moves give the same fill.
 */
export async function proposeFill(problem: FillProblem, options: ProposeOptions): Promise<FillResult> {
  const found = searchFill(problem, options);
  const few = problem.rooms.length > 0 && problem.rooms.length <= MOST_ROOMS_EXACT && problem.lots.length > 0;
  const highs = few ? await options.loadHighs?.() : undefined;
  const exact = highs && exactFill(highs, problem, options.timeLimitSeconds ?? USUAL_SECONDS);
  const better = exact?.state && exact.state.cost < found.cost - ROUNDING ? exact.state : found;
  const least = leastUnplaced(problem);
  return {
    proposal: proposalOf(better),
    leastUnplaced: least,
    leastUnplacedRestsOn: LEAST_UNPLACED_RESTS_ON,
    withoutRoom: withoutRooms(better),
    provenBest: exact !== undefined && isProven(exact, better.cost),
    ...(exact && { bound: Math.min(better.cost, exact.bound) }),
  };
}

function isProven({ bound }: ExactFill, cost: number): boolean {
  return bound >= cost - Math.max(1, Math.abs(cost)) * 1e-6 - ROUNDING;
}
