import type { Highs } from 'highs';
import { canonicalProblem } from './canonical';
import { certifiedBound } from './certificate';
import { checkSchedule } from './checker';
import { findConflicts } from './conflicts';
import { gapOf } from './gap';
import { type LoadHighs, solveInteger, solveRelaxation } from './linear';
import { buildModel, type ReleaseModel } from './model';
import { replayedSchedule } from './replay';
import { searchSchedule } from './search';
import { settledSchedule } from './settle';
import { SIMPLE_BOUND_RESTS_ON, simpleBound } from './simple-bound';
import type {
  ProblemRoom,
  ReleaseProblem,
  ReleaseProgress,
  ReleaseResult,
  ReleaseSchedule,
  SearchOptions,
} from './types';

/** Attribution rows pay up to about this many rooms; beyond, the plain relaxation is nearly as close. */
const MOST_ROOMS_ATTRIBUTED = 100;
/** Columns up to which branch and bound has a chance of getting anywhere. */
const MOST_COLUMNS_BRANCHED = 8000;
/** How far a bound from the multipliers may lie above the relaxation's own value, as a share of it. */
const CLOSE_BOUND = 1e-4;
/** A gap below this is rounding: the schedule is proven optimal. */
const PROVEN_GAP = 1e-6;

export interface SolveOptions extends SearchOptions {
  readonly loadHighs: LoadHighs;
  /** Seconds the solver may take in all; the search counts moves instead. */
  readonly timeLimitSeconds: number;
  /** Gap, as a share, that is good enough: below it no branch and bound is tried. 0 asks for a proof. */
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
  const report = (stage: ReleaseProgress['stage'], share: number) =>
    options.onProgress?.({ stage, share, value: best.value, bound: best.bound });
  const found = searchSchedule(problem, unmet, options, {
    onProgress: (share) => report('searching', share),
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
  const model = buildModel(problem, {
    weeksOf: (room) => (unmet.includes(room) ? [] : allowedWeeks(problem.rooms[room])),
    mustOpen: (room) => problem.rooms[room]?.pinned !== null,
    attribution: problem.rooms.length <= MOST_ROOMS_ATTRIBUTED,
  });
  best.limit(relaxationBound(highs, model, time), RELAXATION_RESTS_ON);
  report('bounding', 1);
  if (stop() || best.gap <= options.gap || model.linear.numCols > MOST_COLUMNS_BRANCHED) return;
  branch(highs, problem, model, options, best, time);
}

const RELAXATION_RESTS_ON =
  'the linear relaxation of the season, proved again from its multipliers without the solver';
const BRANCHING_RESTS_ON = "the solver's branch and bound; it is not proved again without the solver";

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
  const solution = solveRelaxation(highs, model.linear, 'corner', time.left);
  time.spend(solution.seconds);
  return solution.finished ? replayedSchedule(problem, model, solution.columns) : undefined;
}

/** The interior point is fast but may stop short, which its multipliers then show; a vertex does not. */
function relaxationBound(highs: Highs, model: ReleaseModel, time: Budget): number {
  let bound = Number.POSITIVE_INFINITY;
  for (const way of ['interior', 'corner'] as const) {
    const relaxed = solveRelaxation(highs, model.linear, way, time.left);
    time.spend(relaxed.seconds);
    bound = Math.min(bound, certifiedBound(model.linear, relaxed.multipliers));
    if (relaxed.finished && bound - relaxed.value <= CLOSE_BOUND * Math.abs(relaxed.value)) break;
  }
  return bound;
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

function allowedWeeks(room: ProblemRoom | undefined): number[] {
  if (!room) return [];
  if (room.pinned !== null) return [room.pinned];
  return Array.from(
    { length: Math.max(0, room.latest - room.earliest + 1) },
    (_, index) => room.earliest + index,
  );
}

/** What is left of the solver's seconds. */
class Budget {
  /** Enough to say something: a limit of 0 would mean none to some. */
  private static readonly LEAST = 0.05;
  constructor(private seconds: number) {}
  get left(): number {
    return Math.max(Budget.LEAST, this.seconds);
  }
  spend(seconds: number): void {
    this.seconds -= seconds;
  }
}

/** The best schedule and the best bound so far. */
class Incumbent {
  private best: ReleaseSchedule | undefined;
  bound: number;
  private restsOn = SIMPLE_BOUND_RESTS_ON;

  constructor(
    problem: ReleaseProblem,
    unmet: readonly number[],
    private readonly publish: (
      schedule: ReleaseSchedule,
      bound: number,
      restsOn: string,
      provenOptimal: boolean,
    ) => ReleaseResult,
  ) {
    this.bound = simpleBound(problem, unmet);
  }

  get schedule(): ReleaseSchedule {
    if (!this.best) throw new RangeError('no schedule yet');
    return this.best;
  }

  get value(): number {
    return this.best?.value ?? Number.NEGATIVE_INFINITY;
  }

  get gap(): number {
    return gapOf(this.value, this.bound);
  }

  offer(schedule: ReleaseSchedule | undefined): void {
    if (!schedule || schedule.value <= this.value) return;
    this.best = schedule;
    this.result();
  }

  limit(bound: number, restsOn: string): void {
    if (!(bound < this.bound)) return;
    this.bound = bound;
    this.restsOn = restsOn;
    if (this.best) this.result();
  }

  result(): ReleaseResult {
    return this.publish(this.schedule, this.bound, this.restsOn, this.gap <= PROVEN_GAP);
  }
}
