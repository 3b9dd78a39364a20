import { type Figure, referenceFigure, type Unit } from '../plan/figure';
import { commonPractice } from '../room/sources';
import type { WatchedQuantity } from './types';

/**
 * From where on a difference is told. They are planning assumptions: far enough from what analysers, controllers'
 * bands and defrosting do every day to be quiet, near enough to be early. No publication gives them.
 */

function assumed<U extends Unit>(name: string, unit: U, value: number, why: string): Figure<U> {
  return referenceFigure(name, unit, value, commonPractice(`Planning assumption: ${why}`));
}

export interface LevelLimits {
  /** Told at once when the middle one of the last five readings is so far off; above, below. */
  readonly atOnce: { readonly above: Figure; readonly below: Figure };
  /** What a day's middle reading may be off without counting, and what the rest has to add up to over days. */
  readonly allowed: Figure;
  readonly addsUpTo: Figure;
  /** Most that a room's own level in its first days of holding is taken as the instrument's. */
  readonly ownLevel: Figure;
  /** A reading so far from its neighbours, which agree, is a jump. */
  readonly jump: Figure;
  /** Readings no further apart count as the same noise: the least that an instrument is taken to scatter. */
  readonly noise: Figure;
}

export const levelLimits: Readonly<Record<WatchedQuantity, LevelLimits>> = {
  oxygen: {
    atOnce: {
      above: assumed('oxygen above expected, told at once', '%', 0.5, 'five times a controller’s band'),
      below: assumed('oxygen below expected, told at once', '%', 0.3, 'sooner, since fruit is hurt by it'),
    },
    allowed: assumed('oxygen off, allowed on a day', '%', 0.1, 'the band of a controller'),
    addsUpTo: assumed('oxygen off, added up over days', '%', 0.3, 'two to three days of a clear rise'),
    ownLevel: assumed(
      'oxygen off from the first day, the analyser’s',
      '%',
      0.15,
      'what calibration leaves in an analyser',
    ),
    jump: assumed('jump of oxygen', '%', 0.5, 'no room does that and comes back in an hour'),
    noise: assumed('scatter of an oxygen analyser', '%', 0.02, 'two digits of its display'),
  },
  'carbon-dioxide': {
    atOnce: {
      above: assumed('carbon dioxide above expected, told at once', '%', 1, 'three scrubber bands'),
      below: assumed('carbon dioxide below expected, told at once', '%', 1, 'three scrubber bands'),
    },
    allowed: assumed('carbon dioxide off, allowed on a day', '%', 0.25, 'the band of a scrubber'),
    addsUpTo: assumed(
      'carbon dioxide off, added up over days',
      '%',
      0.75,
      'two to three days of a clear rise',
    ),
    ownLevel: assumed(
      'carbon dioxide off from the first day, the analyser’s',
      '%',
      0.25,
      'calibration, and where in its band the scrubber holds the room',
    ),
    jump: assumed('jump of carbon dioxide', '%', 0.7, 'no room does that and comes back in an hour'),
    noise: assumed('scatter of a carbon dioxide analyser', '%', 0.03, 'two digits of its display'),
  },
  temperature: {
    atOnce: {
      above: assumed('air above expected, told at once', 'K', 1.5, 'more than the band and a defrosting'),
      below: assumed('air below expected, told at once', 'K', 1, 'sooner, since fruit freezes'),
    },
    allowed: assumed('air off, allowed on a day', 'K', 0.3, 'the band of a thermostat'),
    addsUpTo: assumed('air off, added up over days', 'K', 1, 'two to three days of a clear rise'),
    ownLevel: assumed('air off from the first day, the sensor’s', 'K', 0.5, 'a sensor, and where it hangs'),
    jump: assumed('jump of the temperature', 'K', 4, 'more than a defrosting shows'),
    noise: assumed('scatter of a temperature sensor', 'K', 0.1, 'a digit of its display'),
  },
};

export const breathingLimits = {
  /** Readings have to be this close to see carbon dioxide rise between two scrubbings. */
  apart: assumed('time between readings that show a rise', 'min', 120, 'five of them in a rest of ten hours'),
  allowed: assumed(
    'breathing above the reference, allowed on a day',
    '%',
    20,
    'the scatter of a day’s rises',
  ),
  addsUpTo: assumed('breathing above the reference, added up over days', '%', 60, 'two days at half more'),
  ownDays: assumed('days that give a room’s own rate', 'days', 7, 'a week, once the set-point is held'),
};

export const sensorLimits = {
  /** Chance that readings of the record's own scatter would stand still so long. */
  stuckChance: 1e-7,
  stuckHours: assumed('time a reading stands still', 'h', 12, 'half a day, and longer where readings repeat'),
  stuckReadings: assumed('readings that are all the same', '1', 6, 'six of them'),
  jumps: assumed('jumps that make a sensor doubtful', '1', 3, 'one or two are a disturbance'),
  jumpHours: assumed('time in which they come', 'h', 48, 'two days'),
  /** A jump is also this many times the readings' own scatter. */
  jumpScatter: 8,
};

/** Oxygen below which air is oxygen-deficient, see `caution`. */
export const DEFICIENT = 19.5;

/** All of them, for reports. */
export function watchLimits(): Figure[] {
  const levels = Object.values(levelLimits).flatMap(
    ({ atOnce, allowed, addsUpTo, ownLevel, jump, noise }) => [
      atOnce.above,
      atOnce.below,
      allowed,
      addsUpTo,
      ownLevel,
      jump,
      noise,
    ],
  );
  const { stuckHours, stuckReadings, jumps, jumpHours } = sensorLimits;
  return [...levels, ...Object.values(breathingLimits), stuckHours, stuckReadings, jumps, jumpHours];
}
