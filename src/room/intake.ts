import { respirationHeat, respirationInAir } from '../fruit/respiration';
import type { Day } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import { type AirState, airHeat } from './air';
import {
  airChangeHeat,
  coolingHalfTime,
  coolingWait,
  noLag,
  respirationHeatOf,
  transmissionHeat,
} from './cooling';
import { formulaKeys, sumOf } from './figures';
import type { LoadingHeat } from './loading-heat';
import type { Arrival, IntakeDay, VarietyInRoom } from './types';

/** What an intake's heat follows from. */
export interface Intake {
  readonly lastBin: Day;
  /** What comes in, first bin's day to last bin's. */
  readonly arrivals: readonly Arrival[];
  readonly varieties: readonly VarietyInRoom[];
  /** Bins of a variety that are in the room by the end of a day. */
  readonly binsOfVariety: (name: string, day: Day) => number;
  readonly bins: Figure<'bins'>;
  readonly fruit: Figure<'t'>;
  readonly netFruit: Figure<'kg'>;
  readonly tare: Figure<'kg'>;
  readonly heatOfFruit: Figure<'kJ/kgK'>;
  readonly heatOfBins: Figure<'kJ/kgK'>;
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

/** The parts of the load that are the same every day, and how far fruit has cooled by its age. */
interface Shared {
  readonly transmission: Figure<'kW'>;
  readonly airChange: Figure<'kW'>;
  /** Of each day's fruit on arrival: bins times kelvins above the room. */
  readonly warmth: readonly Figure<'1'>[];
  /** Part of the difference to the room that fruit loses on its first, second ... day. */
  readonly lost: readonly Figure<'1'>[];
  /** Mean part of it that is left on its first, second ... day. */
  readonly left: readonly Figure<'1'>[];
}

/**
 * Heat of the intake, day by day. Each day's fruit comes in at the start of its day, as warm as its lots were picked,
 * and cools by halves towards the room: what a day's fruit gives up depends on its own temperature and on its age. The
 * field heat of a day is that of all fruit still cooling.
 */
export function intakeDays(intake: Intake): IntakeDay[] {
  const shared = sharedBy(intake);
  const whole = wholeBins(intake.arrivals);
  return intake.arrivals.map((arrival, index) =>
    intakeDay(intake, shared, arrival, index, whole[index] ?? 0),
  );
}

function sharedBy(intake: Intake): Shared {
  const { arrivals, inside } = intake;
  return {
    transmission: transmissionHeat(
      intake.surface,
      intake.heatTransfer,
      intake.outside.temperature,
      inside.temperature,
    ),
    airChange: airChangeHeat(intake.volume, intake.airChanges, airHeat(intake.outside, inside)),
    warmth: arrivals.map(({ bins, field }) =>
      compute(
        "the day's bins times kelvins above the room",
        '1',
        'bins * (field - room)',
        { bins, field, room: inside.temperature },
        (v) => v.bins * (v.field - v.room),
      ),
    ),
    lost: arrivals.map((_, index) => lostOnDay(intake, index + 1)),
    left: arrivals.map((_, index) => leftOnDay(intake, index + 1)),
  };
}

/** Of the difference to the room, the part that goes on a day of the fruit's age, the first being 1. */
function lostOnDay({ halfTime = coolingHalfTime, lag = noLag }: Intake, age: number): Figure<'1'> {
  return compute(
    `part of its difference to the room that fruit loses on its day ${age}`,
    '1',
    'min(1, lag * 2 ^ (-24 * (age - 1) / halfTime)) - min(1, lag * 2 ^ (-24 * age / halfTime))',
    { lag, age: ageOf(age), halfTime },
    (v) =>
      Math.min(1, v.lag * 2 ** ((-24 * (v.age - 1)) / v.halfTime)) -
      Math.min(1, v.lag * 2 ** ((-24 * v.age) / v.halfTime)),
  );
}

/** Of the difference to the room, the part that is left in the mean of a day of the fruit's age. */
function leftOnDay({ halfTime = coolingHalfTime, lag = noLag }: Intake, age: number): Figure<'1'> {
  return compute(
    `part of its difference to the room that fruit has in the mean of its day ${age}`,
    '1',
    '(min(wait, 24 * age) - min(wait, 24 * (age - 1)) + (2 ^ (-max(0, 24 * (age - 1) - wait) / halfTime) - 2 ^ (-max(0, 24 * age - wait) / halfTime)) * halfTime / log(2)) / 24',
    { wait: coolingWait(halfTime, lag), age: ageOf(age), halfTime },
    (v) => {
      const [from, to] = [24 * (v.age - 1), 24 * v.age];
      const after = (hours: number) => 2 ** (-Math.max(0, hours - v.wait) / v.halfTime);
      const waited = Math.min(v.wait, to) - Math.min(v.wait, from);
      return (waited + ((after(from) - after(to)) * v.halfTime) / Math.LN2) / 24;
    },
  );
}

function ageOf(age: number): Figure<'days'> {
  return countedFigure('day since it came in', 'days', age, 'its own day is the first');
}

/** Sum over the days so far of what came in times a part for its age: names as formulas use them, and the value. */
function byAge(
  warmth: readonly Figure<'1'>[],
  parts: readonly Figure<'1'>[],
  days: number,
): { readonly formula: string; readonly inputs: Record<string, Figure>; readonly value: () => number } {
  const inputs: Record<string, Figure> = {};
  const terms: string[] = [];
  let total = 0;
  for (let index = 0; index < days; index++) {
    const [warm, part] = [warmth[index], parts[days - 1 - index]];
    if (!warm || !part) continue;
    inputs[`warmth_${index + 1}`] = warm;
    inputs[`part_${days - index}`] = part;
    terms.push(`warmth_${index + 1} * part_${days - index}`);
    total += warm.value * part.value;
  }
  return { formula: terms.join(' + '), inputs, value: () => total };
}

function intakeDay(
  intake: Intake,
  shared: Shared,
  { day, bins: binsIn, field: fieldTemperature }: Arrival,
  index: number,
  bins: number,
): IntakeDay {
  const sum = byAge(shared.warmth, shared.lost, index + 1);
  const cooled = compute(
    'bins times kelvins that they cool in the day',
    '1',
    sum.formula,
    sum.inputs,
    sum.value,
  );
  const parts = {
    fieldHeat: heatOfBins('field heat of the fruit', cooled, intake.netFruit, intake.heatOfFruit),
    binHeat: heatOfBins('heat of the bins', cooled, intake.tare, intake.heatOfBins),
    respirationHeat: loadedRespirationHeat(intake, shared, day, index + 1),
    transmissionHeat: shared.transmission,
    airChangeHeat: shared.airChange,
    fanHeat: intake.fans,
    lightHeat: intake.work.lights,
    vehicleHeat: intake.work.vehicles,
    peopleHeat: intake.work.people,
  };
  const heat = sumOf(`cooling on day ${index + 1} of the intake`, 'kW', Object.entries(parts));
  return { day, bins, binsIn, fieldTemperature, heat, ...parts };
}

/** Mean over a day; zero where the fruit is colder than the room. */
function heatOfBins(
  name: string,
  cooled: Figure<'1'>,
  massInBin: Figure<'kg'>,
  specificHeat: Figure<'kJ/kgK'>,
): Figure<'kW'> {
  return compute(
    name,
    'kW',
    'max(0, cooled * massInBin * specificHeat / 86400)',
    { cooled, massInBin, specificHeat },
    (v) => Math.max(0, (v.cooled * v.massInBin * v.specificHeat) / 86_400),
  );
}

/** Whole bins of each day, that add up to all of them. */
function wholeBins(arrivals: readonly Arrival[]): number[] {
  let [before, sum] = [0, 0];
  return arrivals.map(({ bins }) => {
    sum += bins.value;
    const now = Math.round(sum + 1e-9);
    const that = now - before;
    before = now;
    return that;
  });
}

/** Mean temperature over a day of all fruit in the room. */
function meanTemperature(intake: Intake, { warmth, left }: Shared, days: number): Figure<'degC'> {
  const sum = byAge(warmth, left, days);
  const loaded = intake.arrivals
    .slice(0, days)
    .map(({ bins }, index) => [`bins_${index + 1}`, bins] as const);
  const bins = loaded.reduce((total, [, one]) => total + one.value, 0);
  const room = intake.inside.temperature;
  if (bins === 0) return compute('temperature of the room', 'degC', 'room', { room }, (v) => v.room);
  return compute(
    'mean temperature of the fruit in the room',
    'degC',
    `room + (${sum.formula}) / (${loaded.map(([key]) => key).join(' + ')})`,
    { room, ...sum.inputs, ...Object.fromEntries(loaded) },
    (v) => v.room + sum.value() / bins,
  );
}

function loadedRespirationHeat(intake: Intake, shared: Shared, day: Day, days: number): Figure<'kW'> {
  const temperature = meanTemperature(intake, shared, days);
  const keys = formulaKeys(
    'variety',
    intake.varieties.map(({ variety }) => variety.name),
  );
  const parts = intake.varieties.map(({ variety }, index) => {
    const loaded = compute(
      `${variety.name} in the room`,
      'kg',
      'binsIn * netFruit',
      {
        binsIn: countedFigure(
          `bins of ${variety.name} in the room by the end of the day`,
          'bins',
          intake.binsOfVariety(variety.name, day),
          "its lots, each evenly over its days of picking within the fill's",
        ),
        netFruit: intake.netFruit,
      },
      (v) => v.binsIn * v.netFruit,
    );
    const heat = respirationHeatOf(
      loaded,
      respirationHeat(respirationInAir(variety, temperature), variety.heatPerMilligram),
    );
    return [keys[index] ?? '', heat] as const;
  });
  return sumOf('heat of respiration', 'kW', parts);
}
