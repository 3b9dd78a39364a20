/**
 * The long part of the benchmark, a process for each size: `<size> <seeds> <highs.wasm>` solves made-up seasons with
 * supply short (0.85 of demand) and long (1.15) and prints a line of JSON. Each solve has fresh workers, as in the product,
 * whose bundle stands beside this one. `cbc` puts one file before the solver and before CBC, where that is on the machine.
 * Bundled and started by `bench.ts`.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { madeProblem, sizes } from '../../tests/release/generate';
import { canonicalProblem } from '../release/canonical';
import { highsForNode } from '../release/highs-node';
import { solveInteger } from '../release/linear';
import { seasonModel } from '../release/model';
import { nodeReleaseWorker } from '../release/node-worker-runner';
import { betterAround, MOVES_AROUND, reviseOpening, stateOf } from '../release/revise';
import { runRelease } from '../release/run-release';
import { searchSchedule } from '../release/search';
import { settledSchedule } from '../release/settle';
import type { ReleaseProblem } from '../release/types';
import { mpsText } from './mps';

/** What is asked of a solve, and what it is wanted to reach. */
interface Goal {
  /** Seconds in all, of which the solver may take `solver`. */
  readonly seconds: number;
  readonly solver: number;
  readonly moves: number;
  /** Per cent; 0 asks for proven optimality. */
  readonly wanted: number;
  /** Gap in per cent at which the solve may stop; next to none where nothing is said, so that all the work is done. */
  readonly enough?: number;
}

interface Size {
  readonly made: Parameters<typeof madeProblem>[0];
  readonly goals: readonly Goal[];
}

export const proofSizes: Readonly<Record<string, Size>> = {
  '12': { made: sizes.S, goals: [{ seconds: 60, solver: 58, moves: 200_000, wanted: 0 }] },
  '60': {
    made: sizes.M,
    goals: [
      { seconds: 1, solver: 0.4, moves: 60_000, wanted: 3, enough: 3 },
      { seconds: 10, solver: 10, moves: 600_000, wanted: 2.5 },
      { seconds: 60, solver: 40, moves: 2_000_000, wanted: 1 },
    ],
  },
  '200': {
    made: sizes.L,
    goals: [
      { seconds: 3, solver: 1.5, moves: 200_000, wanted: 2, enough: 2 },
      { seconds: 15, solver: 2, moves: 1_600_000, wanted: 1.5 },
    ],
  },
  '500': {
    made: { rooms: 500, weeks: 45, varieties: 12, weeksToEmpty: 2 },
    goals: [{ seconds: 10, solver: 4, moves: 600_000, wanted: 1 }],
  },
};

export interface ProofRun {
  readonly rooms: number;
  /** Milliseconds of processor time, the median over the seasons: the first plan once warm, a drag's exact value, a schedule around it. */
  readonly firstPlan: number;
  readonly drag: number;
  readonly around: number;
  readonly goals: readonly GoalRun[];
}

export interface GoalRun {
  readonly seconds: number;
  readonly wanted: number;
  /** Per cent: the median and the largest over the seasons. */
  readonly gap: number;
  readonly worstGap: number;
  /** Share of the seasons proven optimal. */
  readonly proven: number;
  /** Seconds of processor time, and by the clock: the median. */
  readonly processor: number;
  readonly clock: number;
}

export interface SameFileRun {
  readonly solver: { readonly seconds: number; readonly value: number; readonly bound: number } | undefined;
  /** Absent where CBC is not on the machine. */
  readonly cbc: { readonly seconds: number; readonly value: number } | undefined;
}

const workerFile = path.join(path.dirname(process.argv[1] ?? ''), 'release-worker.cjs');

/** Supply as a share of demand. */
const RATIOS = [0.85, 1.15];

/** Drags tried on a season. */
const DRAGS = 400;

/** Seconds that each solver may take for the file both are given. */
const SAME_FILE_SECONDS = 120;

async function measure(rooms: string, seeds: number, wasm: string): Promise<ProofRun> {
  const size = proofSizes[rooms];
  if (!size) throw new Error(`no size of ${rooms} rooms; there are ${Object.keys(proofSizes).join(', ')}`);
  const seasons = Array.from({ length: seeds }, (_, at) =>
    RATIOS.map((ratio) => madeProblem({ ...size.made, demand: 1 / ratio }, at + 1)),
  ).flat();
  const moving = seasons.map(movingTimes);
  const goals: GoalRun[] = [];
  for (const goal of size.goals) goals.push(await reach(goal, seasons, wasm));
  return {
    rooms: Number(rooms),
    firstPlan: median(moving.map(({ firstPlan }) => firstPlan)),
    drag: median(moving.map(({ drag }) => drag)),
    around: median(moving.map(({ around }) => around)),
    goals,
  };
}

/** Milliseconds of the first plan and of drags, in a process that is warm by its second season. */
function movingTimes(season: ReleaseProblem) {
  const { problem } = canonicalProblem(season);
  const plan = () => settledSchedule(problem, searchSchedule(problem, [], { seed: 1, moves: 0 }));
  plan();
  const [schedule, firstPlan] = timed(plan);
  const state = stateOf(problem, schedule);
  const [, drags] = timed(() => {
    for (let at = 0; at < DRAGS; at++) {
      const room = at % problem.rooms.length;
      const { earliest = 0, latest = 0 } = problem.rooms[room] ?? {};
      reviseOpening(state, room, earliest + (at % (latest - earliest + 1)));
    }
  });
  const held = [{ room: 0, week: problem.rooms[0]?.earliest ?? 0 }];
  const [, around] = timed(() => betterAround(problem, schedule, held, { seed: 1, moves: MOVES_AROUND }));
  return { firstPlan, drag: drags / DRAGS, around };
}

async function reach(goal: Goal, seasons: readonly ReleaseProblem[], wasm: string): Promise<GoalRun> {
  const runs = [];
  for (const season of seasons) {
    const [before, began] = [process.cpuUsage(), performance.now()];
    const enough = goal.wanted === 0 ? 0 : (goal.enough ?? 0.1) / 100;
    const { gap, provenOptimal } = await runRelease(
      season,
      { seed: 1, moves: goal.moves, timeLimitSeconds: goal.solver, gap: enough },
      { createWorker: () => nodeReleaseWorker(workerFile), wasm: { path: wasm } },
    );
    const { user, system } = process.cpuUsage(before);
    const clock = (performance.now() - began) / 1000;
    runs.push({ gap: 100 * gap, provenOptimal, processor: (user + system) / 1e6, clock });
  }
  return {
    seconds: goal.seconds,
    wanted: goal.wanted,
    gap: median(runs.map((run) => run.gap)),
    worstGap: Math.max(...runs.map((run) => run.gap)),
    proven: runs.filter((run) => run.provenOptimal).length / runs.length,
    processor: median(runs.map((run) => run.processor)),
    clock: median(runs.map((run) => run.clock)),
  };
}

/** One season of 12 rooms, the identical model to the solver and, as a file, to CBC. */
async function sameFile(wasm: string): Promise<SameFileRun> {
  const { problem } = canonicalProblem(madeProblem({ ...sizes.S, demand: 1 / 0.85 }, 3));
  const { linear } = seasonModel(problem, [], true);
  const none = { indices: new Int32Array(0), values: new Float64Array(0) };
  const highs = await highsForNode(wasm)();
  const solved = solveInteger(highs, linear, none, { gap: 1e-4, timeLimitSeconds: SAME_FILE_SECONDS });
  const solver = solved && { seconds: solved.seconds, value: solved.value, bound: solved.bound };
  const folder = mkdtempSync(path.join(os.tmpdir(), 'bench-'));
  try {
    const file = path.join(folder, 'season.mps');
    const solution = path.join(folder, 'solution.txt');
    writeFileSync(file, mpsText(linear));
    const limits = ['-ratio', '0.0001', '-sec', String(SAME_FILE_SECONDS)];
    const began = performance.now();
    const { status } = spawnSync('cbc', [file, ...limits, '-solve', '-solu', solution], { encoding: 'utf8' });
    const seconds = (performance.now() - began) / 1000;
    if (status !== 0) return { solver, cbc: undefined };
    const objective = Number(/objective value\s+(\S+)/.exec(readFileSync(solution, 'utf8'))?.[1]);
    return { solver, cbc: { seconds, value: linear.offset - objective } };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Milliseconds of processor time. */
function timed<T>(work: () => T): [result: T, milliseconds: number] {
  const before = process.cpuUsage();
  const result = work();
  const { user, system } = process.cpuUsage(before);
  return [result, (user + system) / 1000];
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
}

async function main([task = '', ...rest]: readonly string[]): Promise<void> {
  const run =
    task === 'cbc' ? await sameFile(rest[0] ?? '') : await measure(task, Number(rest[0]), rest[1] ?? '');
  console.log(JSON.stringify(run));
}

main(process.argv.slice(2)).catch((error: unknown) => {
  console.error(error);
  process.exitCode = 1;
});
