import type { Day } from '../../plan/dates';
import type { Figure } from '../../plan/figure';

/**
 * What a room's course follows from, in plain numbers. Hours count from sealing (the start of that day); negative
 * hours are before it. Cubic metres are at the room's temperature and the standard atmosphere.
 */
export interface CourseRoom {
  readonly gasVolumeM3: number;
  /** Where the course ends: the opening, or the season's end. */
  readonly untilHours: number;
  readonly temperature: RoomTemperature;
  readonly fruit: CourseFruit;
  /** The first one holds from sealing on. */
  readonly stages: readonly GasStage[];
  readonly feed?: NitrogenFeed | undefined;
  readonly scrubbing?: Scrubbing | undefined;
  /** Air that leaks through, as much gas going out as air comes in, and the same by rising and falling barometers. */
  readonly leakM3h: number;
  readonly weatherM3h: number;
  /** Levels worth telling of when they are crossed, per cent. */
  readonly limits: { readonly leastOxygen?: number; readonly mostCarbonDioxide?: number };
}

/** The room's own temperature: straight lines from knot to knot, level before the first and after the last. */
export interface RoomTemperature {
  readonly knots: readonly { readonly hours: number; readonly celsius: number }[];
}

export interface CourseFruit {
  /** Fruit of one day of the intake each. Shares add up to 1. */
  readonly batches: readonly {
    readonly loadedAtHours: number;
    readonly fieldCelsius: number;
    readonly share: number;
  }[];
  readonly varieties: readonly VarietyRate[];
  /** First-order cooling: half-time and lag factor (1: none). */
  readonly halfTimeHours: number;
  readonly lag: number;
  readonly law: RespirationLaw;
  /** Relative humidity, per cent, and transpiration in ng/(kg s Pa). */
  readonly humidity: number;
  /** Heat of respiration for each milligram of carbon dioxide; the handbooks' where left out. */
  readonly joulesPerMilligram?: number | undefined;
  /** Of the air at the fruit's surface, per cent; saturated where left out. */
  readonly humidityAtFruit?: number;
  readonly transpiration: number;
}

export interface VarietyRate {
  readonly kg: number;
  /** Carbon dioxide given off in air, mg/kg/h, at °C. */
  readonly inAir: (celsius: number) => number;
  readonly respiratoryQuotient: number;
  /** Share of the rate in air that stays at the regime's oxygen. */
  readonly shareInStore: number;
  /** Oxygen, per cent, at which fermentation adds a tenth to the carbon dioxide; undefined leaves fermentation out. */
  readonly oxygenBreakpoint?: number | undefined;
}

/**
 * How respiration falls with oxygen.
 * - `to-store-share` (usual): the curve of Michaelis and Menten, drawn so that it is 1 in air and the long-term share
 *   at the regime's oxygen; below that it goes on falling, to nothing without oxygen.
 * - `curve`: the curve alone, as measured over hours: for a pull-down watched closely.
 * - `share`: the long-term share from sealing on, whatever the oxygen.
 * - `air`: the rate in air, whatever the oxygen.
 */
export interface RespirationLaw {
  readonly kind: 'to-store-share' | 'curve' | 'share' | 'air';
  /** Oxygen at half the greatest respiration, per cent. */
  readonly halfAt: number;
  /** Oxygen of the long-term share, per cent. */
  readonly storeOxygen: number;
  /** Carbon dioxide that halves respiration, per cent; undefined leaves its effect out. */
  readonly carbonDioxideHalvesAt?: number | undefined;
}

/** Set-points, per cent, from an hour on. Without carbon dioxide the scrubber runs all the time it has. */
export interface GasStage {
  readonly fromHours: number;
  readonly oxygen: number;
  readonly carbonDioxide?: number | undefined;
}

/** Nitrogen, purity by purity, until the last level is reached. */
export interface NitrogenFeed {
  readonly startsAtHours: number;
  readonly steps: readonly {
    readonly oxygenInGas: number;
    readonly flowM3h: number;
    readonly untilOxygen: number;
  }[];
}

export interface Scrubbing {
  /** Removal when it serves this room all the time, for each per cent in the room. */
  readonly kgPerDayPerPercent: number;
  /** Lime in the room takes up carbon dioxide whatever the set-point. */
  readonly passive: boolean;
  /** Carbon dioxide it can take up in all, where it is used up. */
  readonly capacityKg?: number | undefined;
  /** Air that changes of beds bring in while it runs; as much of the room's gas goes out. */
  readonly bedAirM3h: number;
  /** Of a membrane: what passes beside carbon dioxide. It works against the level outside, not against none. */
  readonly membrane?: MembraneShares | undefined;
  /** Share of the time it serves this room, from an hour on. All of it where there are none. */
  readonly turns: readonly { readonly fromHours: number; readonly share: number }[];
}

/** Permeances of oxygen and nitrogen as shares of that of carbon dioxide. */
export interface MembraneShares {
  readonly oxygen: number;
  readonly nitrogen: number;
}

/** A room at one time of its course. Totals count from sealing. */
export interface CoursePoint {
  readonly hours: number;
  readonly oxygen: number;
  readonly carbonDioxide: number;
  readonly nitrogen: number;
  /** Mean of the fruit, °C. */
  readonly fruitCelsius: number;
  readonly respirationKw: number;
  readonly carbonDioxideMadeKg: number;
  /** Of the carbon dioxide made, that of fermentation, and the ethanol that it leaves in the fruit. */
  readonly fermentedKg: number;
  readonly ethanolKg: number;
  readonly oxygenUsedM3: number;
  readonly scrubbedKg: number;
  readonly oxygenLeakedInM3: number;
  readonly oxygenAtBedsM3: number;
  readonly oxygenLetInM3: number;
  readonly oxygenThroughMembraneM3: number;
  /** A running total: gas at the temperature at sealing, whatever the room has since. */
  readonly nitrogenFedM3: number;
  /** In the nitrogen, and what went out with the room's gas. */
  readonly oxygenFedM3: number;
  readonly oxygenOutM3: number;
  readonly carbonDioxideOutKg: number;
  readonly dryMatterLostKg: number;
  readonly waterLostKg: number;
}

export type CourseEventKind =
  | 'feed-starts'
  | 'purity-raised'
  | 'feed-stops'
  | 'five-per-cent'
  | 'set-point-reached'
  | 'oxygen-climbs'
  | 'oxygen-below-limit'
  | 'carbon-dioxide-above-limit'
  | 'scrubber-at-its-most'
  | 'lime-used-up';

export interface CourseEvent {
  readonly hours: number;
  readonly kind: CourseEventKind;
}

/** A course in numbers, with what the balances need to be checked. */
export interface Course {
  readonly points: readonly CoursePoint[];
  readonly events: readonly CourseEvent[];
  /** Extremes over every step, not only the points told. Carbon dioxide's peak, oxygen's low. */
  readonly lowestOxygen: { readonly hours: number; readonly percent: number };
  readonly highestCarbonDioxide: { readonly hours: number; readonly percent: number };
  /** False where the integration was given up before the end: numbers that no room has. */
  readonly complete: boolean;
  /** How many steps it took: what it cost. */
  readonly steps: number;
  /** The integration's array at the start and at the end, see `STATE`. */
  readonly first: Float64Array;
  readonly last: Float64Array;
}

/** A course of a fill, with the figures that findings and reports quote. */
export interface RoomCourse {
  readonly fill: string;
  readonly sealed: Day;
  readonly course: Course;
  readonly room: CourseRoom;
  /** What the plan lacked and was assumed. */
  readonly assumptions: readonly string[];
  readonly hoursToFivePercent?: Figure<'h'>;
  readonly hoursToSetPoint?: Figure<'h'>;
  readonly lowestOxygen: Figure<'%'>;
  readonly highestCarbonDioxide: Figure<'%'>;
  readonly oxygenAtEnd: Figure<'%'>;
  readonly carbonDioxideAtEnd: Figure<'%'>;
  readonly carbonDioxideMade: Figure<'kg'>;
  readonly scrubbed: Figure<'kg'>;
  readonly nitrogenFed: Figure<'m3'>;
  readonly dryMatterLost: Figure<'kg'>;
  readonly waterLost: Figure<'kg'>;
  /** Left in the fruit by fermentation; absent where it is too little to matter. */
  readonly ethanolMade?: Figure<'kg'>;
  /** Dry matter (less the ethanol) and water, of the fruit's mass at sealing. */
  readonly weightLost: Figure<'%'>;
}
