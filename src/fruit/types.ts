import type { Figure, Source } from '../plan/figure';
import type { DisorderId, RegimeStage, Treatment } from '../plan/model';

/** Reference data of one variety, with the planner's own values laid over it. Each figure carries its source. */
export interface Variety {
  readonly name: string;
  readonly fruit: 'apple' | 'pear';
  /** Respiration in air by temperature, coldest first. */
  readonly respiration: readonly { readonly at: Figure<'degC'>; readonly rate: Figure<'mg/kg/h'> }[];
  /** Respiration in the controlled atmosphere as a share of that in air: expected, and the range of the sources. */
  readonly respirationInStore: {
    readonly low: Figure<'1'>;
    readonly expected: Figure<'1'>;
    readonly high: Figure<'1'>;
  };
  readonly respiratoryQuotient: Figure<'1'>;
  /** Nanograms of water for each kilogram, second and pascal, where the planner gives it. */
  readonly transpiration?: Figure<'1'>;
  /** Above freezing. */
  readonly specificHeat: Figure<'kJ/kgK'>;
  /** Of the fruit itself, without the gas between. */
  readonly density: Figure<'kg/m3'>;
  /** Joules for each milligram of carbon dioxide of respiration: the plan's value, the same for all varieties. */
  readonly heatPerMilligram: Figure<'1'>;
  readonly storageLifeInAir: Figure<'days'>;
  /** Shortest and longest of the source's range of life in air, where it gives one. */
  readonly storageLifeInAirRange?: DaysRange;
  /** Storage life in the controlled atmosphere. */
  readonly storageLife: Figure<'days'>;
  /** Spread of storage life: shortest and longest of the source's range, where it gives one. */
  readonly storageLifeRange?: DaysRange;
  /** By how much the season's fruit keeps shorter than in any of these, and than in its regimes. */
  readonly keepsShorter?: Figure<'days'>;
  readonly leastTemperature: Figure<'degC'>;
  readonly freezesAt: Figure<'degC'>;
  readonly leastOxygen: Figure<'%'>;
  /** Oxygen at which the respiratory quotient is a tenth above its value in plenty of oxygen: fermentation sets in. */
  readonly oxygenBreakpoint: Figure<'%'>;
  readonly mostCarbonDioxide: Figure<'%'>;
  /** Firmness below which the fruit should not be sold. */
  readonly leastExitFirmness: Figure<'N'>;
  readonly softening: Figure<'N/month'>;
  /** Firmness lost once, while the room is filled, cooled and brought to its gas; none in an air room. */
  readonly firmnessLossWhileFilling?: Figure<'N'>;
  /** Harvest firmness and starch (one-to-eight scale) that suit each storage term; absent where no source has them. */
  readonly maturityByTerm?: MaturityByTerm;
  /** Names of the built-in regimes that suit it, the usual one first. */
  readonly regimes: readonly string[];
  /** Disorders it may get in store, those switched off in the plan left out. */
  readonly disorders: readonly Disorder[];
}

/** What must be so for a disorder to threaten. The limits are the variety's own. */
export type DisorderCondition =
  | { readonly kind: 'carbon dioxide above its limit' }
  | { readonly kind: 'oxygen below its limit' }
  | { readonly kind: 'temperature below its limit' }
  | { readonly kind: 'sealed' }
  | { readonly kind: 'conditioned' }
  | { readonly kind: 'not conditioned' }
  /** None of these treatments. */
  | { readonly kind: 'not treated'; readonly with: readonly Treatment[] };

/** A disorder of stored fruit: the days in which it threatens and on what conditions, all of which must hold. */
export interface Disorder {
  readonly id: DisorderId;
  readonly countedFrom: 'picking' | 'sealing';
  readonly susceptible: 'highly' | 'moderately';
  readonly conditions: readonly DisorderCondition[];
  readonly from: Figure<'days'>;
  /** Last day on which it comes; to the end of storage where absent. */
  readonly until?: Figure<'days'>;
  /** Day by which the fruit must be packed because of it, sealed or not; only where somebody gives a number. */
  readonly packedBy?: Figure<'days'>;
  /** The same for fruit kept in air. */
  readonly packedByInAir?: Figure<'days'>;
  /** Carbon dioxide borne by fruit that had a treatment. */
  readonly levelIfTreated?: { readonly with: Treatment; readonly level: Figure<'%'> };
  /** Days from the last picking to sealing from which there is less of it. */
  readonly easedByDelay?: Figure<'days'>;
  /** Starch index (one-to-eight) below which there is least of it. */
  readonly easedByStarch?: Figure<'1'>;
  /** What the source tells of it, in a sentence or two. */
  readonly told: string;
  readonly source: Source;
}

export interface DaysRange {
  readonly shortest: Figure<'days'>;
  readonly longest: Figure<'days'>;
}

export type StorageTerm = 'long' | 'mid' | 'short' | 'air';

export interface MaturityByTerm {
  readonly firmness: { readonly short: Figure<'N'>; readonly mid: Figure<'N'>; readonly long: Figure<'N'> };
  /** Starch index up to which fruit suits long storage, and from which only short storage or air. */
  readonly starch: { readonly mature: Figure<'1'>; readonly overMature: Figure<'1'> };
  readonly source: Source;
}

/** A way of keeping a room. Oxygen and carbon dioxide are absent for a room kept in air. */
export interface Regime {
  readonly name: string;
  readonly varieties: readonly string[];
  readonly temperature: Figure<'degC'>;
  readonly oxygen?: Figure<'%'>;
  readonly carbonDioxide?: Figure<'%'>;
  readonly humidity: Figure<'%'>;
  readonly storageLife?: Figure<'days'>;
  readonly storageLifeRange?: DaysRange;
  /** Firmness its varieties lose in a month in it, where the source gives one for this very regime. */
  readonly softening?: Figure<'N/month'>;
  readonly conditioning?: { readonly temperature: Figure<'degC'>; readonly lasts: Figure<'days'> };
  /** Stages whose set-points differ from these, in order. */
  readonly stages?: readonly RegimeStage[];
}

/** Varieties and regimes by name, the planner's values laid over the built-in ones. */
export interface FruitData {
  /** Undefined for a name that is neither built in nor defined in the plan. */
  variety(name: string): Variety | undefined;
  regime(name: string): Regime | undefined;
  readonly varietyNames: readonly string[];
  readonly regimeNames: readonly string[];
}
