import type { Day, Week } from '../plan/dates';

/**
 * The fill problem as plain numbers: what the search, the exact model and the checker all read. Rooms, lots and
 * regimes are in the order of their names, so the order of the plan's entries and files does not matter.
 */
export interface FillProblem {
  /** Rooms that no fill of the plan uses, and those whose fill may be topped up. */
  readonly rooms: readonly FreeRoom[];
  /** Lots with bins that no fill of the plan takes. */
  readonly lots: readonly LotToPlace[];
  readonly regimes: readonly RegimeChoice[];
  /** The plan's own fills. What is in them stays; none gets more but those a room is said to have begun with. */
  readonly pinned: readonly PinnedFill[];
  /** Days from first bin to last, both counted, that filling a room may take. */
  readonly mostFillingDays: number;
  /** Days a picked bin may wait outside for its room. */
  readonly mostWaitingDays: number;
  /** What comes before it is past: no cure of what is left over asks for it. Absent where no day counts as past. */
  readonly today?: Day | undefined;
  /** Fills of the plan that were asked for more bins and may take none, and why; absent where none was asked. */
  readonly notToppedUp?: readonly { readonly fill: string; readonly room: string; readonly reason: string }[];
  /** Lots and rooms that cannot be planned with, and what the plan lacks. */
  readonly leftOut: readonly LeftOut[];
}

export interface FreeRoom {
  readonly id: string;
  /** All of the room, those of a fill it has begun with too. */
  readonly places: number;
  /** Bins that may come in on one day. */
  readonly binsADay: number;
  /** First day bins may come in; null where the plan says none. */
  readonly ready: Day | null;
  /** Has what it takes to hold an atmosphere. */
  readonly sealable: boolean;
  /** Regimes it may not be run in though it could hold them: the room would break a rule of the plan's findings. */
  readonly barred?: readonly Barred[] | undefined;
  /** Places it has, where fewer of them may be used, and why. */
  readonly ofPlaces?: { readonly places: number; readonly reason: string } | undefined;
  /** By regime: what it costs to run this room in it where another room would suit better. */
  readonly costInRegime: readonly number[];
  /** What a fill of the plan has put into it already, where it may be topped up. */
  readonly held?: HeldFruit | undefined;
}

/** A fill of the plan that may take more: it stays as it is, and only what is added has a cost. */
export interface HeldFruit {
  readonly fill: string;
  /** Index into the problem's regimes: what is added is kept in it too. */
  readonly regime: number;
  readonly bins: number;
  readonly firstDay: Day;
  readonly lastDay: Day;
  /** Of the bins that may come in, those it takes up on each of its own days. */
  readonly binsADay: number;
  readonly lots: readonly string[];
  readonly growers: readonly string[];
  /** A grower in it is to be kept apart. */
  readonly apart: boolean;
  /** Storage terms of its lots, where they are known. */
  readonly terms: readonly number[];
  /** The last weeks of its lots. */
  readonly latest: readonly Week[];
  /** Where its sealing is written: bins that come after its last day put it off. */
  readonly sealing?: HeldSealing | undefined;
}

export interface HeldSealing {
  readonly day: Day;
  /** Days from the last bin to sealing: as the plan has them, or what is usual where that is fewer. */
  readonly daysAfter: number;
  /** Day after which no bin may come in, or sealing would be later than the planner's limits allow; infinite for none. */
  readonly lastBinBy: Day;
}

/** A regime that a room or a lot may not be kept in, and what stands against it. */
export interface Barred {
  /** Index into the problem's regimes. */
  readonly regime: number;
  /** The finding that it would make. */
  readonly code: string;
  readonly reason: string;
}

export interface RegimeChoice {
  readonly name: string;
  /** Names an oxygen level: the room is sealed. */
  readonly sealed: boolean;
  /** Held so low in carbon dioxide that lime does it better than carbon beds. */
  readonly lowCarbonDioxide: boolean;
  readonly conditioningDays: number;
}

export interface LotToPlace {
  readonly id: string;
  /** As the plan writes it. */
  readonly variety: string;
  /** Empty where the plan names none. */
  readonly grower: string;
  /** Its grower's fruit shares a room with no other grower's. */
  readonly apart: boolean;
  /** Its grower's fruit is to be in as few rooms as it can. */
  readonly together: boolean;
  /** Bins still to be placed, by day of picking; days without bins are left out. */
  readonly arrivals: readonly { readonly day: Day; readonly bins: number }[];
  readonly bins: number;
  /** All bins of the lot, those in the plan's fills too. */
  readonly allBins: number;
  /** Fills of the plan that hold some of it. */
  readonly inFills: number;
  /** Storage term its maturity suits: 0 long, 1 mid, 2 short, 3 air; null without a test. */
  readonly term: number | null;
  /** By regime: how long the lot keeps in it, or null where it does not suit the variety, or is barred. */
  readonly keeps: readonly (KeepsIn | null)[];
  readonly barred?: readonly Barred[] | undefined;
}

export interface KeepsIn {
  /** Last week the lot is within standard at the plan's confidence, no later than the season's last. */
  readonly latest: Week;
  /** What it costs to keep a bin in this regime rather than in the best one. */
  readonly costABin: number;
}

export interface PinnedFill {
  readonly fill: string;
  readonly room: string;
  readonly lots: readonly { readonly lot: string; readonly bins: number }[];
  /** Growers to be kept together of whom it holds fruit. */
  readonly together: readonly string[];
}

export interface LeftOut {
  readonly what: string;
  readonly bins: number;
  readonly reason: string;
  /** Changes that were found to place the bins. */
  readonly waysIn?: readonly { readonly kind: 'order' | 'regime'; readonly text: string }[] | undefined;
}

/** Names instead of places in lists, so that a checker can tell what is not there. */
export interface FillProposal {
  /** In the order of the rooms' names. */
  readonly rooms: readonly ProposedRoom[];
  readonly unplaced: readonly { readonly lot: string; readonly bins: number }[];
  readonly cost: number;
}

export interface ProposedRoom {
  readonly room: string;
  readonly regime: string;
  readonly entries: readonly Entry[];
}

/** Bins of a lot picked on one day that go into the room on one day. */
export interface Entry {
  readonly lot: string;
  readonly picked: Day;
  readonly entered: Day;
  readonly bins: number;
}

export interface FillOptions {
  readonly seed: number;
  /** Rounds of taking rooms apart and filling them again. Never a time, so that results repeat. */
  readonly moves: number;
  /** Told now and then how much of a search is done, 0 to 1; a further search begins again at 0. */
  readonly onProgress?: ((share: number) => void) | undefined;
}

export interface FillResult {
  readonly proposal: FillProposal;
  /** No fill of these rooms leaves fewer bins over. */
  readonly leastUnplaced: number;
  readonly leastUnplacedRestsOn: string;
  /** By proposed room: what would become of its bins without it, all other rooms staying as they are. */
  readonly withoutRoom: readonly WithoutRoom[];
  /** By proposed room. */
  readonly otherPlaces: readonly OtherPlace[];
  /** For lots with bins left over; none where not even another room would help. */
  readonly remedies: readonly Remedy[];
  /** No fill costs less, by the solver's branch and bound. */
  readonly provenBest: boolean;
  /** A limit below every fill's cost, where one was sought. */
  readonly bound?: number;
}

/** What a fill comes to by its aims, or what is worse in another. */
export interface Measures {
  /** Bins that find no room. */
  readonly bins: number;
  readonly rooms: number;
  readonly partly: number;
  readonly splits: number;
  /** Days of filling beyond the easy ones, over all rooms. */
  readonly slowDays: number;
  /** Weeks between the last weeks of lots of a room, beyond a month, over all rooms. */
  readonly weeksApart: number;
  /** Steps between the storage terms of lots of a room, over all rooms. */
  readonly termSteps: number;
}

export interface WithoutRoom {
  readonly room: string;
  /** Bins that would find no place in the other rooms. */
  readonly bins: number;
  /** Rooms, now empty, that would be opened for the rest. */
  readonly opened: readonly string[];
  readonly worse: Measures;
}

/** Where the lot of a room would be that could be elsewhere at the least cost, all else as it is. */
export interface OtherPlace {
  readonly room: string;
  readonly lot: string;
  /** Empty where it would find no room. */
  readonly into: readonly string[];
  readonly worse: Measures;
}

/** What would place all that is left over of a lot, the other lots staying where they are. */
export type Remedy = { readonly lot: string; readonly room: string } & (
  | { readonly kind: 'ready'; readonly day: Day; readonly instead: Day }
  | { readonly kind: 'intake'; readonly binsADay: number; readonly instead: number }
  | { readonly kind: 'waiting'; readonly days: number; readonly instead: number }
  | { readonly kind: 'growers' }
  /** The sealing of the fill the room has begun with put off, all the same. */
  | { readonly kind: 'sealing'; readonly day: Day; readonly instead: Day }
  /** Another room with so many places, kept as the lot needs; `room` is empty. */
  | { readonly kind: 'room'; readonly places: number }
);

/** What the independent checker finds wrong; empty for a good proposal. */
export interface FillViolation {
  readonly kind: string;
  readonly message: string;
}
