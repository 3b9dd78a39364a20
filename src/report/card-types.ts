import type { Span } from '../plan/span';

/**
 * The view models of the room card and the season card. Plain data, ready to draw, as the timeline's: texts are in the
 * plan's display units already.
 */

export type CardSeverity = 'error' | 'warning' | 'notice';

export interface CardFinding {
  readonly severity: CardSeverity;
  readonly code: string;
  readonly message: string;
  readonly target: Span;
}

/** A figure with its name; `figure` is what it can be asked for by, to be told how it came about. */
export interface CardFact {
  readonly label: string;
  readonly value: string;
  readonly figure?: string;
}

export interface FactGroup {
  readonly title: string;
  readonly facts: readonly CardFact[];
}

/** A table's line; a click leads to its place in the text. */
export interface CardLine {
  readonly cells: readonly string[];
  readonly target?: Span;
}

export interface CardTable {
  readonly title: string;
  readonly columns: readonly string[];
  readonly lines: readonly CardLine[];
  /** What stands in place of the lines where there are none. */
  readonly none: string;
}

/** How a line of a chart is drawn, and what it is: computed, a set-point that is steered to, or a limit. */
export type DayLineLook =
  | 'oxygen'
  | 'carbon-dioxide'
  | 'batch'
  | 'mean'
  | 'room'
  | 'wanted'
  | 'taken'
  | 'loss'
  | 'oxygen-set-point'
  | 'carbon-dioxide-set-point'
  | 'lower-limit'
  | 'upper-limit'
  /** Points: the mean of what was read each day. */
  | 'oxygen-read'
  | 'carbon-dioxide-read'
  | 'room-read';

export interface DayLine {
  readonly name: string;
  readonly look: DayLineLook;
  /** A value for each of the card's days; null where there is none. */
  readonly values: readonly (number | null)[];
}

export interface DayChart {
  readonly id: 'gas' | 'temperature' | 'cooling' | 'weight';
  readonly title: string;
  readonly unit: string;
  /** Decimals that values are told with. */
  readonly decimals: number;
  readonly lines: readonly DayLine[];
  /** Highest value that the scale has to hold; lines may rise above it, and are cut off there. */
  readonly top: number;
  readonly bottom: number;
  /** The chart in a sentence or two. */
  readonly description: string;
}

/** What happens on a day; `kind` for those that the charts make something of. */
export interface CardEvent {
  readonly day: number;
  readonly what: string;
  readonly kind?: 'sealed' | 'set-point' | 'opens';
}

export interface RoomCard {
  /** The timeline row's key: the fill's identifier, or `room:` and the room's. */
  readonly key: string;
  readonly revision: number;
  readonly title: string;
  /** The row in sentences. */
  readonly description: string;
  readonly target: Span;
  /** The days of the charts, `2026-09-12`, first bin to opening; empty where the plan has no dates. */
  readonly days: readonly string[];
  /** Where months begin among the days. */
  readonly months: readonly { readonly day: number; readonly label: string }[];
  /** What happens on a day: sealed, oxygen at its set-point, opens. */
  readonly events: readonly CardEvent[];
  readonly charts: readonly DayChart[];
  readonly facts: readonly FactGroup[];
  readonly lots: CardTable;
  readonly findings: readonly CardFinding[];
  /** What had to be assumed, and why a chart is missing. */
  readonly notes: readonly string[];
  readonly caution: string;
}

/** What was seen of something beside what was fitted to it, a picture on a scale of its own. */
export interface LessonPicture {
  readonly title: string;
  readonly unit: string;
  /** By time, or by lot; at most a few dozen. */
  readonly points: readonly LessonPicturePoint[];
}

export interface LessonPicturePoint {
  /** The days it is of, and what else names it. */
  readonly label: string;
  /** The middle of its days, counted from 1970; several points may be of one day. */
  readonly at: number;
  /** Null where the curve goes on and nothing was seen yet. */
  readonly seen: number | null;
  readonly fitted: number;
  readonly low: number;
  readonly high: number;
  /** Seen, fitted, and the limits between which it lies 95 times in 100, as text. */
  readonly texts: readonly [seen: string, fitted: string, limits: string];
}

/** What records teach of a room or of its lots. */
export interface CardLesson {
  readonly id: string;
  readonly title: string;
  /** What records say and what the plan says. */
  readonly line: string;
  readonly differs: boolean;
  /** It stands in the plan as it would be written. */
  readonly written: boolean;
  readonly pictures: readonly LessonPicture[];
  readonly remarks: readonly string[];
}

/** A share of something, as a bar and as text. */
export interface Gauge {
  readonly label: string;
  readonly text: string;
  /** Share of the whole, 0 to 1 and more; null where there is no whole. */
  readonly share: number | null;
  /** Above its limit, or short. */
  readonly bad: boolean;
}

export interface SeasonCard {
  readonly revision: number;
  readonly title: string;
  readonly scheduleNote: string;
  readonly gauges: readonly Gauge[];
  readonly tables: readonly CardTable[];
  readonly findings: readonly CardFinding[];
  /** Findings beyond those listed. */
  readonly more: number;
  readonly counts: { readonly errors: number; readonly warnings: number; readonly notices: number };
  readonly caution: string;
}
