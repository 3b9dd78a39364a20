import type { CardLesson, RoomCard, SeasonCard } from './card-types';

/**
 * The view model of the room timeline. Plain data, ready to draw: the panel knows nothing of plans. Weeks are indexes
 * from 0 at the first label. Texts are already in the plan's display units.
 */
export interface TimelineView {
  /**
   * Which plan, and which run of what counts its revisions; the title where absent. Revisions of different ones are
   * not compared.
   */
  readonly plan?: string;
  /** Grows with every change; the panel drops a model older than the one it shows. */
  readonly revision: number;
  readonly title: string;
  /** Why there is nothing to draw, and what to do; absent where there are rows. */
  readonly empty?: string;
  /** ISO week labels, `2026-W35`. */
  readonly weeks: readonly string[];
  /** Month labels over the weeks: where the month begins, in weeks (a fraction within a week), and text. */
  readonly months: readonly { readonly week: number; readonly label: string }[];
  /** Today, in weeks from the first, where it lies in the season; a fraction for days after a Monday. */
  readonly today?: number;
  /** Headings of the rows' `cells`, for the table twin. */
  readonly columns: readonly string[];
  readonly rows: readonly TimelineRow[];
  /** Demand and supply, all products together first, then each variety, and behind it each of its pack classes. */
  readonly supply: readonly SupplySeries[];
  readonly scrubbers: readonly ScrubberSeries[];
  /** Loads of the other shared equipment, each kind a band of its own. */
  readonly loads?: readonly LoadBand[];
  /** The other state that the plan is held against; absent where there is none. */
  readonly against?: { readonly label: string; readonly note: string };
  /** What seasons drawn came to; `older` where the plan or its schedule has changed since. Absent where none were. */
  readonly drawn?: { readonly older: boolean; readonly note: string };
  /** One sentence about the schedule: its value, its distance from the bound, or that none has been computed. */
  readonly scheduleNote: string;
  readonly caution: string;
}

/** A place in the plan's text that a click leads to. */
export interface TextTarget {
  readonly file: string;
  readonly start: number;
  readonly end: number;
}

export interface TimelineRow {
  /** Stable key: the fill's identifier; `room:` and the room's identifier for a room that nothing fills. */
  readonly key: string;
  readonly room: string;
  readonly varieties: string;
  readonly bins: string;
  readonly regime: string;
  readonly target: TextTarget;
  /** Parts of a week are fractions: filling may begin on a Wednesday. */
  readonly filling?: { readonly from: number; readonly to: number };
  readonly pullDown?: { readonly from: number; readonly to: number };
  readonly keeping?: { readonly from: number; readonly to: number };
  readonly window?: { readonly earliest: number; readonly bestBefore: number; readonly latest: number };
  /** The latest week of the window by confidence, the highest first; absent of a room that was opened. */
  readonly byConfidence?: readonly ConfidenceStep[];
  /** `passed` where the schedule chose a week that lies before today's, so that nobody can keep to it any more. */
  readonly opens?: {
    readonly week: number;
    readonly pinned: boolean;
    readonly passed?: true;
    readonly target?: TextTarget;
  };
  /** The schedule's week, `2027-W09`, where it can be written into the fill as its pin. */
  readonly pin?: string;
  /** Weeks over which it is packed out once opened. */
  readonly emptying?: { readonly from: number; readonly to: number };
  readonly findings: { readonly errors: number; readonly warnings: number; readonly notices: number };
  /** Findings of the room that tell of a week on the axis. */
  readonly marks?: readonly FindingMark[];
  /** Where seasons drawn hang on the room: 1 for the one they hang on most. */
  readonly hangs?: { readonly rank: number; readonly text: string };
  /** Where the plan is held against another state that has the room too. */
  readonly other?: OtherState;
  /** The row in a sentence, for screen readers and the tooltip. */
  readonly description: string;
  /** The row's figures for the table twin. */
  readonly cells: readonly string[];
}

/** Until when a room may be opened at a confidence. */
export interface ConfidenceStep {
  /** Per cent. */
  readonly confidence: number;
  /** It is the plan's own, which `window` is drawn at. */
  readonly isPlans?: true;
  readonly latest: number;
  /** The same in a sentence, with what sets it and how well its chance is known. */
  readonly text: string;
}

export interface SupplySeries {
  readonly name: string;
  readonly unit: string;
  readonly demand: readonly number[];
  /** What is sold of what is wanted; empty where there is no schedule. */
  readonly supply: readonly number[];
  /** Packed but wanted by nobody, so sent to processing; absent where there is no schedule. */
  readonly surplus?: readonly number[];
  /** Weeks in which supply falls short of demand. */
  readonly short: readonly number[];
  /** By week the chance of being short in the seasons drawn, as a share; absent where none were. */
  readonly chance?: readonly number[];
  /** What the other state supplies; absent where there is none, or no schedule of it. */
  readonly other?: readonly number[];
  readonly description: string;
}

export interface ScrubberSeries {
  readonly name: string;
  /** Load as a share of capacity, per cent, by week; null where not known. */
  readonly share: readonly (number | null)[];
  readonly limit: number;
  readonly description: string;
  readonly target: TextTarget;
}

export interface LoadBand {
  readonly part: 'nitrogen' | 'refrigeration' | 'packhouse';
  readonly title: string;
  /** What the shares are of. */
  readonly what: string;
  readonly series: readonly ScrubberSeries[];
}

/** A finding at the week it tells of. */
export interface FindingMark {
  readonly week: number;
  readonly severity: 'error' | 'warning' | 'notice';
  readonly text: string;
  readonly target: TextTarget;
}

/** The same room in the other state. */
export interface OtherState {
  readonly window?: { readonly earliest: number; readonly latest: number };
  readonly opens?: number;
  readonly emptying?: { readonly from: number; readonly to: number };
  /** What differs, in a sentence; empty where nothing does. */
  readonly difference: string;
}

/** Messages from the extension to the panel. */
export type ToPanel =
  /** `older`: schedule and courses are those of the text before the last change, till it is told again. */
  | { readonly kind: 'view'; readonly view: TimelineView; readonly older?: boolean }
  /** The row in whose text the editor's caret stands; null where it stands in none. */
  | { readonly kind: 'caret'; readonly row: string | null }
  /** There is no plan to show; `hasFolder` false where the editor has no folder open either. */
  | { readonly kind: 'noPlan'; readonly hasFolder: boolean }
  /** Why a row's room opens in its week, or what opening it in `week` would do. */
  | {
      readonly kind: 'otherWeek';
      readonly fill: string;
      readonly week?: number;
      readonly text: string;
      readonly breaks: boolean;
    }
  /** What others could do around an opening that is held over `week`, and how many of them. */
  | {
      readonly kind: 'around';
      readonly fill: string;
      readonly week: number;
      readonly text: string;
      readonly rooms: number;
    }
  | { readonly kind: 'progress'; readonly text: string; readonly share: number | null }
  /** Asks for a picture of the timeline as it is arranged. */
  | { readonly kind: 'makePicture'; readonly format: 'svg' | 'png' }
  /** Shows the card of a room, or of the season. */
  | { readonly kind: 'showCard'; readonly card: CardName }
  /** The card that was asked for; null where the plan has it no more. `older` as for a view. */
  | {
      readonly kind: 'roomCard';
      readonly key: string;
      readonly card: RoomCard | null;
      readonly older?: boolean;
    }
  | { readonly kind: 'seasonCard'; readonly card: SeasonCard | null; readonly older?: boolean }
  /** How a figure came about. */
  | { readonly kind: 'explained'; readonly figure: string; readonly title: string; readonly text: string }
  /** What records teach of the room whose card is shown. */
  | { readonly kind: 'roomLessons'; readonly key: string; readonly lessons: readonly CardLesson[] }
  /** What taking a lesson in would change, a line each; null where it could not be told. */
  | { readonly kind: 'lessonEffects'; readonly lesson: string; readonly lines: readonly string[] | null }
  | { readonly kind: 'idle' };

/** Which card: a row's room, or the season. */
export type CardName = { readonly of: 'room'; readonly key: string } | { readonly of: 'season' };

/** Messages from the panel to the extension. */
export type FromPanel =
  | { readonly kind: 'ready' }
  /** Where there is no plan: how the person wants to begin. */
  | { readonly kind: 'begin'; readonly with: 'sample' | 'newPlan' | 'folder' | 'walkthrough' }
  | { readonly kind: 'reveal'; readonly target: TextTarget }
  /** Writes the schedule's week into the fill with this row's key. */
  | { readonly kind: 'pin'; readonly fill: string }
  /** Asks why the room opens in its week, or what opening it in `week`, an index, would do. */
  | { readonly kind: 'askWeek'; readonly fill: string; readonly week?: number }
  /** Writes that week, an index, into the fill as its pin. */
  | { readonly kind: 'moveTo'; readonly fill: string; readonly week: number }
  /** Pins what was offered around that week, an index, and the week itself. */
  | { readonly kind: 'pinAround'; readonly fill: string; readonly week: number }
  /** The picture that was asked for: SVG text, or PNG in base64; null where the page could not draw it. */
  | { readonly kind: 'picture'; readonly format: 'svg' | 'png'; readonly data: string | null }
  | { readonly kind: 'askCard'; readonly card: CardName }
  /** Asks how a figure came about, by its name: `R2.free-gas-volume`. */
  | { readonly kind: 'askFigure'; readonly figure: string }
  /** Asks what taking in what records teach, by its name, would change of the season. */
  | { readonly kind: 'askEffects'; readonly lesson: string }
  /** Writes it into the plan. */
  | { readonly kind: 'takeLesson'; readonly lesson: string }
  /** Asks what to hold the plan against; the person picks. */
  | { readonly kind: 'compare' }
  | { readonly kind: 'computeRelease' }
  | { readonly kind: 'cancelRelease' };
