import type { Day, Week } from './dates';
import type { Entry } from './entry';
import type { Figure } from './figure';
import type { Given, Span } from './span';

/** What has happened to the fill whose identifier it bears; what is undefined has not, or nobody has said so. */
export interface Progress extends Entry {
  readonly firstBin: Given<Day> | undefined;
  readonly lastBin: Given<Day> | undefined;
  /** Bins that went in. */
  readonly lots: readonly ProgressLot[];
  /** The bins of one of its lots could not be read; it is not among the lots then. */
  readonly hasUnreadLots?: boolean;
  /** All fruit seven-eighths cool. */
  readonly cool: Given<Day> | undefined;
  readonly sealed: Given<Day> | undefined;
  /** Oxygen first read at 5 % or less. */
  readonly lowOxygen: Given<Day> | undefined;
  readonly setPoint: Given<Day> | undefined;
  readonly opened: Given<Day> | undefined;
  readonly emptied: Given<Day> | undefined;
}

/** What happens to a fill on one day each. */
export type ProgressStep = Exclude<keyof Progress, 'id' | 'at' | 'places' | 'lots' | 'hasUnreadLots'>;

export interface ProgressLot {
  /** The lot's identifier, at the key. */
  readonly lot: Given<string>;
  readonly bins: Figure<'bins'>;
}

/** A quality test of stored fruit. */
export interface Sample extends Entry {
  readonly lot: Given<string> | undefined;
  /** Undefined: of all fills the lot is in. */
  readonly fill: Given<string> | undefined;
  readonly taken: Given<Day> | undefined;
  readonly fruit: Figure<'1'> | undefined;
  readonly firmness: Figure<'N'> | undefined;
  /** Standard deviation from fruit to fruit. */
  readonly firmnessSpread: Figure<'N'> | undefined;
  readonly solubleSolids: Figure<'%'> | undefined;
  readonly ethylene: Figure<'ppm'> | undefined;
  /** Share of the fruit with each disorder that was looked for. */
  readonly disorders: ReadonlyMap<string, Figure<'%'>>;
}

/** What came of bins that were packed on one day. */
export interface PackedRun extends Entry {
  readonly lot: Given<string> | undefined;
  /** Undefined: packed from the field. */
  readonly fill: Given<string> | undefined;
  readonly day: Given<Day> | undefined;
  readonly bins: Figure<'bins'> | undefined;
  /** By class. */
  readonly cartons: ReadonlyMap<string, Figure<'cartons'>>;
}

/** Cartons that have left to a market. */
export interface Sale extends Entry {
  readonly market: Given<string> | undefined;
  readonly variety: Given<string> | undefined;
  readonly packClass: Given<string> | undefined;
  readonly week: Given<Week> | undefined;
  readonly cartons: Figure<'cartons'> | undefined;
  readonly price: Figure<'money'> | undefined;
}

/** A record whose day cannot be, by what else the plan holds, and which is therefore left out. */
export interface LateRecord {
  /** As findings say it: `Packed run P7`. */
  readonly what: string;
  /** For a fingerprint. */
  readonly about: string;
  readonly day: Day;
  readonly at: Span;
  readonly because:
    | { readonly kind: 'season'; readonly ends: Day }
    /** Its fill was to be full, or its lot picked, by `by`, long before. */
    | { readonly kind: 'harvest'; readonly by: Day; readonly days: number }
    /** So many days after every other record, and alone there. */
    | { readonly kind: 'alone'; readonly days: number };
}
