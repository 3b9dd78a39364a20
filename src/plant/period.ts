import type { Day } from '../plan/dates';
import type { Figure } from '../plan/figure';

/** Shared equipment, and power with its price, over a day or a week. */
export interface PlantPeriod {
  /** A day, or a week's first. */
  readonly from: Day;
  readonly refrigeration: readonly EquipmentUse<'kW'>[];
  readonly nitrogen: readonly EquipmentUse<'h'>[];
  /** Time its rooms need, of the time it has. */
  readonly scrubbing: readonly EquipmentUse<'%'>[];
  /**
   * Kilowatt-hours of refrigeration, of the rooms' fans and lights, and of nitrogen and scrubbers where their power is
   * stated. Fans and lights are in it once as power, and in the refrigeration as heat to be carried off.
   */
  readonly power?: Figure<'1'>;
  readonly cost?: Figure<'money'>;
}

export interface EquipmentUse<U extends 'kW' | 'h' | '%'> {
  readonly id: string;
  readonly use: Figure<U>;
  /** Of what it can give. */
  readonly share?: number;
  /** Fills that ask most of it, most first. */
  readonly mostBy: readonly string[];
  /** Of cooling, what is given of it: less where the group has less, the same where absent. */
  readonly taken?: Figure<U>;
}
