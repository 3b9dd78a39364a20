import type { ItemKind } from '../plan/check/item-kinds';
import type { Day, Week } from '../plan/dates';
import type { Unit } from '../plan/figure';
import type { Span } from '../plan/span';

/** What a plan is made of, as the plan language names it; the last three stand once in a plan. */
export type ThingKind = ItemKind;

/** One thing of a plan; `id` of one that stands once is its kind. */
export interface Thing {
  readonly kind: ThingKind;
  readonly id: string;
}

/** A value of a plan, in the tool's own units; days and weeks as ISO 8601 text. */
export interface PlanValue {
  readonly value: string | number | boolean;
  readonly unit?: Unit;
}

export type PlanChangeKind =
  | 'added'
  | 'removed'
  /** Bins of a lot, from one fill to another. */
  | 'lot-moved'
  /** Bins of a lot, received or expected; or of a lot in one fill. */
  | 'bins-changed'
  | 'demand-changed'
  /** The same cartons, all of them so many weeks earlier or later. */
  | 'demand-shifted'
  /** A planner's own value for a variety or a regime. */
  | 'override-changed'
  /** A fill's opening week, pinned, moved or let go. */
  | 'pin-changed'
  | 'fill-moved'
  | 'regime-changed'
  /** A finding allowed at its place by a comment, or no longer. */
  | 'allowance-changed'
  | 'key-changed';

/** One change of a plan. Text that says the same (moved, reordered, commented, other units) is none. */
export interface PlanChange {
  readonly kind: PlanChangeKind;
  /** What it is about, the chief thing first: of a lot moved the lot, the fill it left, the fill it came to. */
  readonly things: readonly [Thing, ...Thing[]];
  /** The key in the plan's text (`inside.length`), where one key says it. */
  readonly key?: string;
  readonly before?: PlanValue;
  readonly after?: PlanValue;
  /**
   * Of bins moved how many, of a demand shifted weeks later (earlier below 0), of a demand cartons more or fewer. Of bins
   * of a lot in a fill, where others of them were moved, how many more (fewer below 0) beside those; of a fill that came
   * or went its bins beside those moved, and all of them in `after` or `before`. So each bin is told once.
   */
  readonly amount?: PlanValue;
  /** Where it stands in the old text and in the new one. */
  readonly oldAt?: Span;
  readonly newAt?: Span;
}

/** Changes that only make sense together, with the entries that hold them. Applied as one to find what it causes. */
export interface Edit {
  readonly changes: readonly [PlanChange, ...PlanChange[]];
  readonly entries: readonly Thing[];
  /** What of the market each of its changes bears upon first. */
  readonly products: ReadonlyMap<PlanChange, ProductsTouched>;
}

/** Varieties, and the class where it is of one alone; no variety where it may be any. */
export interface ProductsTouched {
  readonly varieties: ReadonlySet<string>;
  readonly packClass?: string;
}

/** A thing whose content is the same under another name. No change. */
export interface Rename {
  readonly kind: ThingKind;
  readonly before: string;
  readonly after: string;
}

/**
 * What of a season is held against that of the other plan. `cartons-…` and `bins-packed` are by week; `opens` is a
 * week, or nothing for a fill left closed.
 */
export type MeasureKind =
  | 'earliest'
  | 'best-before'
  | 'latest'
  | 'window'
  | 'opens'
  | 'bins-stored'
  | 'carbon-dioxide'
  | 'room-cooling'
  | 'scrubber-peak'
  | 'scrubber-duty'
  | 'nitrogen-peak'
  | 'cooling-peak'
  | 'bins-packed'
  | 'cartons-sold'
  | 'cartons-short'
  | 'cartons-surplus'
  | 'value'
  | 'finding';

/** What a measure is of: a fill, an equipment, a variety in a class, or the season. */
export type Subject =
  | { readonly of: 'fill'; readonly fill: string; readonly room: string }
  | { readonly of: 'equipment'; readonly thing: Thing }
  | { readonly of: 'product'; readonly variety: string; readonly packClass: string }
  | { readonly of: 'season' };

export type AmountUnit = Unit | 'week';

/** An amount in one week of both plans. */
export interface WeekDifference {
  readonly week: Week;
  readonly before: number;
  readonly after: number;
}

/**
 * How grave a consequence is, the gravest first. The scale is made of facts alone:
 * `error`     a finding of severity error: the plan cannot work as it stands
 * `closed`    fruit in a room that has no week it can be opened in, or that the schedule leaves closed
 * `short`     cartons that are wanted and not there
 * `overload`  a scrubber, nitrogen source or cooling asked for more than it gives
 * `warning`   a finding of severity warning
 * `value`     money: what the schedule is worth
 * `shift`     a window, a week, a load or an amount that is other than it was, within what the plan allows
 */
export const gravities = ['error', 'closed', 'short', 'overload', 'warning', 'value', 'shift'] as const;
export type Gravity = (typeof gravities)[number];

export type Direction = 'worse' | 'better' | 'neither';

/** Edits that cause a consequence, and how much of it, in its unit. */
export interface CausePart {
  /**
   * Indexes of edits. Several where they were tried together because there are too many to try each by itself: which of
   * them it is cannot be told then.
   */
  readonly edits: readonly [number, ...number[]];
  /** What they do to the old plan, or to what it has become by the edits tried before; absent for what is no amount. */
  readonly part?: number;
}

/** Which edits cause a consequence. The parts and `together` add up to the whole. */
export interface Causes {
  /** The greatest part first. Empty where no edit alone has any part in it. */
  readonly parts: readonly CausePart[];
  /** What the edits do together beyond the sum of what each does alone; absent for what is no amount. */
  readonly together?: number;
  /** True where only edits together bring it about. */
  readonly onlyTogether: boolean;
  /** True where nothing was tried, and the edits are those that are nearest to what it is about. */
  readonly untried?: true;
}

/** A finding on one side of the comparison. */
export interface FoundFinding {
  readonly code: string;
  readonly family: string;
  readonly severity: 'error' | 'warning' | 'notice';
  readonly message: string;
  readonly at: Span;
  /** The demand it is of, where it tells that one is short. */
  readonly shortOrder?: string;
}

/** Cartons that one demand is short of. */
export interface OrderDifference {
  readonly demand: string;
  readonly before: number;
  readonly after: number;
}

/** What differs between the two computed seasons. */
export interface Consequence {
  readonly kind: MeasureKind;
  /** Stable name, the same in both directions. */
  readonly key: string;
  readonly about: Subject;
  /** Absent where there is none on that side: a fill that is new, a room left closed. */
  readonly before?: number;
  readonly after?: number;
  readonly unit: AmountUnit;
  /** What is the most it may be, where there is such a limit; in its unit. */
  readonly limit?: number;
  /** Weeks that differ, of what is by week. */
  readonly byWeek?: readonly WeekDifference[];
  /** Of a shortage: the demands of which more or fewer cartons are short, the most first. */
  readonly orders?: readonly OrderDifference[];
  /** Of a finding: it as it is on each side. */
  readonly oldFinding?: FoundFinding;
  readonly newFinding?: FoundFinding;
  readonly gravity: Gravity;
  readonly direction: Direction;
  readonly causes: Causes;
}

/** From which amount a difference is told by itself. What is below is counted. */
export interface Thresholds {
  /** Weeks by which an edge of a window or an opening moves. */
  readonly weeks: number;
  /** Cartons of a variety in a class over the season, sold, short or to processing. */
  readonly cartons: number;
  /** Bins, stored in a room or packed in another week. */
  readonly bins: number;
  /** Points per cent of what an equipment can give. */
  readonly load: number;
  /** Per cent of what the old and the new schedule are worth, the larger of both. */
  readonly value: number;
}

export interface HeldBack {
  readonly kind: MeasureKind;
  readonly count: number;
}

/** A season in a few figures. */
export interface SeasonTotals {
  readonly errors: number;
  readonly warnings: number;
  /** Rooms with fruit. */
  readonly fills: number;
  readonly binsStored: number;
  /** Of the schedule; absent without one. */
  readonly schedule?: {
    readonly cartonsSold: number;
    readonly cartonsShort: number;
    readonly cartonsSurplus: number;
    readonly value: number;
  };
}

/** What the comparison could not compute, or computed less sharply, in the planner's words. */
export interface NotComputed {
  readonly side: 'old' | 'new' | 'both';
  readonly what: string;
}

export interface Comparison {
  readonly changes: readonly PlanChange[];
  readonly renames: readonly Rename[];
  readonly edits: readonly Edit[];
  /** Where a plan is compared with itself as it was known on a day: that day. */
  readonly since?: Day;
  /** Those that reach the thresholds: the worse before the better, each the gravest first. */
  readonly consequences: readonly Consequence[];
  readonly heldBack: readonly HeldBack[];
  readonly thresholds: Thresholds;
  /** Both seasons in a few figures; absent where nothing has changed. */
  readonly totals?: { readonly old: SeasonTotals; readonly now: SeasonTotals };
  readonly notComputed: readonly NotComputed[];
  /** For which plan the weeks were found that both keep; `both` where their schedules have the same to go by. */
  readonly weeksOf?: 'old' | 'new' | 'both';
}
