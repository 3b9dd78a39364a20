import type { Highs } from 'highs';
import type { Day } from '../plan/dates';
import type { DrawsWorker } from '../release/draws-protocol';
import type { ReleaseProblem, ReleaseProgress, ReleaseResult } from '../release/types';
import type { Paint } from '../report/paint';
import type { Restored } from './write-all';

/** Everything a command touches outside itself, so that tests run commands in process. */
export interface Io {
  readonly out: Output;
  readonly err: Output;
  readonly files: FileAccess;
  readonly resources: Resources;
  /** The folder that paths are shown relative to. */
  readonly cwd: string;
  /** Today by the clock, where no `--today` is given. */
  readonly today: Day;
  /** Colours for what goes to `out`. */
  readonly paint: Paint;
  readonly version: string;
  readonly solve: Solve;
  /** A worker that draws seasons; without one they are drawn on this thread. */
  readonly startDrawsWorker?: (() => DrawsWorker) | undefined;
  /** Runs git in the current folder; absent where there is none. */
  readonly git?: RunGit | undefined;
  /** Loads the solver on this thread, for what is small enough. */
  readonly loadSolver: () => Promise<Highs>;
  /** Calls back when the planner asks to stop (Ctrl-C); returns how to end that. */
  onInterrupt(stop: () => void): () => void;
}

export interface Output {
  readonly isTerminal: boolean;
  write(text: string): void;
}

/** Runs git with the given words and input, and gives what it prints; a failure says what it said. */
export type RunGit = (words: readonly string[], input?: string) => { readonly out: Uint8Array } | Failure;

export interface Failure {
  readonly failure: string;
}

export interface WriteFailure extends Failure {
  readonly file: string;
  readonly left: readonly string[];
}

export interface FolderEntry {
  readonly name: string;
  readonly kind: 'file' | 'folder' | 'other';
}

/** Reading of files and folders, and writing where the planner asks for it. */
export interface FileAccess {
  kindOf(path: string): FolderEntry['kind'] | 'missing';
  list(folder: string): readonly FolderEntry[] | Failure;
  read(path: string): string | Failure;
  /** Gives a file's bytes from a place on, piece by piece, so that it is never held whole. Without it, it is read whole. */
  pieces?(path: string, from: number, each: (piece: Uint8Array) => void): Failure | undefined;
  /** Replaces the texts of files, of all or of none; a failure names the file, and those that could not be put back. */
  writeAll(texts: ReadonlyMap<string, string>): WriteFailure | undefined;
  /** Undoes a write that never ended, by the journal it left in a folder. */
  restore(journal: string): Restored | Failure;
  /** Writes a file at one stroke, new or over another, and makes the folders it lies in. */
  save(path: string, content: string | Uint8Array): Failure | undefined;
  /** The path with every link followed; folders that are linked in a circle have the same one. */
  realPath(path: string): string;
}

/** What is published beside the program. */
export interface Resources {
  readonly schemaNames: readonly string[];
  schema(name: string): string | undefined;
  /** A finding's page, as Markdown. */
  page(code: string): string | undefined;
}

export interface SolveSettings {
  readonly seed: number;
  readonly timeLimitSeconds: number;
  /** Stop within this share of the bound. */
  readonly gap: number;
}

/** Solves a release problem off this thread. When `stop` is raised it gives the best schedule found until then. */
export type Solve = (
  problem: ReleaseProblem,
  settings: SolveSettings,
  onProgress: (progress: ReleaseProgress) => void,
  stop: AbortSignal,
) => Promise<ReleaseResult>;

/** A reason why a command cannot run, in the planner's words. Ends it with exit code 2. */
export class CannotRun extends Error {}
