/**
 * One run of the benchmark, in a process of its own so that nothing is warm and the peak of memory is its own:
 * `season <rooms>` measures the steps of the way on a generated season, `solve` the solver on the full-size sample.
 * Prints a line of JSON. Bundled and started by `bench.ts`.
 */

import { FULL_SEASON, generateSeason } from '../../tests/generate/season';
import { computeSeason, QUICK_MOVES, withCourses } from '../findings/compute';
import { findingsOf } from '../findings/find';
import { emptyPlanCache, type PlanFile, readPlan } from '../plan/read';
import { highsForNode } from '../release/highs-node';
import { releaseProblem } from '../release/problem';
import { quickRelease } from '../release/quick';
import { solveRelease } from '../release/solve';
import type { ReleaseProblem } from '../release/types';
import { releaseDefaults } from '../release/worker-protocol';

/** Milliseconds of processor time, all threads of the process. */
export interface SeasonRun {
  readonly rooms: number;
  readonly files: number;
  readonly kilobytes: number;
  readonly lines: number;
  readonly read: number;
  readonly keystroke: number;
  readonly compute: number;
  readonly quick: number;
  readonly computeAgain: number;
  /** Every sealed room's gas and temperature from sealing to opening. */
  readonly courses: number;
  /** Megabytes of heap kept for each time the courses are computed anew: about none. */
  readonly keptEachTime: number;
  readonly findings: number;
  readonly findingsCount: number;
  /** Megabytes, the engine and the program itself included. */
  readonly peakMemory: number;
}

export interface SolveRun {
  readonly rooms: number;
  readonly seconds: number;
  readonly processorSeconds: number;
  /** Per cent. */
  readonly gap: number;
  readonly quickGap: number;
  readonly peakMemory: number;
}

/** Keystrokes tried; the median is taken. */
const KEYSTROKES = 25;

function timed<T>(work: () => T): [result: T, milliseconds: number] {
  const before = process.cpuUsage();
  const result = work();
  const { user, system } = process.cpuUsage(before);
  return [result, (user + system) / 1000];
}

function peakMemory(): number {
  return process.resourceUsage().maxRSS / 1024;
}

function measureSeason(rooms: number): SeasonRun {
  const files = generateSeason({ rooms, seed: FULL_SEASON.seed });
  const text = files.map((file) => file.text).join('');
  const cache = emptyPlanCache();
  const [plan, read] = timed(() => readPlan(files, cache));
  const keystroke = median(keystrokes(files).map((typed) => timed(() => readPlan(typed, cache))[1]));
  const [first, compute] = timed(() => computeSeason(plan, { release: 'none' }));
  const [release, quick] = timed(() => {
    const problem = theProblem(releaseProblem(plan, first.keeping));
    return { problem, result: quickRelease(problem, { seed: 1, moves: QUICK_MOVES }) };
  });
  const [season, computeAgain] = timed(() => computeSeason(plan, { release }));
  const [whole, courses] = timed(() => withCourses(season));
  const keptEachTime = keptByRepeating(() => withCourses(season));
  const [found, findings] = timed(() => findingsOf(whole));
  return {
    rooms,
    files: files.length,
    kilobytes: text.length / 1024,
    lines: text.split('\n').length,
    read,
    keystroke,
    compute,
    quick,
    computeAgain,
    courses,
    keptEachTime,
    findings,
    findingsCount: found.length,
    peakMemory: peakMemory(),
  };
}

/** Recomputations after which the heap is looked at. */
const REPEATS = 5;

/** Heap that stays after a computation is done and forgotten, mean of several; NaN without `--expose-gc`. */
function keptByRepeating(work: () => unknown): number {
  const collect = globalThis.gc;
  if (!collect) return Number.NaN;
  work();
  collect();
  const before = process.memoryUsage().heapUsed;
  for (let turn = 0; turn < REPEATS; turn++) work();
  collect();
  return (process.memoryUsage().heapUsed - before) / REPEATS / 1e6;
}

/** The plan's files after one keystroke and the next: a digit typed into the bins of a lot, spread over the lots. */
function keystrokes(files: readonly PlanFile[]): PlanFile[][] {
  const index = files.findIndex(({ path }) => path.startsWith('lots/'));
  let text = files[index]?.text ?? '';
  const places = [...text.matchAll(/ bins: \d+/g)].map((match) => match.index + match[0].length);
  // From the last place to the first, so that what was typed moves none that is still to come.
  const chosen = Array.from({ length: KEYSTROKES }, (_, turn) =>
    places.at(-1 - Math.floor((turn * places.length) / KEYSTROKES)),
  );
  return chosen.map((at) => {
    if (at === undefined) throw new Error('the season has no lots with bins');
    text = `${text.slice(0, at)}0${text.slice(at)}`;
    return files.map((one, position) => (position === index ? { path: one.path, text } : one));
  });
}

async function measureSolve(wasm: string): Promise<SolveRun> {
  const plan = readPlan(generateSeason(FULL_SEASON));
  const { keeping } = computeSeason(plan, { release: 'none' });
  const problem = theProblem(releaseProblem(plan, keeping));
  const quick = quickRelease(problem, { seed: 1, moves: QUICK_MOVES });
  const before = process.cpuUsage();
  const began = performance.now();
  const result = await solveRelease(problem, { ...releaseDefaults, loadHighs: highsForNode(wasm) });
  const { user, system } = process.cpuUsage(before);
  return {
    rooms: problem.rooms.length,
    seconds: (performance.now() - began) / 1000,
    processorSeconds: (user + system) / 1e6,
    gap: 100 * result.gap,
    quickGap: 100 * quick.gap,
    peakMemory: peakMemory(),
  };
}

function theProblem(problem: ReleaseProblem | undefined): ReleaseProblem {
  if (!problem) throw new Error('the season has no release problem');
  return problem;
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
}

async function main([task, argument]: readonly string[]): Promise<void> {
  const run = task === 'solve' ? await measureSolve(argument ?? '') : measureSeason(Number(argument));
  console.log(JSON.stringify(run));
}

main(process.argv.slice(2)).catch((error: unknown) => {
  console.error(error);
  process.exitCode = 1;
});
