import type { FruitData } from '../fruit/types';
import type { RoomKeeping } from '../keeping/types';
import type { Week } from '../plan/dates';
import type { Expectation } from '../plan/expect-model';
import type { Figure } from '../plan/figure';
import type { Plan } from '../plan/model';
import type { Fix } from '../plan/problem';
import type { Span } from '../plan/span';
import type { PlantSeason } from '../plant/types';
import type { ReleaseProblem, ReleaseResult } from '../release/types';
import type { FilledRoom } from '../room/types';

/** What promises are held against: the parts of a computed season that they speak of. */
export interface JudgedSeason {
  readonly plan: Plan;
  readonly fruit: FruitData;
  readonly filled: ReadonlyMap<string, FilledRoom>;
  readonly plant: PlantSeason | undefined;
  readonly keeping: ReadonlyMap<string, RoomKeeping>;
  readonly release: { readonly problem: ReleaseProblem; readonly result: ReleaseResult } | undefined;
}

/** A value that was promised or came out. */
export type Told =
  | { readonly kind: 'figure'; readonly figure: Figure }
  /** Null for a room that is opened at no time. */
  | { readonly kind: 'week'; readonly week: Week | null };

/** A change that would keep a broken promise, found by computing with it. */
export interface Cure {
  readonly text: string;
  readonly fixes: readonly Fix[];
}

export interface Judged {
  readonly state: 'kept' | 'broken';
  readonly promised: Told;
  /** What came out, to be held against what was promised. */
  readonly measured: Told;
  /** Where and by how much, in sentences; of a kept one how much is left. */
  readonly why: string;
  readonly cures: readonly Cure[];
  /** The smallest place that says what is promised. */
  readonly at: Span;
}

export interface NotJudged {
  readonly state: 'not judged';
  readonly why: string;
  readonly at: Span;
}

export type Verdict = Judged | NotJudged;

/** A promise and what came of it. */
export interface Outcome {
  readonly expectation: Expectation;
  /** The promise in words, without its full stop. */
  readonly claim: string;
  /** True where a week of opening is told, so that the caution must go with it. */
  readonly opening: boolean;
  readonly verdict: Verdict;
}
