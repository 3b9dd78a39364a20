import type { Day } from './dates';
import type { Entry } from './entry';
import type { Figure } from './figure';
import type { Given, Span } from './span';

export interface Scrubber extends Entry {
  readonly kind: 'carbon' | 'lime' | 'membrane' | undefined;
  readonly removal: Figure<'kg/day'> | undefined;
  readonly atLevel: Figure<'%'> | undefined;
  readonly beds: ScrubberBeds | undefined;
  /** Of a membrane: permeance of carbon dioxide over that of oxygen and of nitrogen. */
  readonly selectivity?: MembraneSelectivity | undefined;
  /** Lime in a fresh charge. */
  readonly charge?: Figure<'kg'> | undefined;
  /** Share of its lime that gets used. */
  readonly utilisation?: Figure<'%'> | undefined;
  readonly hoursADay: Figure<'h'>;
  /** Power it takes while it runs. */
  readonly power?: Figure<'kW'> | undefined;
  readonly outOfUse?: OutOfUse | undefined;
}

/** Days on which a machine does not run, first and last included. */
export type OutOfUse = readonly Given<{ readonly first: Day; readonly last: Day }>[];

export interface MembraneSelectivity {
  readonly at: Span;
  readonly overOxygen: Figure<'1'>;
  readonly overNitrogen: Figure<'1'>;
}

export interface ScrubberBeds {
  readonly at: Span;
  readonly number: number;
  readonly carbon: Figure<'kg'>;
  readonly adsorb: Figure<'min'>;
  readonly regenerate: Figure<'min'>;
  readonly voidVolume: Figure<'m3'> | undefined;
  /** Share of a bed's outside air that low-oxygen gas takes the place of before the bed turns to a room. */
  readonly rinsed?: Figure<'%'> | undefined;
  /** What its carbon holds at a level of carbon dioxide, g/kg, in order of the level; absent or one point at least. */
  readonly loading?: readonly CarbonLoading[] | undefined;
  /** Share of that loading which is used before a bed breaks through. */
  readonly used?: Figure<'%'> | undefined;
}

export interface CarbonLoading {
  readonly level: Figure<'%'>;
  /** Grams of carbon dioxide for each kilogram of carbon. */
  readonly grams: Figure<'1'>;
}

export interface NitrogenSource extends Entry {
  readonly kind: 'membrane' | 'adsorption' | 'liquid' | undefined;
  /** Points of the delivery curve, leanest first. */
  readonly flows: readonly { readonly purity: Figure<'%'>; readonly flow: Figure<'m3/h'> }[];
  /** Oxygen at which the feed is stopped where the regime asks for less. */
  readonly stopsAt?: Figure<'%'> | undefined;
  readonly outOfUse?: OutOfUse | undefined;
  /** Power it takes while it runs. */
  readonly power?: Figure<'kW'> | undefined;
}

export interface RefrigerationGroup extends Entry {
  readonly capacity: Figure<'kW'> | undefined;
  readonly refrigerant: string | undefined;
  /** Kilowatts of cooling for each kilowatt of power. */
  readonly performance?: Figure<'1'>;
}
