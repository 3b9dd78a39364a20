import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import esbuild from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { checkSchedule } from '../../src/release/checker';
import { highsForNode } from '../../src/release/highs-node';
import { highsForWeb } from '../../src/release/highs-web';
import { nodeReleaseWorker } from '../../src/release/node-worker-runner';
import { ReleaseCancelled, runRelease } from '../../src/release/run-release';
import { solveRelease } from '../../src/release/solve';
import type { ReleaseProgress, ReleaseResult } from '../../src/release/types';
import type { ReleaseJobOptions, ReleaseWorker } from '../../src/release/worker-protocol';
import { madeProblem } from './generate';

const wasm = path.resolve('node_modules/highs/build/highs.wasm');
const problem = madeProblem({ rooms: 8, weeks: 20, varieties: 2, weeksToEmpty: 2 }, 1);
const options: ReleaseJobOptions = { seed: 1, moves: 5000, timeLimitSeconds: 60, gap: 0.02 };
const endless: ReleaseJobOptions = { ...options, moves: 1e12 };

let folder = '';
let workerFile = '';

/** Bundled as the product bundles it: each worker one file, the solver's program elsewhere. */
beforeAll(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'release-worker-'));
  workerFile = path.join(folder, 'release-worker.cjs');
  const common = { bundle: true, alias: { highs: path.resolve('node_modules/highs/build/highs.js') } };
  await esbuild.build({
    ...common,
    entryPoints: ['src/release/worker-node.ts'],
    outfile: workerFile,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
  });
  await esbuild.build({
    ...common,
    entryPoints: ['src/release/worker-web.ts'],
    outfile: path.join(folder, 'web-worker.cjs'),
    platform: 'browser',
    format: 'cjs',
    target: 'es2022',
    external: ['node:*', 'module', 'fs', 'path', 'url'],
  });
});

afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

describe('a solve in a worker', () => {
  it('gives the schedule that a solve without one gives, with progress on the way', async () => {
    const progress: ReleaseProgress[] = [];
    const better: ReleaseResult[] = [];
    const result = await runRelease(problem, options, {
      createWorker: () => nodeReleaseWorker(workerFile),
      wasm: { path: wasm },
      onProgress: (one) => progress.push(one),
      onIncumbent: (one) => better.push(one),
    });
    expect(checkSchedule(problem, result.schedule)).toEqual([]);
    expect(result).toEqual(await solveRelease(problem, { ...options, loadHighs: highsForNode(wasm) }));
    expect(progress.map(({ stage }) => stage)).toContain('bounding');
    expect(better.at(-1)).toEqual(result);
  });

  it.each([
    ['cases at prices', { rooms: 24, weeks: 26, varieties: 3, weeksToEmpty: 2 }, 0.6],
    ['the plain relaxation', { rooms: 101, weeks: 26, varieties: 6, weeksToEmpty: 1 }, 10],
  ])('gives the same with a second worker beside it, for %s', async (_, made, timeLimitSeconds) => {
    const season = madeProblem(made, 2);
    const job = { seed: 3, moves: 8000, timeLimitSeconds, gap: 0.0001 };
    const workers: ReleaseWorker[] = [];
    const createWorker = () => {
      const worker = nodeReleaseWorker(workerFile);
      workers.push(worker);
      return worker;
    };
    const shares: number[] = [];
    const onProgress = ({ stage, share }: ReleaseProgress) => stage === 'bounding' && shares.push(share);
    const result = await runRelease(season, job, { createWorker, wasm: { path: wasm }, onProgress });
    expect(workers).toHaveLength(2);
    expect(result).toEqual(await solveRelease(season, { ...job, loadHighs: highsForNode(wasm) }));
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
  });

  it('says so where the worker beside it fails', async () => {
    const season = madeProblem({ rooms: 24, weeks: 26, varieties: 3, weeksToEmpty: 2 }, 2);
    const files = [workerFile, path.join(folder, 'none.cjs')];
    const createWorker = () => nodeReleaseWorker(files.shift() ?? '');
    const solving = runRelease(season, endless, { createWorker, wasm: { path: wasm } });
    await expect(solving).rejects.toThrow(/could not be computed: .*none\.cjs/);
  });

  it('takes the solver as bytes', async () => {
    const result = await runRelease(problem, options, {
      createWorker: () => nodeReleaseWorker(workerFile),
      wasm: { bytes: new Uint8Array(fs.readFileSync(wasm)) },
    });
    expect(result.boundRestsOn).toContain('without the solver');
  });

  it('ends at once when cancelled, though it would have gone on for days', async () => {
    const cancel = new AbortController();
    const solving = runRelease(problem, endless, {
      createWorker: () => nodeReleaseWorker(workerFile),
      wasm: { path: wasm },
      signal: cancel.signal,
      onProgress: () => cancel.abort(),
    });
    await expect(solving).rejects.toBeInstanceOf(ReleaseCancelled);
  });

  it('starts no worker where it is cancelled beforehand', async () => {
    const createWorker = () => {
      throw new Error('not to be called');
    };
    const solving = runRelease(problem, options, {
      createWorker,
      wasm: 'package',
      signal: AbortSignal.abort(),
    });
    await expect(solving).rejects.toBeInstanceOf(ReleaseCancelled);
  });

  it.each([
    ['the solver is missing', () => nodeReleaseWorker(workerFile), /could not be computed: .*no-such\.wasm/],
    [
      'the worker is missing',
      () => nodeReleaseWorker(path.join(folder, 'none.cjs')),
      /could not be computed: .*none\.cjs/,
    ],
  ])('says so where %s', async (_, createWorker: () => ReleaseWorker, message) => {
    const run = { createWorker, wasm: { path: path.join(folder, 'no-such.wasm') } };
    await expect(runRelease(problem, options, run)).rejects.toThrow(message);
  });
});

describe('the web worker', () => {
  it('answers a start message with the solver as bytes', async () => {
    const result = await inWebWorker({ bytes: new Uint8Array(fs.readFileSync(wasm)) });
    expect(result).toMatchObject({ kind: 'done' });
  });

  it('refuses a path, which it could not read', async () => {
    expect(await inWebWorker({ path: wasm })).toMatchObject({ kind: 'failed' });
  });

  it('loads the solver from bytes alone', async () => {
    const highs = await highsForWeb(new Uint8Array(fs.readFileSync(wasm)))();
    expect(highs.version.string).toBe('1.15.1');
  });

  /** Runs the bundle against a stand-in for the worker's global object; resolves with the last message. */
  async function inWebWorker(source: { path: string } | { bytes: Uint8Array }): Promise<unknown> {
    const scope = globalThis as unknown as {
      onmessage?: ((event: { data: unknown }) => void) | null;
      postMessage?: (message: { kind: string }) => void;
    };
    const ended = new Promise((resolve) => {
      scope.postMessage = (message) => {
        if (message.kind === 'done' || message.kind === 'failed') resolve(message);
      };
    });
    await import(`${pathToFileURL(path.join(folder, 'web-worker.cjs')).href}?${Object.keys(source)}`);
    scope.onmessage?.({ data: { kind: 'solve', problem, options, wasm: source } });
    const message = await ended;
    delete scope.onmessage;
    delete scope.postMessage;
    return message;
  }
});
