import type { Highs } from 'highs';
import { Branching } from './branching';
import type { Budget } from './budget';
import { gapOf } from './gap';
import type { Incumbent } from './incumbent';
import type { LinearModel } from './linear-model';
import type { ReleaseModel } from './model';
import { choicesOf, takeApart } from './parts';
import { wayToProve } from './proof-sizes';
import { boundOfTree, type Choice } from './proof-tree';
import type { ReleaseProblem, ReleaseSchedule } from './types';

export const CASES_REST_ON =
  'cases that leave no schedule out, the linear relaxation of each proved again from its multipliers without the solver';

export const PARTS_REST_ON =
  'cases for each variety, what varieties share at a price; the linear relaxation of each case proved again from its ' +
  'multipliers without the solver';

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

/** Something branched over, and what is needed to prove its bound again. */
interface Branched {
  readonly linear: LinearModel;
  readonly choices: readonly Choice[];
  readonly branching: Branching;
}

/**
 * Lowers the bound by branch and bound, until the gap is small enough, nothing is left to take apart, or cases or time
 * run out. Cases are counted, so that with time enough the result repeats. Better schedules met on the way are offered.
 */
export function proveByCases(
  highs: Highs,
  problem: ReleaseProblem,
  model: ReleaseModel,
  multipliers: Float64Array,
  best: Incumbent,
  options: ProveOptions,
): void {
  const whole = wayToProve(problem).startsWith('whole');
  const { constant, parts } = whole ? wholeSeason(model) : takeApart(problem, model, multipliers);
  const weight = (room: number) => problem.rooms[room]?.bins ?? 0;
  const branched: Branched[] = [];
  try {
    for (const { linear, choices, rooms } of parts) {
      const offer = (places: readonly number[], bound: number) => {
        if (bound <= best.value) return;
        best.offer(options.polish(openingsAt(problem, model, rooms, places)));
      };
      const weights = rooms.map(weight);
      const branching = new Branching(highs, linear, choices, weights, whole ? offer : undefined);
      branched.push({ linear, choices, branching });
      if (options.time.spendOn(branching)) break;
    }
    if (branched.length < parts.length) return;
    takeCasesApart(constant, branched, best, options);
    const bound = constant + sum(branched.map(proveAgain));
    best.limit(bound, (whole ? CASES_REST_ON : PARTS_REST_ON) + (options.time.spent ? TIME_LIMIT : ''));
  } finally {
    for (const { branching } of branched) branching.dispose();
  }
}

function takeCasesApart(
  constant: number,
  branched: readonly Branched[],
  best: Incumbent,
  { gap, mostCases, time, shouldStop, onProgress }: ProveOptions,
): void {
  const enough = () => {
    const bound = constant + sum(branched.map(({ branching }) => branching.bound));
    return gapOf(best.value, Math.max(bound, best.value)) <= Math.max(gap, NO_GAP);
  };
  const ended = () => time.spent || shouldStop() || enough();
  for (let cases = 0; cases < mostCases && !ended(); ) {
    const before = cases;
    for (const { branching } of branched) {
      const until = branching.cases + Math.max(2, CASES_A_ROUND / branched.length);
      while (branching.cases < until && !branching.done && cases < mostCases && !ended()) {
        const already = branching.cases;
        branching.step();
        cases += branching.cases - already;
        time.spendOn(branching);
      }
    }
    onProgress(cases / mostCases);
    if (cases === before) return;
  }
}

/** The bound of something branched over, worked out from its tree of cases alone. */
function proveAgain({ linear, choices, branching }: Branched): number {
  return boundOfTree(linear, choices, branching.proof);
}

function wholeSeason(model: ReleaseModel) {
  const place = Int32Array.from({ length: model.linear.numCols }, (_, column) => column);
  const { choices, rooms } = choicesOf(model, model.linear, place);
  return { constant: 0, parts: [{ linear: model.linear, choices, rooms }] };
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

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
