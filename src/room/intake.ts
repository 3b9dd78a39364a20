import { respirationHeat, respirationInAir } from '../fruit/respiration';
import type { Day } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import { type AirState, airHeat } from './air';
import {
  airChangeHeat,
  coolingHalfTime,
  coolingWait,
  heatOfCooling,
  noLag,
  respirationHeatOf,
  temperatureAfter,
  transmissionHeat,
} from './cooling';
import { formulaKeys, sumOf } from './figures';
import type { LoadingHeat } from './loading-heat';
import type { IntakeDay, VarietyInRoom } from './types';

/** More days than any harvest: a plan with a mistyped year must not make the tool count for hours. */
const MOST_INTAKE_DAYS = 120;

/** What an intake's heat follows from. */
export interface Intake {
  readonly firstBin: Day;
  readonly lastBin: Day;
  readonly varieties: readonly VarietyInRoom[];
  readonly fruit: Figure<'t'>;
  readonly bins: Figure<'bins'>;
  readonly tare: Figure<'kg'>;
  readonly heatOfFruit: Figure<'kJ/kgK'>;
  readonly heatOfBins: Figure<'kJ/kgK'>;
  /** Mean temperature of the fruit on arrival. */
  readonly field: Figure<'degC'>;
  readonly inside: AirState;
  readonly outside: AirState;
  readonly volume: Figure<'m3'>;
  readonly surface: Figure<'m2'>;
  readonly heatTransfer: Figure<'W/m2K'>;
  /** As measured in the room; the usual one where left out. */
  readonly halfTime?: Figure<'h'> | undefined;
  readonly lag?: Figure<'1'> | undefined;
  readonly fans: Figure<'kW'>;
  readonly work: LoadingHeat;
  /** Of the room's air, a day. */
  readonly airChanges: Figure<'1'>;
}

/** The parts of the load that are the same every day. */
interface DailyHeat {
  readonly fruitADay: Figure<'kg'>;
  readonly binsMassADay: Figure<'kg'>;
  readonly days: Figure<'days'>;
  readonly transmission: Figure<'kW'>;
  readonly airChange: Figure<'kW'>;
}

/**
 * Heat of the intake, day by day. The fruit comes in evenly from the first bin's day to the last, at the mean field
 * temperature, each day's fruit at the start of the day, and cools by halves towards the room. The field heat of a
 * day is that of all fruit still cooling: each day's fruit takes its own step of the same way, so together they give
 * up what one day's fruit gives up from the field to the temperature that the first day's fruit has come to.
 * Empty where the dates are the wrong way round or too far apart to be meant.
 */
export function intakeDays(intake: Intake): IntakeDay[] {
  const count = intake.lastBin - intake.firstBin + 1;
  if (!(count >= 1 && count <= MOST_INTAKE_DAYS)) return [];
  const daily = dailyHeat(intake, count);
  return Array.from({ length: count }, (_, index) => intakeDay(intake, daily, index));
}

function dailyHeat(intake: Intake, count: number): DailyHeat {
  const days = countedFigure('days of intake', 'days', count, 'first bin to last bin');
  const { fruit, bins, tare } = intake;
  return {
    days,
    fruitADay: compute(
      'fruit a day',
      'kg',
      'fruit * 1000 / days',
      { fruit, days },
      (v) => (v.fruit * 1000) / v.days,
    ),
    binsMassADay: compute(
      'empty mass of the bins a day',
      'kg',
      'bins * tare / days',
      { bins, tare, days },
      (v) => (v.bins * v.tare) / v.days,
    ),
    transmission: transmissionHeat(
      intake.surface,
      intake.heatTransfer,
      intake.outside.temperature,
      intake.inside.temperature,
    ),
    airChange: airChangeHeat(intake.volume, intake.airChanges, airHeat(intake.outside, intake.inside)),
  };
}

function intakeDay(intake: Intake, daily: DailyHeat, index: number): IntakeDay {
  const { field, inside } = intake;
  const cooled = countedFigure('hours since the first bin', 'h', 24 * (index + 1), 'to the end of the day');
  const coldest = temperatureAfter(
    field,
    inside.temperature,
    cooled,
    intake.halfTime ?? coolingHalfTime,
    intake.lag,
  );
  const fieldHeat = heatOfCooling(
    'field heat of the fruit',
    daily.fruitADay,
    intake.heatOfFruit,
    field,
    coldest,
  );
  const binHeat = heatOfCooling('heat of the bins', daily.binsMassADay, intake.heatOfBins, field, coldest);
  const parts = {
    fieldHeat,
    binHeat,
    respirationHeat: loadedRespirationHeat(intake, daily, index + 1),
    transmissionHeat: daily.transmission,
    airChangeHeat: daily.airChange,
    fanHeat: intake.fans,
    lightHeat: intake.work.lights,
    vehicleHeat: intake.work.vehicles,
    peopleHeat: intake.work.people,
  };
  const heat = sumOf(`cooling on day ${index + 1} of the intake`, 'kW', Object.entries(parts));
  return {
    day: intake.firstBin + index,
    bins: binsThatDay(intake.bins.value, daily.days.value, index),
    heat,
    ...parts,
  };
}

/** Whole bins, spread so that no day differs from another by more than one. */
function binsThatDay(bins: number, days: number, index: number): number {
  return Math.round((bins * (index + 1)) / days) - Math.round((bins * index) / days);
}

/** Mean temperature of all fruit in the room over a day: the time mean of wait and halving, over all ages in the room. */
function meanTemperature(intake: Intake, daysLoaded: number): Figure<'degC'> {
  const halfTime = intake.halfTime ?? coolingHalfTime;
  const inputs = {
    room: intake.inside.temperature,
    field: intake.field,
    halfTime,
    hours: countedFigure('hours since the first bin', 'h', 24 * daysLoaded, 'to the end of the day'),
    wait: coolingWait(halfTime, intake.lag ?? noLag),
  };
  return compute(
    'mean temperature of the fruit in the room',
    'degC',
    'room + (field - room) * (min(wait, hours) + (1 - 2 ^ (-max(0, hours - wait) / halfTime)) * halfTime / log(2)) / hours',
    inputs,
    (v) =>
      v.room +
      ((v.field - v.room) *
        (Math.min(v.wait, v.hours) +
          ((1 - 2 ** (-Math.max(0, v.hours - v.wait) / v.halfTime)) * v.halfTime) / Math.LN2)) /
        v.hours,
  );
}

function loadedRespirationHeat(intake: Intake, daily: DailyHeat, daysLoaded: number): Figure<'kW'> {
  const temperature = meanTemperature(intake, daysLoaded);
  const keys = formulaKeys(
    'variety',
    intake.varieties.map(({ variety }) => variety.name),
  );
  const parts = intake.varieties.map(({ variety, fruit }, index) => {
    const loaded = compute(
      `${variety.name} in the room`,
      'kg',
      'fruit * daysLoaded / days',
      {
        fruit,
        daysLoaded: countedFigure('days of fruit in the room', 'days', daysLoaded, 'first bin to this day'),
        days: daily.days,
      },
      (v) => (v.fruit * v.daysLoaded) / v.days,
    );
    const heat = respirationHeatOf(
      loaded,
      respirationHeat(respirationInAir(variety, temperature), variety.heatPerMilligram),
    );
    return [keys[index] ?? '', heat] as const;
  });
  return sumOf('heat of respiration', 'kW', parts);
}
