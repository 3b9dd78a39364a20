import type { Span } from './span';

export type Severity = 'error' | 'warning' | 'notice';

/** Another place that a finding speaks of. */
export interface RelatedPlace {
  readonly at: Span;
  /** Of a file beside the plan, whose text is not held, the line, counted from 1: then `at` tells the file alone. */
  readonly line?: number;
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
  /** Where it is milder or graver than its rule says; the planner's own choice goes before it. */
  readonly severity?: Severity;
  readonly at: Span;
  readonly related?: readonly RelatedPlace[];
  readonly fixes?: readonly Fix[];
  /** What the finding is about (a room, a lot, a week), for a fingerprint that survives moved lines. */
  readonly about?: string;
}
