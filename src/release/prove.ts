import type { Highs } from 'highs';
import { Branching } from './branching';
import type { Budget } from './budget';
import { choicesOf } from './choices';
import { gapOf } from './gap';
import type { Incumbent } from './incumbent';
import type { ReleaseModel } from './model';
import { boundOfTree } from './proof-tree';
import type { ReleaseProblem, ReleaseSchedule } from './types';

export const CASES_REST_ON =
  'cases that leave no schedule out, the linear relaxation of each proved again from its multipliers without the solver';

export const TIME_LIMIT = '; the time limit ended the proof';

/** Gap at which nothing is left to prove. */
export const NO_GAP = 5e-7;

/** Cases between two reports. */
const CASES_A_ROUND = 16;

export interface ProveOptions {
  readonly gap: number;
  readonly mostCases: number;
  readonly time: Budget;
  readonly shouldStop: () => boolean;
  readonly onProgress: (share: number) => void;
  /** The best packing and sales at the given opening weeks, -1 for a room left closed. */
  readonly polish: (opens: Int32Array) => ReleaseSchedule | undefined;
}

/**
 * Lowers the bound by branch and bound over the whole season, until the gap is small enough, nothing is left to take
 * apart, or cases or time run out. Cases are counted, so that with time enough the result repeats. Better schedules met
 * on the way are offered.
 */
export function proveByCases(
  highs: Highs,
  problem: ReleaseProblem,
  model: ReleaseModel,
  best: Incumbent,
  options: ProveOptions,
): void {
  const { linear } = model;
  const place = Int32Array.from({ length: linear.numCols }, (_, column) => column);
  const { choices, rooms } = choicesOf(model, linear, place);
  const offer = (places: readonly number[], bound: number) => {
    if (bound <= best.value) return;
    best.offer(options.polish(openingsAt(problem, model, rooms, places)));
  };
  const weights = rooms.map((room) => problem.rooms[room]?.bins ?? 0);
  const branching = new Branching(highs, linear, choices, weights, offer);
  try {
    options.time.spendOn(branching);
    takeCasesApart(branching, best, options);
    // Worked out from its tree of cases alone.
    const bound = boundOfTree(linear, choices, branching.proof);
    best.limit(bound, CASES_REST_ON + (options.time.spent ? TIME_LIMIT : ''));
  } finally {
    branching.dispose();
  }
}

function takeCasesApart(
  branching: Branching,
  best: Incumbent,
  { gap, mostCases, time, shouldStop, onProgress }: ProveOptions,
): void {
  const enough = () => gapOf(best.value, Math.max(branching.bound, best.value)) <= Math.max(gap, NO_GAP);
  const ended = () => time.spent || shouldStop() || enough();
  for (let cases = 0; cases < mostCases && !ended(); ) {
    const before = cases;
    const until = branching.cases + CASES_A_ROUND;
    while (branching.cases < until && !branching.done && cases < mostCases && !ended()) {
      const already = branching.cases;
      branching.step();
      cases += branching.cases - already;
      time.spendOn(branching);
    }
    onProgress(cases / mostCases);
    if (cases === before) return;
  }
}

/** The opening week of each room where each choice takes the column at its place. */
function openingsAt(
  problem: ReleaseProblem,
  model: ReleaseModel,
  rooms: readonly number[],
  places: readonly number[],
): Int32Array {
  const opens = new Int32Array(problem.rooms.length).fill(-1);
  rooms.forEach((room, choice) => {
    const weeks = model.openings.filter((opening) => opening.room === room);
    opens[room] = weeks[places[choice] ?? -1]?.week ?? -1;
  });
  return opens;
}
