import type { Uri } from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import type { ReleaseProblem, ReleaseProgress, ReleaseResult } from '../src/release/types';

export interface ReleaseJob {
  readonly problem: ReleaseProblem;
  readonly timeLimitSeconds: number;
  readonly onProgress: (progress: ReleaseProgress) => void;
}

/** A release schedule being looked for in a worker of its own. */
export interface RunningRelease {
  readonly result: Promise<ReleaseResult>;
  /** Ends the worker at once; `result` then never settles. */
  stop(): void;
}

/** What differs between the desktop's extension host, which is Node, and the web's, which is a worker. */
export interface ExtensionHost {
  /** `dist` is the folder of the extension's built files. */
  createClient(dist: Uri, options: LanguageClientOptions): BaseLanguageClient;
  startRelease(dist: Uri, job: ReleaseJob): Promise<RunningRelease>;
}
