import type { Span } from './span';

export type Severity = 'error' | 'warning' | 'notice';

/** Another place that a finding speaks of. */
export interface RelatedPlace {
  readonly at: Span;
  readonly message: string;
}

/** A text edit at a place: the only way the tool ever changes a plan. */
export interface TextEdit {
  readonly at: Span;
  readonly newText: string;
}

/** A change that would cure a finding, offered to the planner. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly TextEdit[];
}

/** Something to tell the planner, at its place. `code` is the rule's stable kebab-case name. */
export interface Problem {
  readonly code: string;
  readonly message: string;
  readonly at: Span;
  readonly related?: readonly RelatedPlace[];
  readonly fixes?: readonly Fix[];
  /** What the finding is about (a room, a lot, a week), for a fingerprint that survives moved lines. */
  readonly about?: string;
}
