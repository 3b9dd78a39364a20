import type { Regime, Variety } from '../fruit/types';
import type { Day } from '../plan/dates';
import type { Figure } from '../plan/figure';
import type { Fill, Lot, Room } from '../plan/model';
import type { Assumptions } from './assumptions';

/** How the bins stand in a room: rows along its length and across its width. */
export interface FloorPattern {
  readonly alongLength: Figure<'bins'>;
  readonly acrossWidth: Figure<'bins'>;
  /** True where the bins' length lies across the room. */
  readonly turned: boolean;
}

/** A room's size, before anything is in it. A figure is absent where the plan lacks what it needs. */
export interface RoomCapacity {
  readonly room: Room;
  readonly volume?: Figure<'m3'>;
  readonly surface?: Figure<'m2'>;
  /** Bin places: as stated, or from geometry and stacking less the lost ones. */
  readonly places?: Figure<'places'>;
  /** Places by geometry even where places are stated, so that the two can be compared. */
  readonly placesByGeometry?: Figure<'places'>;
  /** How the bins stand: rows each way, in the better of the two ways to set them. */
  readonly pattern?: FloorPattern;
  /** Bins high that fit under the ceiling clearance, whatever stack the plan states. */
  readonly stackUnderCeiling?: Figure<'bins'>;
  /** Tonnes of fruit when every place holds a full bin. */
  readonly fruitWhenFull?: Figure<'t'>;
  /** Half-life of the pressure in the tightness test. */
  readonly pressureHalfLife?: Figure<'min'>;
  /** Leak at the test's starting pressure. */
  readonly leakFlow?: Figure<'m3/h'>;
}

/** One stretch of a flush at one purity. */
export interface FlushStep {
  readonly purity: Figure<'%'>;
  readonly flow: Figure<'m3/h'>;
  readonly oxygenFrom: Figure<'%'>;
  readonly oxygenTo: Figure<'%'>;
  readonly volumes: Figure<'1'>;
  readonly hours: Figure<'h'>;
}

/** What comes into a room on one day of its filling. */
export interface Arrival {
  readonly day: Day;
  readonly bins: Figure<'bins'>;
  /** Mean temperature of that day's fruit; the room's mean on a day on which none comes. */
  readonly field: Figure<'degC'>;
  /** The values of both, for those who need no more. */
  readonly binsIn: number;
  readonly celsius: number;
}

/** One lot's part of a fill, resolved. */
export interface LotInRoom {
  readonly lot: Lot;
  readonly variety: Variety;
  readonly bins: Figure<'bins'>;
  readonly fruit: Figure<'kg'>;
}

/** One day of the intake. Heat is the mean over that day. */
export interface IntakeDay {
  readonly day: Day;
  /** Whole bins. */
  readonly bins: number;
  /** What its lots bring by their days of picking, parts of bins too. */
  readonly binsIn: Figure<'bins'>;
  /** Mean temperature of that day's fruit on arrival. */
  readonly fieldTemperature: Figure<'degC'>;
  readonly heat: Figure<'kW'>;
  readonly fieldHeat: Figure<'kW'>;
  readonly binHeat: Figure<'kW'>;
  readonly respirationHeat: Figure<'kW'>;
  readonly transmissionHeat: Figure<'kW'>;
  readonly airChangeHeat: Figure<'kW'>;
  readonly fanHeat: Figure<'kW'>;
  /** Of what works in the room while it is filled. */
  readonly lightHeat: Figure<'kW'>;
  readonly vehicleHeat: Figure<'kW'>;
  readonly peopleHeat: Figure<'kW'>;
}

/** The days in which a room is brought from its warm hold to its holding temperature. */
export interface StepDown {
  readonly first: Day;
  readonly last: Day;
  /** Mean cooling on each of these days. */
  readonly cooling: Figure<'kW'>;
}

/** All the fruit of one variety in a room. */
export interface VarietyInRoom {
  readonly variety: Variety;
  readonly fruit: Figure<'kg'>;
}

/** What follows for a room from its fill. Figures are absent where the plan lacks what they need. */
export interface FilledRoom {
  readonly fill: Fill;
  readonly room: Room;
  readonly capacity: RoomCapacity;
  readonly regime: Regime | undefined;
  /** What is assumed of all rooms of the plan. */
  readonly assumptions: Assumptions;
  readonly lots: readonly LotInRoom[];
  /** The lots added up by variety. */
  readonly varieties: readonly VarietyInRoom[];
  readonly bins?: Figure<'bins'>;
  readonly fruit?: Figure<'t'>;
  readonly utilisation?: Figure<'%'>;
  readonly freeGasVolume?: Figure<'m3'>;
  /** Mean temperature of the fruit on arrival. */
  readonly meanFieldTemperature?: Figure<'degC'>;
  /** Carbon dioxide given off at the mean field temperature in air, all bins in. */
  readonly carbonDioxideAtFilling?: Figure<'kg/day'>;
  /** Carbon dioxide given off at the regime's temperature while the room still holds air. */
  readonly carbonDioxideBeforePullDown?: Figure<'kg/day'>;
  /** Carbon dioxide given off at the regime, expected and the range of the sources. */
  readonly carbonDioxideInStore?: Figure<'kg/day'>;
  readonly carbonDioxideInStoreLow?: Figure<'kg/day'>;
  readonly carbonDioxideInStoreHigh?: Figure<'kg/day'>;
  /** The part of it that fermentation makes; absent where oxygen is far enough above the varieties' breakpoints. */
  readonly fermentedInStore?: Figure<'kg/day'>;
  /** Oxygen the fruit uses at the regime. */
  readonly oxygenUse?: Figure<'m3/h'>;
  /** Oxygen to which the nitrogen is run; the fruit takes the rest. */
  readonly flushTo?: Figure<'%'>;
  /** The flush, purity by purity, leanest first; empty without a nitrogen source. */
  readonly flush: readonly FlushStep[];
  /** Nitrogen from air to `flushTo`, and the hours the room's source takes for it alone. */
  readonly nitrogenVolume?: Figure<'m3'>;
  readonly nitrogenHours?: Figure<'h'>;
  /** Hours in which the fruit brings oxygen from `flushTo` to the regime's. */
  readonly respirationHours?: Figure<'h'>;
  /** Why the set-point cannot be reached by nitrogen alone; respiration must take the rest. */
  readonly nitrogenShortfall?: string;
  /** What comes in by day, first bin to last; empty where that cannot be meant or no lot is known. */
  readonly arrivals: readonly Arrival[];
  /** By day, first bin to last. */
  readonly intake: readonly IntakeDay[];
  readonly stepDown?: StepDown;
  readonly peakCooling?: Figure<'kW'>;
  readonly holdingCooling?: Figure<'kW'>;
  /** Once it is opened and until it is empty: in air, its door in use, all its fruit still counted. */
  readonly emptyingCooling?: Figure<'kW'>;
  /** Heat, and power, of the cooler's fans once the fruit is cold. */
  readonly fanHeatHolding?: Figure<'kW'>;
  /** Time in which fruit of this room loses seven eighths of its difference to it, cooling enough. */
  readonly sevenEighthsTime?: Figure<'h'>;
  /** Peak cooling as a share of what the room's cooler can give. */
  readonly coolerLoad?: Figure<'%'>;
  /** Oxygen that leaks in, and the same against what the fruit uses, as a share. */
  readonly oxygenLeak?: Figure<'m3/h'>;
  readonly leakShareOfFruitUse?: Figure<'%'>;
  /** Lime used up in a month, where a lime scrubber serves the room. */
  readonly limePerMonth?: Figure<'kg'>;
  /** Mass the fruit loses in a month at the regime: water, and what it respires. */
  readonly weightLossPerMonth?: Figure<'%'>;
  /**
   * Volumes of fresh air that bring both gases to the planning levels, before a crew is called. Never a statement
   * that entry is safe: `caution` goes with it wherever it is shown.
   */
  readonly freshAirVolumes?: Figure<'1'>;
}
