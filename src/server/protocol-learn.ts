import type { CardLesson } from '../report/card-types';
import type { LearnReport } from '../report/schemas';
import type { PinEdit, PlanParams } from './protocol';

/** LearnParams -> LearnAnswer | null without a plan, or where it was cancelled or the plan changed meanwhile */
export const learnRequest = 'lotwright/learn';

/** RoomLessonsParams -> RoomLessonsAnswer | null without a plan, or where it was changed meanwhile */
export const roomLessonsRequest = 'lotwright/roomLessons';

/** LearnShare: while a request of that `ask` is worked at */
export const learnShare = 'lotwright/learnShare';

/** TakeLessonsParams -> TakeLessonsAnswer | null without a plan, or where its records teach something else by now */
export const takeLessonsRequest = 'lotwright/takeLessons';

export interface LearnParams extends PlanParams {
  /** Lessons that are told, with what each changes of the season; left out, all, and what those change that differ. */
  readonly of?: readonly string[];
  /** Names the request in what is told of its progress. */
  readonly ask: number;
}

export interface LearnShare {
  readonly ask: number;
  /** 0 to 1. */
  readonly share: number;
}

export interface LearnAnswer {
  /** The plan's name. */
  readonly name: string;
  readonly lessons: readonly ToldLesson[];
  readonly together: LearnReport['together'];
  /** What there are records of, from which nothing can be told. */
  readonly notLearned: LearnReport['notLearned'];
}

/** A lesson as it is offered. */
export interface ToldLesson {
  readonly id: string;
  /** What records say and what the plan says, in a line. */
  readonly line: string;
  /** The plan's value lies outside of what records leave likely. */
  readonly differs: boolean;
  /** It stands in the plan as it would be written. */
  readonly written: boolean;
  /** As it would be written, its source beside it. */
  readonly value: string;
  /** What taking it in changes of the season, a line each; absent where it was not reckoned. */
  readonly effects?: readonly string[];
}

export interface RoomLessonsParams extends PlanParams {
  /** The card's key: a fill, or `room:` and a room. */
  readonly key: string;
}

/** What records teach of a room and of the lots in it, as its card shows it. */
export interface RoomLessonsAnswer {
  readonly lessons: readonly CardLesson[];
}

export interface TakeLessonsParams extends PlanParams {
  /** The lessons, and what each was to write when it was offered. */
  readonly lessons: readonly { readonly id: string; readonly value: string }[];
}

/** The edits that write them, for the text as it stands. */
export interface TakeLessonsAnswer {
  readonly edits: Readonly<Record<string, readonly PinEdit[]>>;
  /** Version of each open document that is edited. */
  readonly versions: Readonly<Record<string, number>>;
}
