import type { Day, Week } from './dates';
import type { Entry } from './entry';
import type { Figure } from './figure';
import type { Given, PlaceNode, Span } from './span';

export interface Demand extends Entry {
  readonly market: Given<string> | undefined;
  readonly variety: Given<string> | undefined;
  readonly packClass: Given<string> | undefined;
  readonly weeks: Given<{ readonly first: Week; readonly last: Week }> | undefined;
  readonly cartons: Figure<'cartons/week'> | undefined;
  readonly byWeek: ReadonlyMap<Week, Figure<'cartons/week'>>;
  readonly price: Figure<'money'> | undefined;
  /** Per carton not delivered; by default half the price. */
  readonly priceOfShortage: Figure<'money'> | undefined;
  readonly leastFirmness: Figure<'N'> | undefined;
}

export interface Packing {
  readonly at: Span;
  readonly places: PlaceNode;
  readonly binsAWeek: Figure<'bins/week'> | undefined;
  readonly daysAWeek: number;
  readonly closed: readonly Given<{ readonly first: Day; readonly last: Day }>[];
  readonly daysToEmpty: Figure<'days'>;
  readonly packedWait: Figure<'days'>;
  /** Per carton and week. */
  readonly costOfWaiting: Figure<'money'>;
  /** Per carton. */
  readonly processingPrice: Figure<'money'>;
  readonly packout: ReadonlyMap<string, Packout>;
}

export interface Packout extends Entry {
  /** Share of the fruit that packs into each class, per cent, by class. */
  readonly shares: ReadonlyMap<string, Figure<'%'>>;
  readonly lossAMonth: Figure<'%'>;
}
