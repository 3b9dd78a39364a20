import type { Highs } from 'highs';
import { LEAST_UNPLACED_RESTS_ON, leastUnplaced } from './bound';
import { type ExactFill, exactFill, MOST_ROOMS_EXACT } from './exact';
import { exchangeRooms } from './exchange';
import { proposalOf } from './proposal';
import { remediesFor } from './remedies';
import { searchFill } from './search';
import type { FillState } from './state';
import type { FillOptions, FillProblem, FillResult } from './types';
import { keepLotsWhole } from './whole-lots';
import { otherPlaces, withoutRooms } from './without-room';

export interface ProposeOptions extends FillOptions {
  /** Loads the solver; asked for only where the rooms are few enough for an exact answer. */
  readonly loadHighs?: (() => Promise<Highs>) | undefined;
  readonly timeLimitSeconds?: number | undefined;
}

const USUAL_SECONDS = 10;
const ROUNDING = 1e-3;
const MOST_SEARCHES = 3;
/** Moves of a further search, as a share of those of the first. */
const SHARE_OF_MOVES = 0.5;
/** Far from any seed a person would give next. */
const SEED_STEP = 1_000_003;
/** Share of all bins left over beyond the least, from which on it is worth searching again. */
const OVER_AIM = 0.0005;

/**
 * Which lots to put into which room: by search, and with few rooms also by an exact model, which then proves the fill
 * or betters it. The same problem, seed and moves give the same fill.
 */
export async function proposeFill(problem: FillProblem, options: ProposeOptions): Promise<FillResult> {
  const least = leastUnplaced(problem);
  const found = searchOften(problem, options, least);
  if (options.moves > 0) keepLotsWhole(found, options.seed);
  const few = problem.rooms.length > 0 && problem.rooms.length <= MOST_ROOMS_EXACT && problem.lots.length > 0;
  const highs = few ? await options.loadHighs?.() : undefined;
  const exact = highs && exactFill(highs, problem, options.timeLimitSeconds ?? USUAL_SECONDS);
  const better = exact?.state && exact.state.cost < found.cost - ROUNDING ? exact.state : found;
  return {
    ...resultOf(better, least),
    provenBest: exact !== undefined && isProven(exact, better.cost),
    ...(exact && { bound: Math.min(better.cost, exact.bound) }),
  };
}

/** A fill with its reasons; nothing is proven of it. */
export function resultOf(found: FillState, least: number): FillResult {
  return {
    proposal: proposalOf(found),
    leastUnplaced: least,
    leastUnplacedRestsOn: LEAST_UNPLACED_RESTS_ON,
    withoutRoom: withoutRooms(found),
    otherPlaces: otherPlaces(found),
    remedies: remediesFor(found),
    provenBest: false,
  };
}

/** Searches again where more is left over than may have to be, and takes the best; a search can end in a blind alley. */
function searchOften(problem: FillProblem, options: FillOptions, least: number): FillState {
  let best: FillState | undefined;
  for (let run = 0; run < MOST_SEARCHES; run++) {
    const moves = run === 0 ? options.moves : Math.ceil(options.moves * SHARE_OF_MOVES);
    const found = searchFill(problem, { ...options, moves, seed: options.seed + run * SEED_STEP });
    if (moves > 0) exchangeRooms(found);
    if (!best || found.cost < best.cost) best = found;
    const over = best.leftBins.reduce((sum, bins) => sum + bins, 0);
    const bins = problem.lots.reduce((sum, lot) => sum + lot.bins, 0);
    if (over - least <= OVER_AIM * bins) return best;
  }
  return best as FillState;
}

function isProven({ bound }: ExactFill, cost: number): boolean {
  return bound >= cost - Math.max(1, Math.abs(cost)) * 1e-6 - ROUNDING;
}
