/**
 * `npm run bench [-- --json] [--rooms 48,100] [--times 3]`, or `npm run bench -- --proof [--proof-rooms 12,60] [--seeds 5]`
 * for the long part alone: how far made-up seasons are proven, how soon, and how a drag is answered. How long the steps of
 * the way take, and how that grows with the season. Everything is measured in fresh processes, by processor time, which
 * other work on the machine disturbs less than the clock; of several runs the least counts. Nothing here is a test: no
 * result passes or fails.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { buildSync } from 'esbuild';
import type { ProofRun, SameFileRun } from './bench-proof';
import type { SeasonRun, SolveRun } from './bench-season';
import type { StartRun } from './bench-start';
import { type Bench, benchText, type CheckRun, proofText } from './bench-text';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const from = (file: string) => path.join(root, file);
const program = from('out/bench/season.cjs');
const proofProgram = from('out/bench/proof.cjs');
// Its name is what `bench-proof.ts` looks for.
const proofWorker = from('out/bench/release-worker.cjs');
const startProgram = from('out/bench/start.cjs');
const solverFile = from('node_modules/highs/build/highs.wasm');
const commandLine = from('dist/cli.cjs');

const { values: options } = parseArgs({
  options: {
    json: { type: 'boolean', default: false },
    rooms: { type: 'string', default: '48,100,200,500' },
    times: { type: 'string', default: '3' },
    proof: { type: 'boolean', default: false },
    'proof-rooms': { type: 'string', default: '12,60,200,500' },
    seeds: { type: 'string', default: '5' },
  },
});
const times = Math.max(1, Number(options.times));

if (options.proof) printProofs();
else printSeasons();

function printSeasons(): void {
  bundle('src/tools/bench-season.ts', program);
  const bench: Bench = {
    node: process.version,
    times,
    seasons: options.rooms.split(',').map((rooms) => seasonOf(Number(rooms))),
    check: existsSync(commandLine) ? checkRun() : undefined,
    start: existsSync(commandLine) ? startRun() : undefined,
    solve: jsonOf([program, 'solve', solverFile]) as SolveRun,
  };
  console.log(options.json ? JSON.stringify(bench, null, 2) : benchText(bench));
}

function printProofs(): void {
  bundle('src/tools/bench-proof.ts', proofProgram);
  bundle('src/release/worker-node.ts', proofWorker);
  const sizes = options['proof-rooms'].split(',');
  const proofs = sizes.map((rooms) => jsonOf([proofProgram, rooms, options.seeds, solverFile]) as ProofRun);
  const sameFile = jsonOf([proofProgram, 'cbc', solverFile]) as SameFileRun;
  const printed = { node: process.version, seeds: Number(options.seeds), proofs, sameFile };
  console.log(options.json ? JSON.stringify(printed, null, 2) : proofText(printed));
}

/** Bundled as the product is, so that neither loading nor memory is that of the tools. */
function bundle(entry: string, outfile: string): void {
  mkdirSync(path.dirname(outfile), { recursive: true });
  buildSync({
    absWorkingDir: root,
    entryPoints: [entry],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    minifyWhitespace: true,
    minifySyntax: true,
    alias: { highs: from('node_modules/highs/build/highs.js') },
    logLevel: 'warning',
  });
}

function seasonOf(rooms: number): SeasonRun {
  const runs = repeated(() => jsonOf([program, 'season', String(rooms)]) as SeasonRun);
  return leastOf(runs);
}

/** The check of the full-size sample as a whole process: starting, reading, computing, printing. */
function checkRun(): CheckRun {
  const usage = from('out/bench/usage.json');
  const env = { ...process.env, BENCH_USAGE: usage };
  const args = [
    '--require',
    from('src/tools/bench-at-exit.cjs'),
    commandLine,
    'check',
    'sample-plans/full-season',
  ];
  const runs = repeated(() => {
    // Findings make it end with 1; the figures are there all the same.
    run(args, [0, 1], env);
    const { userCPUTime, systemCPUTime, maxRSS } = JSON.parse(readFileSync(usage, 'utf8'));
    return { user: userCPUTime / 1e6, system: systemCPUTime / 1e6, peakMemory: maxRSS / 1024 };
  });
  return leastOf(runs);
}

/** Starting the server and loading the extension, as they have been built. */
function startRun(): StartRun {
  bundle('src/tools/bench-start.ts', startProgram);
  return jsonOf([startProgram, root, from('out/bench/start')]) as StartRun;
}

function repeated<T>(work: () => T): T[] {
  return Array.from({ length: times }, work);
}

/** Of each number the least of the runs: what the work takes when nothing gets in its way. */
function leastOf<T extends object>(runs: readonly T[]): T {
  const [first] = runs;
  if (!first) throw new Error('nothing was measured');
  const least = Object.keys(first).map((key) => [
    key,
    Math.min(...runs.map((run) => Number(run[key as keyof T]))),
  ]);
  return Object.fromEntries(least) as T;
}

function jsonOf(args: readonly string[]): unknown {
  return JSON.parse(run(['--expose-gc', ...args], [0], process.env));
}

function run(args: readonly string[], allow: readonly number[], env: NodeJS.ProcessEnv): string {
  const { status, stdout, stderr } = spawnSync(process.execPath, args, {
    cwd: root,
    env,
    encoding: 'utf8',
    maxBuffer: 2 ** 26,
  });
  if (status === null || !allow.includes(status)) throw new Error(`${args.join(' ')} failed:\n${stderr}`);
  return stdout;
}
