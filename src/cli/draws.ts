import type { ComputedSeason } from '../findings/types';
import { scheduleAcrossDraws } from '../release/across-draws';
import type { AcrossDraws } from '../release/across-types';
import { type DrawInputs, drawInputs } from '../release/draw-inputs';
import type { DrawSpan } from '../release/draw-tally';
import { tallyInPool } from '../release/draws-in-pool';
import { DrawsCancelled, type DrawsPool, drawsHere, drawsInWorkers } from '../release/draws-pool';
import { gapOf } from '../release/gap';
import type { ReleaseProblem, ReleaseResult, ReleaseSchedule } from '../release/types';
import { type Uncertainty, uncertaintyOf } from '../release/uncertainty';
import type { AcrossComparison, DrawnReport } from '../report/across-json';
import { CannotRun, type Io } from './io';
import { drawsLine } from './progress';

/** What is asked of drawn seasons. */
export interface DrawsAsked {
  readonly seed: number;
  /** Seasons to tell a schedule's chances on. */
  readonly draws?: number | undefined;
  /** Seasons to seek a schedule on that is good across them. */
  readonly goodAcross?: number | undefined;
}

export interface Drawn {
  /** The schedule found before, or the one that is better across draws. */
  readonly result: ReleaseResult;
  readonly report?: DrawnReport | undefined;
  readonly stoppedEarly: boolean;
}

/** Two by default: the ones that a small machine has. */
const WORKERS = 2;
/** Seasons that both schedules are told on where nobody says how many. */
const HELD_OUT = 200;

/** Draws seasons on workers: seeks a schedule that is good across them, tells a schedule's chances, or both. */
export async function drawnSeasons(
  io: Io,
  season: ComputedSeason,
  problem: ReleaseProblem,
  result: ReleaseResult,
  asked: DrawsAsked,
): Promise<Drawn> {
  const { draws, goodAcross, seed } = asked;
  if (!draws && !goodAcross) return { result, stoppedEarly: false };
  const inputs = drawInputs(season.plan, season.keeping, problem);
  const job = { problem, inputs };
  const pool = io.startDrawsWorker ? drawsInWorkers(job, io.startDrawsWorker, WORKERS) : drawsHere(job);
  const stop = new AbortController();
  const line = drawsLine(io.err, Math.max(draws ?? 0, goodAcross ?? 0));
  const settled = io.onInterrupt(() => stop.abort());
  try {
    const work = { problem, inputs, pool, line, stop: stop.signal };
    if (!goodAcross) {
      const span = { seed, first: 0, count: draws ?? 0 };
      const drawn = await told(work, result.schedule, span);
      return { result, report: { drawn, ranges: inputs.ranges }, stoppedEarly: false };
    }
    return await goodAcrossDraws(work, result, { seed, goodAcross, heldOut: draws ?? HELD_OUT });
  } catch (error) {
    if (error instanceof DrawsCancelled) return { result, stoppedEarly: true };
    throw new CannotRun((error as Error).message);
  } finally {
    settled();
    line.clear();
    pool.close();
  }
}

interface Work {
  readonly problem: ReleaseProblem;
  readonly inputs: DrawInputs;
  readonly pool: DrawsPool;
  readonly line: ReturnType<typeof drawsLine>;
  readonly stop: AbortSignal;
}

async function goodAcrossDraws(
  work: Work,
  result: ReleaseResult,
  asked: { readonly seed: number; readonly goodAcross: number; readonly heldOut: number },
): Promise<Drawn> {
  const { problem, inputs, pool, line, stop } = work;
  const { seed, goodAcross: draws, heldOut } = asked;
  const across = await scheduleAcrossDraws(problem, result.schedule, pool, {
    seed,
    draws,
    unmet: result.unmet,
    signal: stop,
    onProgress: ({ round, share, mean }) =>
      line.show(round === 0 ? 'annealing over seasons' : `seeking over seasons, round ${round}`, share, mean),
  });
  const better = { ...result, ...ofSchedule(result, across) };
  if (across.stopped) return { result: better, stoppedEarly: true };
  // The seasons that follow those it was sought on: a schedule is always flattered by its own.
  // Seasons are drawn in pairs, each with its mirror: a pair is not divided.
  const span = { seed, first: draws + (draws % 2), count: heldOut };
  const expected = await told(work, result.schedule, span);
  const drawn = await told(work, across.schedule, span);
  const comparison: AcrossComparison = { draws, across, before: result.schedule, expected };
  return { result: better, report: { drawn, ranges: inputs.ranges, comparison }, stoppedEarly: false };
}

/** What is proven of another schedule: the bound stands, the distance from it is its own. */
function ofSchedule(result: ReleaseResult, { schedule }: AcrossDraws): Partial<ReleaseResult> {
  if (schedule === result.schedule) return {};
  return { schedule, gap: gapOf(schedule.value, result.bound), provenOptimal: false };
}

async function told(work: Work, schedule: ReleaseSchedule, span: DrawSpan): Promise<Uncertainty> {
  const { problem, inputs, pool, line, stop } = work;
  const onDone = (share: number) => line.show('drawing seasons', share);
  const tally = await tallyInPool(pool, schedule, span, { signal: stop, onDone });
  return uncertaintyOf(problem, schedule, inputs, tally, span.seed);
}
