import type { Highs } from 'highs';
import type { Day } from '../plan/dates';
import type { FileSource } from './file-source';
import type { AddressedDisk } from './opening-files';
import type { Delays } from './plan-session';
import type { Ahead } from './protocol-ahead';

/** What the server needs from the place it runs in. */
export interface ServerHost {
  today(): Day | undefined;
  later(milliseconds: number, work: () => void): () => void;
  /** Milliseconds of a clock that only ever goes on. */
  now(): number;
  /** Tells this run of the server from others: each begins to count its revisions anew. */
  readonly run: string;
  /** Loads the solver on this thread; `program` asks the client for `highs.wasm`, where there is no disk to read it from. */
  loadSolver(program: () => Promise<Uint8Array>): Promise<Highs>;
  /** For clients that do not read files for the server; a server without it then sees open documents only. */
  readonly files?: FileSource;
  /** What a client may say that it sees too. */
  readonly disk?: AddressedDisk;
  readonly delays?: Delays;
  /** What a client has said of its folders before its first request. */
  readonly ahead?: Ahead;
  /** Is called when the first plan has been answered for and nothing presses, and before the server ends. */
  hasTime?(): Promise<void>;
}
