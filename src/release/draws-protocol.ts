import type { AcrossDraws, AcrossProgress } from './across-types';
import { type Annealed, type AnnealOptions, annealAcross } from './draw-anneal';
import { type Candidate, gainsInDraws } from './draw-gains';
import type { DrawInputs } from './draw-inputs';
import { type DrawSpan, type DrawTally, tallyDraws } from './draw-tally';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/** What a worker that draws seasons is told once. */
export interface DrawsJob {
  readonly problem: ReleaseProblem;
  readonly inputs: DrawInputs;
}

/** One piece of work, the same wherever it is done. */
export type DrawsTask =
  | {
      readonly kind: 'tally';
      readonly schedule: ReleaseSchedule;
      readonly span: DrawSpan;
      /** Packing is spread anew in each season; takes several times as long. */
      readonly respread?: boolean;
    }
  | {
      readonly kind: 'gains';
      readonly schedule: ReleaseSchedule;
      readonly span: DrawSpan;
      readonly candidates: readonly Candidate[];
    }
  | { readonly kind: 'anneal'; readonly schedule: ReleaseSchedule; readonly options: AnnealOptions };

export type DrawsAnswer =
  | { readonly kind: 'tally'; readonly tally: DrawTally }
  | { readonly kind: 'gains'; readonly gains: readonly number[] }
  | { readonly kind: 'anneal'; readonly found: Annealed };

/** What a schedule that is good across draws is sought from. */
export interface SeekTask {
  readonly start: ReleaseSchedule;
  readonly seed: number;
  /** Seasons that it is sought on. */
  readonly draws: number;
  readonly unmet?: readonly number[] | undefined;
}

/**
 * What a worker is sent: first the job, then tasks, one at a time. Or it is to seek a schedule that is good across draws:
 * it then asks for tasks to be done by others, and is sent how many are done, and their answers.
 */
export type ToDrawsWorker =
  | { readonly kind: 'job'; readonly job: DrawsJob }
  | { readonly kind: 'task'; readonly task: DrawsTask }
  | { readonly kind: 'seek'; readonly task: SeekTask }
  | { readonly kind: 'tasksDone'; readonly done: number }
  | { readonly kind: 'answers'; readonly answers: readonly DrawsAnswer[] };

export type FromDrawsWorker =
  | { readonly kind: 'done'; readonly answer: DrawsAnswer }
  | { readonly kind: 'ask'; readonly tasks: readonly DrawsTask[] }
  | { readonly kind: 'progress'; readonly progress: AcrossProgress }
  | { readonly kind: 'found'; readonly across: AcrossDraws }
  | { readonly kind: 'failed'; readonly message: string };

/** A worker as the pool needs it, whatever it runs on. */
export interface DrawsWorker {
  post(message: ToDrawsWorker): void;
  /** Calls these from now on, and none that were given before. */
  listen(onMessage: (message: FromDrawsWorker) => void, onFailure: (reason: string) => void): void;
  /** Ends it at once. */
  terminate(): void;
}

export function doDrawsTask({ problem, inputs }: DrawsJob, task: DrawsTask): DrawsAnswer {
  const { schedule } = task;
  switch (task.kind) {
    case 'tally':
      return { kind: 'tally', tally: tallyDraws(problem, schedule, inputs, task.span, task.respread) };
    case 'gains':
      return { kind: 'gains', gains: gainsInDraws(problem, schedule, inputs, task.span, task.candidates) };
    case 'anneal':
      return { kind: 'anneal', found: annealAcross(problem, schedule, inputs, task.options) };
  }
}
