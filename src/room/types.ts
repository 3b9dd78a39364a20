import type { Regime, Variety } from '../fruit/types';
import type { Day } from '../plan/dates';
import type { Figure } from '../plan/figure';
import type { Fill, Lot, Room } from '../plan/model';

/** A room's size, before anything is in it. A figure is absent where the plan lacks what it needs. */
export interface RoomCapacity {
  readonly room: Room;
  readonly volume?: Figure<'m3'>;
  readonly surface?: Figure<'m2'>;
  /** Bin places: as stated, or from geometry and stacking less the lost ones. */
  readonly places?: Figure<'places'>;
  /** Places by geometry even where places are stated, so that the two can be compared. */
  readonly placesByGeometry?: Figure<'places'>;
  /** Tonnes of fruit when every place holds a full bin. */
  readonly fruitWhenFull?: Figure<'t'>;
  /** Half-life of the pressure in the tightness test. */
  readonly pressureHalfLife?: Figure<'min'>;
  /** Leak at the test's starting pressure. */
  readonly leakFlow?: Figure<'m3/h'>;
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
  readonly bins: number;
  readonly heat: Figure<'kW'>;
  readonly fieldHeat: Figure<'kW'>;
  readonly binHeat: Figure<'kW'>;
  readonly respirationHeat: Figure<'kW'>;
  readonly transmissionHeat: Figure<'kW'>;
  readonly airChangeHeat: Figure<'kW'>;
}

/** What follows for a room from its fill. Figures are absent where the plan lacks what they need. */
export interface FilledRoom {
  readonly fill: Fill;
  readonly room: Room;
  readonly capacity: RoomCapacity;
  readonly regime: Regime | undefined;
  readonly lots: readonly LotInRoom[];
  readonly bins?: Figure<'bins'>;
  readonly fruit?: Figure<'t'>;
  readonly utilisation?: Figure<'%'>;
  readonly freeGasVolume?: Figure<'m3'>;
  /** Carbon dioxide given off at the mean field temperature in air, all bins in. */
  readonly carbonDioxideAtFilling?: Figure<'kg/day'>;
  /** Carbon dioxide given off at the regime, expected and the range of the sources. */
  readonly carbonDioxideInStore?: Figure<'kg/day'>;
  readonly carbonDioxideInStoreLow?: Figure<'kg/day'>;
  readonly carbonDioxideInStoreHigh?: Figure<'kg/day'>;
  /** Nitrogen from air to the regime's oxygen, and the hours the room's source takes for it alone. */
  readonly nitrogenVolume?: Figure<'m3'>;
  readonly nitrogenHours?: Figure<'h'>;
  /** Why the set-point cannot be reached by nitrogen alone; respiration must take the rest. */
  readonly nitrogenShortfall?: string;
  readonly intake: readonly IntakeDay[];
  readonly peakCooling?: Figure<'kW'>;
  readonly holdingCooling?: Figure<'kW'>;
  /** Oxygen that leaks in against what the fruit uses, as a share. */
  readonly leakShareOfFruitUse?: Figure<'%'>;
  /** Steady carbon dioxide with the scrubber serving this room alone. */
  readonly limePerMonth?: Figure<'kg'>;
  /** Volumes of fresh air, and planning hours, before a crew is called. Never a statement that entry is safe. */
  readonly freshAirVolumes?: Figure<'1'>;
}
