import path from 'node:path';
import { nodeReleaseWorker } from '../release/node-worker-runner';
import { ReleaseCancelled, runRelease } from '../release/run-release';
import { releaseDefaults } from '../release/worker-protocol';
import { CannotRun, type Solve } from './io';

/** Solves on a thread of its own; `folder` holds the bundled worker and the solver's program. */
export function solveInWorker(folder: string): Solve {
  return async (problem, settings, onProgress, stop) => {
    try {
      return await runRelease(
        problem,
        { ...settings, moves: releaseDefaults.moves },
        {
          createWorker: () => nodeReleaseWorker(path.join(folder, 'worker.cjs')),
          wasm: { path: path.join(folder, 'highs.wasm') },
          onProgress,
          signal: stop,
        },
      );
    } catch (error) {
      if (!(error instanceof ReleaseCancelled)) throw new CannotRun((error as Error).message);
      if (!error.best) throw new CannotRun('Stopped before a schedule was found.');
      return error.best;
    }
  };
}
