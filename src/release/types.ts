import type { Day, Week } from '../plan/dates';

/**
 * The release problem as plain numbers: what the model, the search and the checker all read. Weeks are indexes from
 * 0 at `firstWeek`. Rooms, products and demands are indexes into their lists. No plan, no figures, so that it crosses
 * to a worker as it is.
 */
export interface ReleaseProblem {
  readonly firstWeek: Week;
  readonly weeks: number;
  readonly rooms: readonly ProblemRoom[];
  /**
   * What can be sold: a variety in a pack class. One variety and class are several products where not all of its fruit
   * may go to the same demands: rooms kept for a market, lots too soft for a buyer from some week on.
   */
  readonly products: readonly { readonly variety: string; readonly packClass: string }[];
  readonly demands: readonly ProblemDemand[];
  /** Bins the packhouse can run in each week. */
  readonly packingBins: readonly number[];
  /**
   * Bins it can run, in each week, on the days that rooms whose emptying ends within that week may still be packed;
   * all such rooms together. Absent where emptying ends with whole weeks.
   */
  readonly lastWeekBins?: readonly number[];
  /** The days that these bins were counted from; absent in a problem that knows weeks alone. */
  readonly days?: PackhouseDays;
  readonly roomsOpenAtOnce: number | null;
  /** Weeks packed cartons may wait before sale; 0 means sold in the week they are packed. */
  readonly packedWaitWeeks: number;
  readonly costOfWaiting: number;
  readonly processingPrice: number;
  /** What uneven work costs; absent where it costs nothing. */
  readonly evenWork?: EvenWork;
  /** Where the season stands that the problem goes on from; absent where all of it is still to come. */
  readonly standing?: ProblemStanding;
  /** Rooms of which the first opens in an earlier week than the second, where both are opened. */
  readonly opensBefore?: readonly (readonly [first: number, later: number])[];
}

/** What has happened of a season whose rest is released. Weeks are from the season's first. */
export interface ProblemStanding {
  /** The first week that is still to come, or under way. */
  readonly week: number;
  /** Whether packing is recorded; if not, opened rooms are packed as if that were still to come. */
  readonly isPacked: boolean;
  /** Packed cartons that wait in the cold store: already taken from what is wanted. */
  readonly stock: number;
  /**
   * Fills that have been opened, and the week of it (also before the season). A room of which something is left is pinned
   * to that week, or to the first that is still to come.
   */
  readonly opened: readonly { readonly fill: string; readonly week: number }[];
  /** Cartons by demand and week that the demands ask for no more: past, sold or filled from the cold store. Or empty. */
  readonly settled: readonly (readonly number[])[];
  /** Of them, sold or filled from the cold store. */
  readonly sold: readonly (readonly number[])[];
  /** Of the stock, cartons that go to what is wanted in the weeks that they may wait. */
  readonly fromStock: number;
  /** Of the stock, cartons by product that nothing is wanted of while they may wait: they go to processing. */
  readonly leftOver: readonly number[];
  /** Bins packed in each week, as recorded. */
  readonly packed: readonly number[];
}

/** The packhouse's days: for words, and for what is checked to the day. The model itself counts in weeks. */
export interface PackhouseDays {
  readonly starts: Day;
  readonly ends: Day;
  /** Working days in a week without closed ones, from Monday on; may end within a day. */
  readonly daysAWeek: number;
  /** Working days of the season on which it is closed, ascending. */
  readonly closed: readonly Day[];
  /** Days over which a room is packed out, from the Monday of the week it opens in. */
  readonly daysToEmpty: number;
  /** Days that a packed carton may wait in the cold store. */
  readonly packedWaitDays: number;
}

/** The packhouse over the season: its weeks, and the days behind them. */
export type Packhouse = Pick<ReleaseProblem, 'firstWeek' | 'weeks' | 'packingBins' | 'lastWeekBins' | 'days'>;

/** What it costs when the packhouse runs more bins in one week, and fewer in the next. */
export interface EvenWork {
  /** Money for each bin by which a week differs from the working week before, both at the pace of a full week. */
  readonly price: number;
  /** Full weeks of work in each week: 1, less for days closed; 0 for a week without work, which is passed over. */
  readonly fullWeeks: readonly number[];
}

export interface ProblemRoom {
  /** The fill's identifier; of fruit from the field what tells it apart from fills and from other such fruit. */
  readonly fill: string;
  readonly room: string;
  readonly bins: number;
  /** Weeks over which it is packed out once opened, the opening week included. */
  readonly weeksToEmpty: number;
  /** First and last week it may be opened. An empty window is a conflict to report, never solved away. */
  readonly earliest: number;
  readonly latest: number;
  readonly bestBefore: number;
  readonly pinned: number | null;
  /** Cartons of each product that one bin gives, by week of packing: `cartonsABin[week][product]`. */
  readonly cartonsABin: readonly (readonly number[])[];
  /**
   * Cost of opening in each week: for the risk of soft fruit, which grows past `bestBefore`, and for a room in air for
   * the weeks that it has waited, at `weekInAir` each from `earliest` on.
   */
  readonly riskCost: readonly number[];
  /** Money for each week that a room in air waits to open; already in `riskCost`. Absent where it counts nothing. */
  readonly weekInAir?: number;
  /**
   * The week it opens in by the schedule published last (also one outside the season), and what each week counts that
   * it is moved by. A room left closed counts as moved as far as its window reaches, and by a week at least.
   */
  readonly published?: { readonly week: number; readonly price: number };
  /** Present for fruit that is in no room. */
  readonly fromField?: FromField;
}

/**
 * Fruit that is in no room: packed straight from the field, or from a holding room in cold air, over `weeksToEmpty`
 * weeks from `earliest`, which is `latest` too. It takes no place among the rooms that stand open and need not be packed
 * whole: what is not packed in its weeks goes to processing unpacked, each bin for the cartons that it would have given
 * in the first of them. A schedule opens it in `earliest`, or null where none of it is packed.
 */
export interface FromField {
  /** The lot's identifier. */
  readonly lot: string;
  /** Most bins of it that can be packed in each of its weeks, on the working days on which it is there. */
  readonly mostBins: readonly number[];
}

export interface ProblemDemand {
  readonly id: string;
  readonly market: string;
  /** A product of its variety and class; the one it is filled from, where `from` names no others. */
  readonly product: number;
  /** The products that may fill it, where not every one may in every week. Never names one twice. */
  readonly from?: readonly DemandSource[];
  /** Cartons wanted in each week. */
  readonly cartons: readonly number[];
  readonly price: number;
  readonly priceOfShortage: number;
}

export interface DemandSource {
  readonly product: number;
  /** The last week in which it may be sold to the demand. */
  readonly until: number;
}

/** A schedule: when each room opens, what is packed of it, and what is sold. Amounts are not rounded. */
export interface ReleaseSchedule {
  /** Opening week index of each room, or null for a room left closed. */
  readonly opens: readonly (number | null)[];
  /** Bins packed: `packed[room][week]`. */
  readonly packed: readonly (readonly number[])[];
  /** Cartons sold: `sold[demand][week]`. */
  readonly sold: readonly (readonly number[])[];
  /**
   * For demands that name their sources the cartons sold of each: `soldFrom[demand][source][week]`, in the order of
   * `from`; no rows for the others. Absent where no demand does.
   */
  readonly soldFrom?: readonly (readonly (readonly number[])[])[];
  /** Cartons sent to processing: `processed[product][week]`. */
  readonly processed: readonly (readonly number[])[];
  /**
   * Money: sales + processing, of fruit from the field that is not packed too - shortage - waiting - risk - changes from
   * the published schedule - uneven work.
   */
  readonly value: number;
}

/** What a solve returns. `bound` is a proven upper limit on the value of any schedule. */
export interface ReleaseResult {
  readonly schedule: ReleaseSchedule;
  readonly bound: number;
  /** (bound - value) / |bound|, as a share: 0.02 is two per cent. */
  readonly gap: number;
  /** What the bound rests on, in words. */
  readonly boundRestsOn: string;
  readonly provenOptimal: boolean;
  /** Pins and windows that cannot be kept, alone or together; in the planner's words. */
  readonly conflicts: readonly string[];
  /**
   * Rooms left closed because `conflicts` names them: a pin is never moved silently. Indexes into the problem's rooms;
   * absent means none.
   */
  readonly unmet?: readonly number[];
}

/** What a search is told: the same problem, seed and number of moves give the same schedule. */
export interface SearchOptions {
  readonly seed: number;
  /** Moves to try; more moves find better schedules. Never a time, so that results repeat. */
  readonly moves: number;
}

export interface ReleaseProgress {
  readonly stage: 'searching' | 'polishing' | 'bounding' | 'checking';
  readonly share: number;
  readonly value?: number;
  readonly bound?: number;
}

/** What the independent checker finds wrong; empty for a good schedule. */
export interface Violation {
  readonly kind: string;
  readonly message: string;
}
