import type { Highs } from 'highs';
import { Budget } from './budget';
import { canonicalProblem } from './canonical';
import { checkSchedule } from './checker';
import { findConflicts } from './conflicts';
import { gapOf } from './gap';
import { Incumbent } from './incumbent';
import { type LoadHighs, solveInteger, solveRelaxation } from './linear';
import { buildModel, type ReleaseModel, seasonModel } from './model';
import { RELAXATION_RESTS_ON, relaxationBound } from './relaxation-bound';
import { replayedSchedule } from './replay';
import { searchSchedule } from './search';
import { settledSchedule } from './settle';
import type { ReleaseProblem, ReleaseProgress, ReleaseResult, ReleaseSchedule, SearchOptions } from './types';

/** Attribution rows pay up to about this many rooms; beyond, the plain relaxation is nearly as close. */
const MOST_ROOMS_ATTRIBUTED = 100;
/** Columns up to which branch and bound has a chance of getting anywhere. */
const MOST_COLUMNS_BRANCHED = 8000;

/** Rooms up to which a proof is so cheap that it is always asked for. */
const FEW_ROOMS = 6;
/** Seconds that polishing may take though the time is up; it needs a tenth of a second at fifty rooms. */
const POLISH_SECONDS = 10;

export interface SolveOptions extends SearchOptions {
  readonly loadHighs: LoadHighs;
  /** Seconds the solver may take in all; the search counts moves instead. */
  readonly timeLimitSeconds: number;
  /** Gap, as a share, that is good enough: below it no more is tried. A few rooms are proven anyhow, as 0 asks. */
  readonly gap: number;
  readonly onProgress?: ((progress: ReleaseProgress) => void) | undefined;
  /** Called with each better schedule or bound, the last one included. */
  readonly onIncumbent?: ((result: ReleaseResult) => void) | undefined;
  /** Asked between steps; once true, what there is is returned. */
  readonly shouldStop?: (() => boolean) | undefined;
}

/**
 * The release schedule with a proof of how far from the best it can be: search, then the best packing and sales at its
 * weeks by linear program, then a bound from the relaxation that is proved again from its multipliers without the
 * solver, then branch and bound where the season is small enough. Throws where the schedule does not pass the
 * independent check.
 */
export async function solveRelease(problem: ReleaseProblem, options: SolveOptions): Promise<ReleaseResult> {
  const canonical = canonicalProblem(problem);
  const conflicts = findConflicts(canonical.problem);
  const best = new Incumbent(
    canonical.problem,
    conflicts.unmet,
    (schedule, bound, restsOn, provenOptimal) => {
      const result: ReleaseResult = {
        schedule: canonical.restore(schedule),
        bound,
        gap: gapOf(schedule.value, bound),
        boundRestsOn: restsOn,
        provenOptimal,
        conflicts: conflicts.messages,
        unmet: canonical.originalRooms(conflicts.unmet),
      };
      options.onIncumbent?.(result);
      return result;
    },
  );
  await improve(canonical.problem, conflicts.unmet, options, best);
  options.onProgress?.({ stage: 'checking', share: 1, value: best.value, bound: best.bound });
  const violations = checkSchedule(canonical.problem, best.schedule, conflicts.unmet);
  if (violations.length > 0)
    throw new Error(`The schedule does not hold: ${violations.map((one) => one.message).join('; ')}.`);
  return best.result();
}

async function improve(
  problem: ReleaseProblem,
  unmet: readonly number[],
  options: SolveOptions,
  best: Incumbent,
): Promise<void> {
  const stop = () => options.shouldStop?.() ?? false;
  const report = (stage: ReleaseProgress['stage'], share: number, value = best.value) =>
    options.onProgress?.({ stage, share, value, bound: best.bound });
  const found = searchSchedule(problem, unmet, options, {
    onProgress: (share, value) => report('searching', share, value),
    shouldStop: options.shouldStop,
  });
  best.offer(settledSchedule(problem, found));
  if (stop()) return;
  const highs = await options.loadHighs();
  report('polishing', 0);
  const time = new Budget(options.timeLimitSeconds);
  best.offer(polished(highs, problem, found.opens, time));
  if (stop()) return;
  report('bounding', 0);
  const plain = seasonModel(problem, unmet, false);
  const gap = problem.rooms.length <= FEW_ROOMS ? 0 : options.gap;
  best.limit(relaxationBound(highs, plain.linear, ['corner'], time), RELAXATION_RESTS_ON);
  report('bounding', 0.2);
  if (stop() || best.gap <= gap) return;
  const closer = problem.rooms.length <= MOST_ROOMS_ATTRIBUTED;
  const model = closer ? seasonModel(problem, unmet, true) : plain;
  if (closer)
    best.limit(relaxationBound(highs, model.linear, ['interior', 'corner'], time), RELAXATION_RESTS_ON);
  report('bounding', 1);
  if (stop() || best.gap <= gap || model.linear.numCols > MOST_COLUMNS_BRANCHED || time.spent) return;
  branch(highs, problem, model, { ...options, gap }, best, time);
}

const BRANCHING_RESTS_ON = "the solver's word; unlike other bounds, no second calculation confirms it";

/** The best packing and sales for given opening weeks. */
function polished(
  highs: Highs,
  problem: ReleaseProblem,
  opens: ArrayLike<number>,
  time: Budget,
): ReleaseSchedule | undefined {
  const model = buildModel(problem, {
    weeksOf: (room) => ((opens[room] ?? -1) < 0 ? [] : [opens[room] as number]),
    mustOpen: () => true,
    attribution: false,
  });
  // A schedule half polished is none, so this one step may run over.
  const solution = solveRelaxation(highs, model.linear, 'corner', Math.max(time.left, POLISH_SECONDS));
  time.spend(solution.seconds);
  return solution.finished ? replayedSchedule(problem, model, solution.columns) : undefined;
}

function branch(
  highs: Highs,
  problem: ReleaseProblem,
  model: ReleaseModel,
  options: SolveOptions,
  best: Incumbent,
  time: Budget,
): void {
  const whole = model.openings.filter(({ column }) => model.linear.whole[column] === 1);
  const start = {
    indices: Int32Array.from(whole, ({ column }) => column),
    values: Float64Array.from(whole, ({ room, week }) => (best.schedule.opens[room] === week ? 1 : 0)),
  };
  const solved = solveInteger(highs, model.linear, start, {
    gap: options.gap,
    timeLimitSeconds: time.left,
    shouldStop: options.shouldStop,
    onBound: (value, bound) =>
      options.onProgress?.({
        stage: 'bounding',
        share: 1,
        value: Math.max(value, best.value),
        bound: Math.min(bound, best.bound),
      }),
  });
  if (!solved) return;
  time.spend(solved.seconds);
  const opens = new Int32Array(problem.rooms.length).fill(-1);
  for (const { room, week, column } of whole) if ((solved.columns[column] ?? 0) > 0.5) opens[room] = week;
  best.offer(polished(highs, problem, opens, time));
  best.limit(solved.bound, BRANCHING_RESTS_ON);
}
