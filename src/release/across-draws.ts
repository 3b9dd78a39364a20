import type { AcrossDraws, AcrossProgress } from './across-types';
import type { Candidate } from './draw-gains';
import type { DrawSpan } from './draw-tally';
import { DrawsCancelled, type DrawsPool } from './draws-pool';
import type { DrawsTask } from './draws-protocol';
import { openingCost } from './opening-cost';
import { makeMoves, movable, packedIn, type RoomMove, takeSchedule } from './placing';
import { CLOSED, SeasonState } from './season-state';
import { settledSchedule } from './settle';
import type { ReleaseProblem, ReleaseSchedule } from './types';
import { blocksOf, meanOf } from './uncertainty';

export interface AcrossOptions {
  readonly seed: number;
  /** Seasons that the schedule is sought on. */
  readonly draws: number;
  /** Rooms left closed for a conflict; they stay so. */
  readonly unmet?: readonly number[] | undefined;
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: AcrossProgress) => void) | undefined;
}

/** Seasons of a task that ranks candidates. */
const RANKED_A_BLOCK = 4;
const MOST_ROUNDS = 12;
/** Pairs of rooms that change places are looked at up to this many. */
const MOST_SWAPS = 400;
/** Numbers of the best moves that are tried together. */
const TOGETHER = [2, 3, 5, 8, 16];
/** Candidates that are reckoned exactly, each alone. */
const MOST_ALONE = 16;
/** Annealing runs, each on its own seasons, and their moves for each room. */
const ANNEALING_RUNS = 4;
const SEASONS_A_RUN = 8;
const MOVES_A_ROOM = 600;
/** A gain below this share of the worth is not worth a change of the schedule. */
const LEAST_GAIN = 1e-5;

/**
 * Looks for the opening weeks that are worth most on average over seasons drawn, from a schedule at hand and never
 * worse than it on these. Each round ranks every week of every room, and rooms that change places, on all seasons at
 * once; then the best of them are made together, a few or many, and the set worth most, reckoned exactly, is kept. The
 * same for any number of workers: sums are always added in the order of the seasons.
 */
export async function scheduleAcrossDraws(
  problem: ReleaseProblem,
  start: ReleaseSchedule,
  pool: DrawsPool,
  options: AcrossOptions,
): Promise<AcrossDraws> {
  const search = new AcrossSearch(problem, start, new Valuing(problem, pool, options), options);
  let stopped = false;
  try {
    await search.run();
  } catch (error) {
    if (!(error instanceof DrawsCancelled)) throw error;
    stopped = true;
  }
  const { best, startMean, rounds, tried } = search;
  return { ...best, startMean, rounds, tried, stopped };
}

class AcrossSearch {
  best: Valued;
  startMean = Number.NaN;
  /** Rounds that gained. */
  rounds = 0;
  tried = 0;
  private readonly rooms: readonly number[];

  constructor(
    private readonly problem: ReleaseProblem,
    private readonly start: ReleaseSchedule,
    private readonly valuing: Valuing,
    private readonly options: AcrossOptions,
  ) {
    this.rooms = movable(problem, options.unmet ?? []);
    this.best = { schedule: start, mean: Number.NaN };
  }

  async run(): Promise<void> {
    const { start, valuing } = this;
    this.startMean = (await valuing.means([start]))[0] ?? Number.NaN;
    this.best = { schedule: start, mean: this.startMean };
    const annealed = await valuing.annealed(start, (share) => this.report(0, share));
    this.take(annealed, await valuing.means(annealed));
    while (this.rounds < MOST_ROUNDS && (await this.round())) this.rounds += 1;
  }

  /** True where it gained. */
  private async round(): Promise<boolean> {
    const { problem, valuing } = this;
    const { schedule, mean } = this.best;
    const progress = (share: number) => this.report(this.rounds + 1, share);
    const candidates = candidatesOf(problem, schedule, this.rooms);
    if (candidates.length === 0) return false;
    const gains = await valuing.gains(schedule, candidates, (share) => progress(0.8 * share));
    this.tried += candidates.length;
    const alone = eachAlone(problem, schedule, ranked(candidates, gains));
    const means = await valuing.means(alone.map((one) => one.schedule));
    progress(0.9);
    const together = schedulesOf(problem, schedule, gaining(alone, means, mean));
    const all = [...alone.map((one) => one.schedule), ...together];
    this.take(all, [...means, ...(await valuing.means(together))]);
    return this.best.mean - mean > LEAST_GAIN * Math.abs(this.startMean);
  }

  /** Keeps the best of all, the first among equals. */
  private take(schedules: readonly ReleaseSchedule[], means: readonly number[]): void {
    this.tried += schedules.length;
    schedules.forEach((schedule, at) => {
      const mean = means[at] ?? Number.NEGATIVE_INFINITY;
      if (mean > this.best.mean) this.best = { schedule, mean };
    });
  }

  private report(round: number, share: number): void {
    this.options.onProgress?.({ round, share, mean: this.best.mean });
  }
}

/** Values schedules and candidates on the seasons of the search. */
class Valuing {
  private readonly span: DrawSpan;

  constructor(
    private readonly problem: ReleaseProblem,
    private readonly pool: DrawsPool,
    private readonly options: AcrossOptions,
  ) {
    this.span = { seed: options.seed, first: 0, count: options.draws };
  }

  async means(schedules: readonly ReleaseSchedule[]): Promise<number[]> {
    const blocks = blocksOf(this.span);
    const tasks = schedules.flatMap((schedule) =>
      blocks.map((span): DrawsTask => ({ kind: 'tally', schedule, span })),
    );
    const answers = await this.pool.run(tasks, { signal: this.options.signal });
    return schedules.map((schedule, at) => {
      const own = answers.slice(at * blocks.length, (at + 1) * blocks.length);
      const values = own.flatMap((one) => (one.kind === 'tally' ? one.tally.values : []));
      return meanOf(values) - certainCosts(this.problem, schedule);
    });
  }

  /** Schedules from a few annealing runs on seasons of their own. */
  async annealed(start: ReleaseSchedule, onShare: (share: number) => void): Promise<ReleaseSchedule[]> {
    const { seed, count } = this.span;
    const size = Math.min(SEASONS_A_RUN, count);
    const tasks = Array.from({ length: ANNEALING_RUNS }, (_, run): DrawsTask => {
      const span = { seed, first: (run * size) % Math.max(1, count - size + 1), count: size };
      const moves = MOVES_A_ROOM * this.problem.rooms.length;
      const unmet = this.options.unmet ?? [];
      return { kind: 'anneal', schedule: start, options: { span, seed: seed + run, moves, unmet } };
    });
    const answers = await this.pool.run(tasks, {
      signal: this.options.signal,
      onDone: (done) => onShare(done / tasks.length),
    });
    return answers.flatMap((one) =>
      one.kind === 'anneal'
        ? [
            settledSchedule(this.problem, {
              opens: Int32Array.from(one.found.opens),
              packed: one.found.packed,
            }),
          ]
        : [],
    );
  }

  async gains(
    schedule: ReleaseSchedule,
    candidates: readonly Candidate[],
    onShare: (share: number) => void,
  ): Promise<number[]> {
    const tasks = blocksOf(this.span, RANKED_A_BLOCK).map(
      (span): DrawsTask => ({ kind: 'gains', schedule, span, candidates }),
    );
    const answers = await this.pool.run(tasks, {
      signal: this.options.signal,
      onDone: (done) => onShare(done / tasks.length),
    });
    return candidates.map((_, at) =>
      answers.reduce((sum, one) => sum + (one.kind === 'gains' ? (one.gains[at] ?? 0) : 0), 0),
    );
  }
}

/** Changes from the published schedule: they come whatever the season. */
export function certainCosts(problem: ReleaseProblem, { opens }: ReleaseSchedule): number {
  return problem.rooms.reduce((sum, room, at) => {
    const week = opens[at] ?? null;
    return sum + openingCost(room, week) - (week === null ? 0 : (room.riskCost[week] ?? 0));
  }, 0);
}

/** Every other week of every room, each left closed, and pairs of rooms of one variety that change places. */
function candidatesOf(
  problem: ReleaseProblem,
  { opens }: ReleaseSchedule,
  rooms: readonly number[],
): Candidate[] {
  const single = rooms.flatMap((room): Candidate[] => {
    const one = problem.rooms[room];
    const now = opens[room] ?? CLOSED;
    if (!one) return [];
    const weeks = Array.from({ length: one.latest - one.earliest + 1 }, (_, at) => one.earliest + at);
    return [...weeks, CLOSED].filter((week) => week !== now).map((week) => [{ room, week }]);
  });
  return [...single, ...swaps(problem, opens, rooms)];
}

function swaps(
  problem: ReleaseProblem,
  opens: ReleaseSchedule['opens'],
  rooms: readonly number[],
): Candidate[] {
  const gives = (room: number) =>
    problem.rooms[room]?.cartonsABin[0]?.flatMap((cartons, product) => (cartons > 0 ? [product] : [])) ?? [];
  const within = (room: number, week: number) => {
    const one = problem.rooms[room];
    return one !== undefined && week >= one.earliest && week <= one.latest;
  };
  const pairs: Candidate[] = [];
  for (const [at, one] of rooms.entries()) {
    for (const other of rooms.slice(at + 1)) {
      const [a, b] = [opens[one] ?? null, opens[other] ?? null];
      if (a === null || b === null || a === b || !within(one, b) || !within(other, a)) continue;
      if (!gives(one).some((product) => gives(other).includes(product))) continue;
      pairs.push([
        { room: one, week: b },
        { room: other, week: a },
      ]);
    }
  }
  return pairs.slice(0, MOST_SWAPS);
}

/** Candidates that gain, the best first; of each room the best only. */
function ranked(candidates: readonly Candidate[], gains: readonly number[]): Candidate[] {
  const order = candidates.map((_, at) => at).filter((at) => (gains[at] ?? 0) > 0);
  order.sort((a, b) => (gains[b] ?? 0) - (gains[a] ?? 0) || a - b);
  const taken = new Set<number>();
  return order.flatMap((at) => {
    const candidate = candidates[at] ?? [];
    if (candidate.some(({ room }) => taken.has(room))) return [];
    for (const { room } of candidate) taken.add(room);
    return [candidate];
  });
}

interface Alone {
  readonly candidate: Candidate;
  readonly schedule: ReleaseSchedule;
}

/**
 * A schedule for each of the best candidates alone. One that cannot be made as planned is passed over: the schedule must
 * hold if all comes as planned.
 */
function eachAlone(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  candidates: readonly Candidate[],
): Alone[] {
  return candidates.slice(0, MOST_ALONE).flatMap((candidate) => {
    const made = withMoves(problem, schedule, [candidate]);
    return made ? [{ candidate, schedule: made }] : [];
  });
}

/** Those that gain exactly, the best first. */
function gaining(alone: readonly Alone[], means: readonly number[], mean: number): Candidate[] {
  return alone
    .map(({ candidate }, at) => ({ candidate, gain: (means[at] ?? mean) - mean, at }))
    .filter(({ gain }) => gain > 0)
    .sort((a, b) => b.gain - a.gain || a.at - b.at)
    .map(({ candidate }) => candidate);
}

/** Schedules with the first few, or many, of the candidates made together. */
function schedulesOf(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  candidates: readonly Candidate[],
): ReleaseSchedule[] {
  const wanted = TOGETHER.filter((_, at) => at === 0 || (TOGETHER[at - 1] ?? 0) < candidates.length);
  return wanted.flatMap((count) => withMoves(problem, schedule, candidates.slice(0, count)) ?? []);
}

interface Valued {
  readonly schedule: ReleaseSchedule;
  readonly mean: number;
}

function withMoves(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  sets: readonly Candidate[],
): ReleaseSchedule | undefined {
  const state = new SeasonState(problem);
  takeSchedule(state, schedule);
  const made: RoomMove[] = [];
  for (const moves of sets) if (makeMoves(state, moves) !== undefined) made.push(...moves);
  if (made.length === 0) return undefined;
  return settledSchedule(problem, { opens: state.opens.slice(), packed: packedIn(state) });
}
