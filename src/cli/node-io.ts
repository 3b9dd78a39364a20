import path from 'node:path';
import { parseDay } from '../plan/dates';
import { nodeDrawsWorker } from '../release/node-draws-worker';
import { paintFor, wantsColour } from './colour';
import { nodeFiles, nodeResources } from './files';
import { gitIn } from './git';
import type { Io, Output } from './io';
import { solveInWorker } from './solve';

declare const LOTWRIGHT_VERSION: string;

/** The command line's surroundings in Node. `folder` is the program's own, with what is published beside it. */
export function nodeIo(folder: string): Io {
  const out = outputTo(process.stdout);
  return {
    out,
    err: outputTo(process.stderr),
    files: nodeFiles,
    resources: nodeResources(path.join(folder, 'schemas'), path.join(folder, 'pages')),
    cwd: process.cwd(),
    today: parseDay(localDate(new Date())) ?? 0,
    paint: paintFor(wantsColour(process.env, out.isTerminal)),
    version: LOTWRIGHT_VERSION,
    solve: solveInWorker(folder),
    startDrawsWorker: () => nodeDrawsWorker(path.join(folder, 'worker.cjs')),
    git: gitIn(process.cwd()),
    // Loaded when asked for: few commands need it.
    loadSolver: async () => {
      const { highsForNode } = await import('../release/highs-node');
      return highsForNode(path.join(folder, 'highs.wasm'))();
    },
    onInterrupt,
  };
}

function outputTo(stream: NodeJS.WriteStream): Output {
  return { isTerminal: stream.isTTY === true, write: (text) => stream.write(text) };
}

/** The first Ctrl-C asks to stop; a second one ends the program at once. */
function onInterrupt(stop: () => void): () => void {
  process.once('SIGINT', stop);
  return () => process.removeListener('SIGINT', stop);
}

/** The calendar date where the planner is. */
function localDate(now: Date): string {
  const two = (number: number) => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
