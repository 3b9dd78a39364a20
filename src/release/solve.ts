import type { Highs } from 'highs';
import { type Ascent, ascend } from './ascent';
import { Budget } from './budget';
import { canonicalProblem } from './canonical';
import { checkSchedule } from './checker';
import { findConflicts } from './conflicts';
import { gapOf } from './gap';
import { guidedSearch } from './guided';
import { Incumbent } from './incumbent';
import { type LoadHighs, solveRelaxation } from './linear';
import { buildModel, seasonModel } from './model';
import { boundAtPrices, PRICES_REST_ON } from './price-certificate';
import { MOST_ROOMS_WHOLE, proveByCases } from './prove';
import { proveByPrices } from './prove-by-prices';
import { RELAXATION_RESTS_ON, relaxationBound } from './relaxation-bound';
import { replayedSchedule } from './replay';
import { type Found, searchSchedule } from './search';
import { settledSchedule } from './settle';
import type { ReleaseProblem, ReleaseProgress, ReleaseResult, ReleaseSchedule, SearchOptions } from './types';

/** Attribution rows pay up to about this many rooms; beyond, the plain relaxation is nearly as close. */
const MOST_ROOMS_ATTRIBUTED = 100;
/** Moves of the search that starts where the prices open the rooms, as a share of those that are asked for. */
const SHARE_OF_GUIDED_MOVES = 0.9;
/** Turns of the ascent: about where it stops falling on made-up seasons of 60 rooms. */
const TURNS = 300;

/** Cases of branch and bound, where nobody says otherwise: more than the time limit allows as a rule. */
const MOST_CASES = 20_000;

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
  /** Cases that branch and bound may look at; with time enough, they alone decide where it ends. */
  readonly mostCases?: number | undefined;
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

async function improve(
  problem: ReleaseProblem,
  unmet: readonly number[],
  options: SolveOptions,
  best: Incumbent,
): Promise<void> {
  const stop = () => options.shouldStop?.() ?? false;
  const report = (stage: ReleaseProgress['stage'], share: number, value = best.value) =>
    options.onProgress?.({ stage, share, value, bound: best.bound });
  const many = problem.rooms.length > FEW_ROOMS;
  const guidedMoves = many ? Math.floor(options.moves * SHARE_OF_GUIDED_MOVES) : 0;
  const found = searchSchedule(
    problem,
    unmet,
    { seed: options.seed, moves: options.moves - guidedMoves },
    { onProgress: (share, value) => report('searching', share, value), shouldStop: options.shouldStop },
  );
  best.offer(settledSchedule(problem, found));
  if (stop()) return;
  const priced = many ? fromPrices(problem, unmet, guidedMoves, options, best) : undefined;
  if (stop()) return;
  const highs = await options.loadHighs();
  report('polishing', 0);
  const time = new Budget(options.timeLimitSeconds);
  best.offer(polished(highs, problem, (priced?.better ?? found).opens, time));
  const gap = many ? options.gap : 0;
  report('bounding', 0);
  if (stop() || best.gap <= gap) return;
  if (priced && problem.rooms.length > MOST_ROOMS_WHOLE && problem.rooms.length <= MOST_ROOMS_ATTRIBUTED) {
    // Where prices say less than the plainest bound, cases at prices would be slow to say more: the relaxation is not.
    if (!priced.tell) {
      const whole = seasonModel(problem, unmet, true);
      const bound = relaxationBound(highs, whole.linear, ['interior', 'corner'], time).bound;
      best.limit(bound, RELAXATION_RESTS_ON);
      report('bounding', 0.5);
      if (stop() || best.gap <= gap || time.spent) return;
    }
    proveByPrices(problem, unmet, priced.ascent, best, {
      gap,
      mostCases: options.mostCases ?? MOST_CASES,
      time,
      shouldStop: stop,
      onProgress: (share) => report('bounding', share),
    });
    return;
  }
  if (!many || problem.rooms.length > MOST_ROOMS_ATTRIBUTED) {
    const plain = seasonModel(problem, unmet, false);
    best.limit(relaxationBound(highs, plain.linear, ['corner'], time).bound, RELAXATION_RESTS_ON);
    report('bounding', 0.2);
  }
  if (stop() || best.gap <= gap || time.spent) return;
  if (problem.rooms.length > MOST_ROOMS_ATTRIBUTED) return;
  const model = seasonModel(problem, unmet, true);
  const relaxed = relaxationBound(highs, model.linear, ['interior', 'corner'], time);
  best.limit(relaxed.bound, RELAXATION_RESTS_ON);
  report('bounding', 0.5);
  if (stop() || best.gap <= gap || time.spent) return;
  proveByCases(highs, problem, model, relaxed.multipliers, best, {
    gap,
    mostCases: options.mostCases ?? MOST_CASES,
    time,
    shouldStop: stop,
    onProgress: (share) => report('bounding', 0.5 + share / 2),
    polish: (opens) => polished(highs, problem, opens, time),
  });
}

interface FromPrices {
  readonly ascent: Ascent;
  /** Whether prices bound the season better than the simple bound does. */
  readonly tell: boolean;
  readonly better: Found | undefined;
}

/** A bound from prices, without the solver, and a search from where they open the rooms, as far as that finds better. */
function fromPrices(
  problem: ReleaseProblem,
  unmet: readonly number[],
  moves: number,
  { seed, shouldStop }: SolveOptions,
  best: Incumbent,
): FromPrices {
  const ascent = ascend(problem, unmet, { turns: TURNS, known: best.value, shouldStop });
  const before = best.bound;
  best.limit(boundAtPrices(problem, unmet, ascent.prices), PRICES_REST_ON);
  const tell = best.bound < before;
  const guided = guidedSearch(problem, unmet, ascent.openings, { seed, moves }, { shouldStop });
  if (!guided) return { ascent, tell, better: undefined };
  const worth = best.value;
  best.offer(settledSchedule(problem, guided));
  return { ascent, tell, better: best.value > worth ? guided : undefined };
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
  const solution = solveRelaxation(highs, model.linear, 'corner', Math.max(time.left, POLISH_SECONDS));
  time.spend(solution.seconds);
  return solution.finished ? replayedSchedule(problem, model, solution.columns) : undefined;
}
