import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import esbuild from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { proposeFill } from '../../src/fill/propose';
import { highsForNode } from '../../src/release/highs-node';
import { nodeFillWorker } from '../../src/server/fill-worker/node-runner';
import type { FillJobOptions, FillWorker } from '../../src/server/fill-worker/protocol';
import { FillCancelled, runFill } from '../../src/server/fill-worker/run';
import { smallHarvest } from '../fill/small';

const wasm = path.resolve('node_modules/highs/build/highs.wasm');
/** Proved in a second: what a time limit ends would depend on the machine's load. */
const problem = smallHarvest(2, 2, 0.8);
const options: FillJobOptions = { seed: 1, moves: 60, timeLimitSeconds: 20 };

let folder = '';
let file = '';

/** Bundled as the product bundles it: each worker one file, the solver's program elsewhere. */
beforeAll(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'fill-worker-'));
  file = path.join(folder, 'fill-worker.cjs');
  const common = { bundle: true, alias: { highs: path.resolve('node_modules/highs/build/highs.js') } };
  await esbuild.build({
    ...common,
    entryPoints: ['src/server/fill-worker/node.ts'],
    outfile: file,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
  });
  await esbuild.build({
    ...common,
    entryPoints: ['src/server/fill-worker/web.ts'],
    outfile: path.join(folder, 'web.cjs'),
    platform: 'browser',
    format: 'cjs',
    target: 'es2022',
    external: ['node:*', 'module', 'fs', 'path', 'url'],
  });
});

afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

describe('fills looked for in a worker', () => {
  it('are those found without one, with progress on the way', async () => {
    const shares: number[] = [];
    const result = await runFill(problem, options, {
      worker: nodeFillWorker(file),
      wasm: { bytes: new Uint8Array(fs.readFileSync(wasm)) },
      onProgress: (share) => shares.push(share),
    });
    expect(result).toEqual(await proposeFill(problem, { ...options, loadHighs: highsForNode(wasm) }));
    expect(shares.slice(0, 3)).toEqual([0, 20 / 60, 40 / 60]);
  });

  it('end at once when cancelled, in the middle of the search or before', async () => {
    const stop = new AbortController();
    const running = runFill(
      problem,
      { ...options, moves: 1e9 },
      {
        worker: nodeFillWorker(file),
        wasm: { path: wasm },
        signal: stop.signal,
        onProgress: () => stop.abort(),
      },
    );
    await expect(running).rejects.toBeInstanceOf(FillCancelled);
    const never = runFill(problem, options, {
      worker: nodeFillWorker(file),
      wasm: { path: wasm },
      signal: stop.signal,
    });
    await expect(never).rejects.toBeInstanceOf(FillCancelled);
  });

  it('say in words what went wrong', async () => {
    const run = (worker: FillWorker) => runFill(problem, options, { worker, wasm: { path: '/none.wasm' } });
    await expect(run(nodeFillWorker(file))).rejects.toThrow(/^Fills could not be proposed: /);
  });

  it("work as in a browser's worker", async () => {
    const scope = globalThis as {
      onmessage?: ((event: { data: unknown }) => void) | null;
      postMessage?: (message: unknown) => void;
    };
    await import(pathToFileURL(path.join(folder, 'web.cjs')).href);
    const posted = new Promise<Record<string, unknown>>((resolve) => {
      scope.postMessage = (message) => {
        const one = message as Record<string, unknown>;
        if (one.kind !== 'progress') resolve(one);
      };
    });
    scope.onmessage?.({ data: { kind: 'start', problem, options, wasm: { bytes: fs.readFileSync(wasm) } } });
    const { kind, result } = await posted;
    expect(kind).toBe('done');
    expect(result).toEqual(await proposeFill(problem, { ...options, loadHighs: highsForNode(wasm) }));
  });
});
