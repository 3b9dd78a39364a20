import type { Highs } from 'highs';
import { Budget } from './budget';
import { canonicalProblem } from './canonical';
import { checkSchedule } from './checker';
import { findConflicts } from './conflicts';
import { gapOf } from './gap';
import { guidedSearch } from './guided';
import { Incumbent } from './incumbent';
import { type LoadHighs, solveRelaxation } from './linear';
import { buildModel, seasonModel } from './model';
import { PRICED_CASES_REST_ON } from './parts-certificate';
import { PRICES_REST_ON } from './price-certificate';
import { type Pricing, PricingHere, secondsAhead } from './pricing';
import { MOST_CASES, paysRefining, wayToProve } from './proof-sizes';
import { proveByCases, TIME_LIMIT } from './prove';
import { MOVES_A_ROOM_AND_RUN, refinedSearch } from './refine';
import { RELAXATION_RESTS_ON, relaxationBound } from './relaxation-bound';
import { replayedSchedule } from './replay';
import { type Found, type SearchHooks, searchSchedule } from './search';
import { settledSchedule } from './settle';
import type { ReleaseProblem, ReleaseProgress, ReleaseResult, ReleaseSchedule, SearchOptions } from './types';

/** Moves of the search that starts where the prices open the rooms, as a share of those that are asked for. */
const SHARE_OF_GUIDED_MOVES = 0.9;

/** Seconds of cases that a round has at least. */
const LEAST_ROUND_SECONDS = 1;
/** Seconds of cases looked at while a move of the search beside them is made. */
const SECONDS_OF_CASES_A_MOVE = 5e-6;
/** Moves for each room below which a search from a schedule is not worth its start. */
const LEAST_MOVES_A_ROOM = 500;

/** Rows up to which polishing is quicker without preparing: measured in fresh workers, at 60 and 200 rooms. */
const MOST_ROWS_UNPREPARED = 2000;

/**
 * Polishing gains some two thousandths. Who is content with a gap ten times as wide wants an answer at once, and where
 * search and prices alone give it, the solver need not even be loaded.
 */
const GAP_OF_HASTE = 0.02;

/** Seconds that polishing may take though there are none left; it needs a tenth of a second at fifty rooms. */
const POLISH_SECONDS = 10;

export interface SolveOptions extends SearchOptions {
  readonly loadHighs: LoadHighs;
  /** Seconds of work that a proof may take, counted as a usual machine takes them: `work.ts`. The search counts moves. */
  readonly timeLimitSeconds: number;
  /** Gap, as a share, that is good enough: below it no more is tried. A few rooms are proven anyhow, as 0 asks. */
  readonly gap: number;
  /** Cases that branch and bound may look at; with time enough, they alone decide where it ends. */
  readonly mostCases?: number | undefined;
  /** What is worked out at prices on another thread; without it, it is worked out here. */
  readonly pricing?: Pricing | undefined;
  readonly onProgress?: ((progress: ReleaseProgress) => void) | undefined;
  /** Called with each better schedule or bound, the last one included. */
  readonly onIncumbent?: ((result: ReleaseResult) => void) | undefined;
  /** Asked between steps; once true, what there is is returned. */
  readonly shouldStop?: (() => boolean) | undefined;
}

/**
 * The release schedule with a proof of how far from the best it can be: search, then a bound from prices and a search
 * from where they open the rooms, then the best packing and sales at its weeks by linear program, then bounds from the
 * relaxation, then branch and bound: over the whole season where it is small, by variety where it is larger. Every bound
 * is proved again, from prices or multipliers, without the solver. Throws where the schedule does not pass the
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

/** What the steps of a solve share. */
interface Solve {
  readonly problem: ReleaseProblem;
  readonly unmet: readonly number[];
  readonly options: SolveOptions;
  readonly best: Incumbent;
  readonly time: Budget;
  stop(): boolean;
  report(stage: ReleaseProgress['stage'], share: number, value?: number): void;
}

async function improve(
  problem: ReleaseProblem,
  unmet: readonly number[],
  options: SolveOptions,
  best: Incumbent,
): Promise<void> {
  const way = wayToProve(problem);
  const solve: Solve = {
    problem,
    unmet,
    options,
    best,
    time: new Budget(options.timeLimitSeconds),
    stop: () => options.shouldStop?.() ?? false,
    report: (stage, share, value = best.value) =>
      options.onProgress?.({ stage, share, value, bound: best.bound }),
  };
  const pricing =
    way === 'whole' ? undefined : (options.pricing ?? new PricingHere(problem, unmet, options, options));
  const found = await searched(solve, pricing);
  if (solve.stop()) return;
  // Prices that say no more than the plainest bound are no help to cases either.
  const tells = !pricing || lower(best, await pricing.bound(), PRICES_REST_ON);
  if (pricing && options.gap > GAP_OF_HASTE && isEnough(solve)) return;
  const highs = await options.loadHighs();
  solve.report('polishing', 0);
  best.offer(polished(highs, problem, found.opens, solve.time));
  solve.report('bounding', 0);
  if (isEnough(solve)) return;
  if (!pricing || way === 'whole beside prices') proveWhole(solve, highs);
  else if (way === 'cases at prices') await proveAtPrices(solve, highs, pricing, found, tells);
  else lower(best, await pricing.relaxed(), RELAXATION_RESTS_ON);
}

/** Whether the bound came down. */
function lower(best: Incumbent, bound: number, restsOn: string): boolean {
  const before = best.bound;
  best.limit(bound, restsOn);
  return best.bound < before;
}

/** True where the gap is as small as asked, or the search was stopped. A few rooms are proven anyhow. */
function isEnough({ problem, options, best, stop }: Solve): boolean {
  return stop() || best.gap <= (wayToProve(problem) === 'whole' ? 0 : options.gap);
}

/**
 * A search from nothing, then one from where prices open the rooms, if that finds better; what moves are left go to the
 * better of the two.
 */
async function searched(solve: Solve, pricing: Pricing | undefined): Promise<Found> {
  const { problem, unmet, options, best, stop, report } = solve;
  const { seed, moves, shouldStop } = options;
  const guidedMoves = pricing ? Math.floor(moves * SHARE_OF_GUIDED_MOVES) : 0;
  const first = 1 - guidedMoves / Math.max(1, moves);
  const hooks = (from: number, to: number) => ({
    onProgress: (share: number, value: number) => report('searching', from + share * (to - from), value),
    shouldStop,
  });
  const found = searchSchedule(problem, unmet, { seed, moves: moves - guidedMoves }, hooks(0, first));
  best.offer(settledSchedule(problem, found));
  if (!pricing || stop()) return found;
  const openings = await pricing.openings();
  const most = paysRefining(problem) ? MOVES_A_ROOM_AND_RUN * problem.rooms.length : guidedMoves;
  const itsMoves = Math.min(guidedMoves, most);
  const until = first + itsMoves / Math.max(1, moves);
  const guided = guidedSearch(problem, unmet, openings, { seed, moves: itsMoves }, hooks(first, until));
  const worth = best.value;
  if (guided) best.offer(settledSchedule(problem, guided));
  const better = guided && best.value > worth ? guided : found;
  return refine(solve, better, guidedMoves - itsMoves, seed, hooks(until, 1));
}

/** Branch and bound over the whole season. */
function proveWhole(solve: Solve, highs: Highs): void {
  const { problem, unmet, options, best, time, stop, report } = solve;
  if (wayToProve(problem) === 'whole') {
    const plain = seasonModel(problem, unmet, false);
    best.limit(relaxationBound(highs, plain.linear, ['corner'], time).bound, RELAXATION_RESTS_ON);
    report('bounding', 0.2);
    if (isEnough(solve) || time.spent) return;
  }
  const model = seasonModel(problem, unmet, true);
  const relaxed = relaxationBound(highs, model.linear, ['interior', 'corner'], time);
  best.limit(relaxed.bound, RELAXATION_RESTS_ON);
  report('bounding', 0.5);
  // Where no room can be opened there is no case to look at: the relaxation is the season itself.
  if (isEnough(solve) || time.spent || model.linear.numCols === 0) return;
  proveByCases(highs, problem, model, best, {
    gap: wayToProve(problem) === 'whole' ? 0 : options.gap,
    mostCases: options.mostCases ?? MOST_CASES,
    time,
    shouldStop: stop,
    onProgress: (share) => report('bounding', 0.5 + share / 2),
    polish: (opens) => polished(highs, problem, opens, time),
  });
}

/** Branch and bound by variety, at prices, in rounds that are each as long as all before; the search goes on beside it. */
async function proveAtPrices(
  solve: Solve,
  highs: Highs,
  pricing: Pricing,
  given: Found,
  tells: boolean,
): Promise<void> {
  const { problem, unmet, options, best, time, report, stop } = solve;
  // Where prices say less than the plainest bound, cases at prices would be slow to say more: the relaxation is not.
  if (!tells) {
    const whole = seasonModel(problem, unmet, true);
    lower(
      best,
      relaxationBound(highs, whole.linear, ['interior', 'corner'], time).bound,
      RELAXATION_RESTS_ON,
    );
    report('bounding', 0.5);
    if (isEnough(solve)) return;
  }
  const all = time.left;
  let found = given;
  for (let round = 1, seconds = Math.min(all, secondsAhead(options)); !time.spent; round++) {
    const before = seconds;
    seconds = Math.min(all, Math.max(2 * before, LEAST_ROUND_SECONDS));
    const isLast = seconds >= all;
    const asked = pricing.cases({ value: best.value, gap: options.gap, seconds, isLast }, (share) =>
      report('bounding', (share * seconds) / all),
    );
    // Meanwhile the schedule is searched on.
    const moves = Math.floor((seconds - before) / SECONDS_OF_CASES_A_MOVE);
    const refined = refine(solve, found, moves, options.seed + round);
    const { bound, limited } = await asked;
    if (refined !== found) best.offer(polished(highs, problem, refined.opens, time));
    found = refined;
    if (bound === undefined && !stop()) continue;
    if (bound !== undefined) best.limit(bound, PRICED_CASES_REST_ON + (limited ? TIME_LIMIT : ''));
    return;
  }
}

/** Searches on from a schedule; the very same where that finds no better, or where it would hardly do anything. */
function refine(
  { problem, unmet, options, best }: Solve,
  found: Found,
  moves: number,
  seed: number,
  hooks: SearchHooks = { shouldStop: options.shouldStop },
): Found {
  if (moves < LEAST_MOVES_A_ROOM * problem.rooms.length) return found;
  const refined = refinedSearch(problem, unmet, found, { seed, moves }, hooks);
  const [before, after] = [settledSchedule(problem, found), settledSchedule(problem, refined)];
  if (after.value <= before.value) return found;
  best.offer(after);
  return refined;
}

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
  const prepare = model.linear.numRows > MOST_ROWS_UNPREPARED ? 'as it sees fit' : 'not';
  const seconds = Math.max(time.left, POLISH_SECONDS);
  const solution = solveRelaxation(highs, model.linear, 'corner', seconds, prepare);
  time.spend(solution.seconds);
  return solution.finished ? replayedSchedule(problem, model, solution.columns) : undefined;
}
