import type { Day, Week } from '../../plan/dates';
import type { DisplayUnits, Measure } from '../../plan/display';

/**
 * The season's schedule as people are told of it: week by week and room by room, in the units they read. Every paper
 * is made from this account alone. Bins and cartons are whole: a room's bins by week add up to those packed of it.
 */
export interface SeasonAccount {
  /** The season's name; `Season` where the plan gives none. */
  readonly title: string;
  readonly files: readonly string[];
  readonly units: DisplayUnits;
  /** Day of issue, where one was given. Without it the same plan makes the same papers on any day. */
  readonly issued?: Day;
  /** The week looked from: papers leave out what lies before it in their lists by week. */
  readonly fromWeek?: Week;
  /** How many rooms open, and where their weeks come from, in a few sentences. */
  readonly schedule: string;
  /** Where opening weeks come from, in one sentence that counts and names no room; empty where none opens. */
  readonly basis: string;
  /** Which of the cartons told were packed before, in words; absent where none are. */
  readonly packedBefore?: string;
  /** That not all of the plan could be read, and where; absent where all was. */
  readonly notRead?: string;
  /** Pins and windows that cannot be kept. */
  readonly conflicts: readonly string[];
  readonly weeks: readonly WeekAccount[];
  /** A fill each, in the order of their rooms. */
  readonly rooms: readonly RoomAccount[];
  /** Fills of rooms that have more than one: these are told by the room and the fill. */
  readonly fillsToTell: ReadonlySet<string>;
  /** In the order of their days. */
  readonly tasks: readonly Task[];
  readonly samples: readonly Sample[];
  readonly scrubbing: readonly ScrubbingTurn[];
  readonly market: readonly MarketLine[];
  readonly products: readonly ProductLine[];
  /** Lots, or parts of lots, that are packed at harvest and come from no room. */
  readonly fromField: readonly FieldAccount[];
  /** Every lot of the plan once. */
  readonly lots: readonly LotAccount[];
}

export interface WeekAccount {
  readonly week: Week;
  readonly bins: number;
  /** Bins the packhouse can run. */
  readonly capacity: number;
  readonly cartonsWanted: number;
  readonly cartonsSold: number;
  readonly cartonsShort: number;
  /** Packed and never sold. */
  readonly cartonsUnsold: number;
  /** Packed cartons that wait for their sale at the week's end. */
  readonly cartonsInStock: number;
}

export interface WeekBins {
  readonly week: Week;
  readonly bins: number;
}

export interface RoomAccount {
  readonly room: string;
  readonly fill: string;
  readonly varieties: readonly string[];
  readonly lots: readonly LotInRoomAccount[];
  readonly growers: readonly string[];
  readonly bins: number;
  readonly fruit?: Measure;
  readonly regime?: string;
  readonly temperature?: Measure;
  readonly oxygen?: Measure;
  readonly carbonDioxide?: Measure;
  readonly nitrogen?: string;
  readonly scrubber?: string;
  readonly firstBin?: Day;
  readonly lastBin?: Day;
  /** Absent for a room kept in air. */
  readonly sealed?: Day;
  readonly fivePercentBy?: Day;
  readonly setPointBy?: Day;
  readonly earliest?: Week;
  readonly bestBefore?: Week;
  readonly latest?: Week;
  readonly opens?: Week;
  /** What sets the week; absent for a room that stays shut. */
  readonly setBy?: SetBy;
  readonly pinned: boolean;
  /** The last week it is packed in. */
  readonly emptyBy?: Week;
  readonly packing: readonly WeekBins[];
  /** Bins that the schedule leaves in the room. */
  readonly binsLeft: number;
  /** Fresh air to plan for before a crew is called, in volumes of the room's gas and as an amount. */
  readonly freshAirVolumes?: number;
  readonly freshAir?: Measure;
}

export interface LotInRoomAccount {
  readonly lot: string;
  readonly variety: string;
  readonly grower?: string;
  readonly block?: string;
  readonly bins: number;
  readonly fruit?: Measure;
  /** At the maturity test. */
  readonly firmness?: Measure;
}

/** What sets the week a room opens in: that it was opened, the plan, weeks published before, or a schedule. */
export const SET_BY = ['opened', 'pin', 'published', 'quick', 'found'] as const;
export type SetBy = (typeof SET_BY)[number];

/** Everything a room has done to it. */
export const TASK_KINDS = [
  'fill',
  'seal',
  'purge',
  'five-per-cent',
  'set-point',
  'scrub',
  'lime',
  'sample',
  'ventilate',
  'open',
  'empty',
] as const;

export type TaskKind = (typeof TASK_KINDS)[number];

/** Something to be done, or to have come about, on a day or between two. */
export interface Task {
  readonly kind: TaskKind;
  /** What it is about, by identifier: a fill, or a scrubber for its lime. */
  readonly about: string;
  /** Tells several of a kind about one thing apart; empty where there is one only. */
  readonly which: string;
  readonly first: Day;
  /** Inclusive. */
  readonly last: Day;
  /** The last day on which what is set from `first` to `last` goes on; absent where it is done then. */
  readonly until?: Day;
  readonly rooms: readonly string[];
  /** Of scrubbing: hours a day given out to the room at most, and those that its set-point takes at most. */
  readonly hoursADay?: { readonly given: number; readonly needed: number };
  /** A few words: `Open R2`. */
  readonly title: string;
  /** Further sentences; may be empty. */
  readonly detail: string;
}

export interface Sample {
  readonly room: string;
  readonly fill: string;
  /** `set-aside`, `test-1`, `month-2026-11`, `grade` */
  readonly which: string;
  readonly first: Day;
  readonly last: Day;
  readonly what: string;
  /** Of each of these, by name: lots, or orchards. */
  readonly of: readonly string[];
  readonly fruitEach: number;
  readonly tests: string;
  /** The publication it follows. */
  readonly source: string;
}

/** Weeks in which a room has the same turn at its scrubber, to within an hour a day. */
export interface ScrubbingTurn {
  readonly scrubber: string;
  readonly room: string;
  readonly fill: string;
  readonly first: Week;
  readonly last: Week;
  /** The most it may take: all of a scrubber's hours are given out to its rooms. */
  readonly hoursADay: number;
  /** The most that its set-point takes in these weeks, mean of a week. */
  readonly hoursNeeded: number;
}

/** What one market wants of a variety and class in a week. */
export interface MarketLine {
  readonly week: Week;
  readonly market: string;
  readonly variety: string;
  readonly packClass: string;
  readonly demands: readonly string[];
  readonly wanted: number;
  readonly sold: number;
  readonly short: number;
}

/** What becomes of a variety and class in a week. */
export interface ProductLine {
  readonly week: Week;
  readonly variety: string;
  readonly packClass: string;
  readonly packed: number;
  readonly sold: number;
  readonly unsold: number;
}

export interface FieldAccount {
  readonly lot: string;
  readonly variety: string;
  readonly bins: number;
  readonly fruit?: Measure;
  readonly packing: readonly WeekBins[];
  /** Bins that go to processing unpacked. */
  readonly binsLeft: number;
}

export interface LotAccount {
  readonly lot: string;
  /** Empty where the plan names none. */
  readonly grower: string;
  readonly variety: string;
  readonly block?: string;
  readonly pickedFirst?: Day;
  readonly pickedLast?: Day;
  /** Received, else expected. */
  readonly bins?: number;
  readonly places: readonly LotPlace[];
}

/** A lot's part of a room, or what of it is packed at harvest: then its room is `FROM_FIELD`. */
export interface LotPlace {
  readonly room: string;
  readonly fill: string;
  readonly bins: number;
  readonly fruit?: Measure;
  readonly sealed?: Day;
  readonly opens?: Week;
  readonly setBy?: SetBy;
  readonly emptyBy?: Week;
  /** Bins of it that are on record as packed out of the room. */
  readonly packedBefore: number;
  readonly packing: readonly WeekBins[];
}

/** What stands in place of a room's name for fruit that is packed at harvest. */
export const FROM_FIELD = 'from the field';
