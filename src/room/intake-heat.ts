import { respirationHeat, respirationInAir, respirationRateInAir } from '../fruit/respiration';
import type { Day } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import type { AirState } from './air';
import { airChangeHeat, coolingHalfTime, coolingWait, noLag, respirationHeatOf } from './cooling';
import { figureLater, type Keyed, sumLater, sumOf } from './figures';
import type { LoadingHeat } from './loading-heat';
import type { Arrival, IntakeDay, VarietyInRoom } from './types';

/** What comes into a room whose inside is at a temperature, from the outside air of the harvest weeks. */
export interface ComesIn {
  /** Of each cubic metre of outside air. */
  readonly outsideHeat: Figure<'kJ/m3'>;
  /** Through walls, ceiling and floor. */
  readonly transmission: Figure<'kW'>;
}

/** What an intake's heat follows from. */
export interface Intake extends ComesIn {
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
  readonly volume: Figure<'m3'>;
  /** As measured in the room; the usual one where left out. */
  readonly halfTime?: Figure<'h'> | undefined;
  readonly lag?: Figure<'1'> | undefined;
  readonly fans: Figure<'kW'>;
  readonly work: LoadingHeat;
  /** Of the room's air, a day. */
  readonly airChanges: Figure<'1'>;
}

/** How the parts of the load come about, for those who ask: fruit by its arrival and its age. */
interface Shared {
  /** Of each day's fruit on arrival: bins times kelvins above the room. */
  readonly warmth: readonly Figure<'1'>[];
  /** Part of the difference to the room that fruit loses on its first, second ... day. */
  readonly lost: readonly Figure<'1'>[];
  /** Mean part of it that is left on its first, second ... day. */
  readonly left: readonly Figure<'1'>[];
}

/** The values of the same, and the parts of the load that are the same every day. */
export interface Plain {
  readonly transmission: Figure<'kW'>;
  readonly airChange: Figure<'kW'>;
  readonly warmth: Float64Array;
  readonly lost: Float64Array;
  readonly left: Float64Array;
  /** Made when somebody asks how a day's heat comes about. */
  readonly shared: () => Shared;
}

/** All heats of a day. */
export type Heats = Omit<IntakeDay, 'day' | 'bins' | 'binsIn' | 'fieldTemperature'>;

/** Numbers that the heat of the days follows from. */
export function plainOf(intake: Intake): Plain {
  const { arrivals, inside, halfTime = coolingHalfTime, lag = noLag } = intake;
  const [lost, left] = [new Float64Array(arrivals.length), new Float64Array(arrivals.length)];
  const wait = coolingWait(halfTime, lag).value;
  for (let index = 0; index < arrivals.length; index++) {
    lost[index] = lostPart(lag.value, index + 1, halfTime.value);
    left[index] = leftPart(wait, index + 1, halfTime.value);
  }
  let shared: Shared | undefined;
  return {
    transmission: intake.transmission,
    airChange: airChangeHeat(intake.volume, intake.airChanges, intake.outsideHeat),
    warmth: Float64Array.from(
      arrivals,
      ({ binsIn, celsius }) => binsIn * (celsius - inside.temperature.value),
    ),
    lost,
    left,
    shared: () => {
      shared ??= sharedBy(intake);
      return shared;
    },
  };
}

function sharedBy(intake: Intake): Shared {
  const { arrivals, inside } = intake;
  return {
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
    (v) => lostPart(v.lag, v.age, v.halfTime),
  );
}

function lostPart(lag: number, age: number, halfTime: number): number {
  return (
    Math.min(1, lag * 2 ** ((-24 * (age - 1)) / halfTime)) - Math.min(1, lag * 2 ** ((-24 * age) / halfTime))
  );
}

/** Of the difference to the room, the part that is left in the mean of a day of the fruit's age. */
function leftOnDay({ halfTime = coolingHalfTime, lag = noLag }: Intake, age: number): Figure<'1'> {
  return compute(
    `part of its difference to the room that fruit has in the mean of its day ${age}`,
    '1',
    '(min(wait, 24 * age) - min(wait, 24 * (age - 1)) + (2 ^ (-max(0, 24 * (age - 1) - wait) / halfTime) - 2 ^ (-max(0, 24 * age - wait) / halfTime)) * halfTime / log(2)) / 24',
    { wait: coolingWait(halfTime, lag), age: ageOf(age), halfTime },
    (v) => leftPart(v.wait, v.age, v.halfTime),
  );
}

function leftPart(wait: number, age: number, halfTime: number): number {
  const [from, to] = [24 * (age - 1), 24 * age];
  const after = (hours: number) => 2 ** (-Math.max(0, hours - wait) / halfTime);
  const waited = Math.min(wait, to) - Math.min(wait, from);
  return (waited + ((after(from) - after(to)) * halfTime) / Math.LN2) / 24;
}

function ageOf(age: number): Figure<'days'> {
  return countedFigure('day since it came in', 'days', age, 'its own day is the first');
}

/** Sum over the days so far of what came in times a part for its age. */
export function valueByAge({ warmth }: Plain, parts: Float64Array, days: number): number {
  let total = 0;
  for (let index = 0; index < days; index++)
    total += (warmth[index] as number) * (parts[days - 1 - index] as number);
  return total;
}

/** How that sum comes about: names as formulas use them. */
function byAge(
  warmth: readonly Figure<'1'>[],
  parts: readonly Figure<'1'>[],
  days: number,
): { readonly formula: string; readonly inputs: Record<string, Figure> } {
  const inputs: Record<string, Figure> = {};
  const terms: string[] = [];
  for (let index = 0; index < days; index++) {
    const [warm, part] = [warmth[index], parts[days - 1 - index]];
    if (!warm || !part) continue;
    inputs[`warmth_${index + 1}`] = warm;
    inputs[`part_${days - index}`] = part;
    terms.push(`warmth_${index + 1} * part_${days - index}`);
  }
  return { formula: terms.join(' + '), inputs };
}

/** Heats of a day with how they come about. */
export function heatsOf(intake: Intake, plain: Plain, index: number): Heats {
  const days = index + 1;
  const kelvins = valueByAge(plain, plain.lost, days);
  const cooled = () => cooledInDay(plain, days, kelvins);
  const ofBins = (name: string, massInBin: Figure<'kg'>, specificHeat: Figure<'kJ/kgK'>) =>
    figureLater(name, 'kW', kilowattsOfBins(kelvins, massInBin.value, specificHeat.value), () =>
      heatOfBins(name, cooled(), massInBin, specificHeat),
    );
  const parts = {
    fieldHeat: ofBins('field heat of the fruit', intake.netFruit, intake.heatOfFruit),
    binHeat: ofBins('heat of the bins', intake.tare, intake.heatOfBins),
    respirationHeat: loadedRespirationHeat(intake, plain, index),
    transmissionHeat: plain.transmission,
    airChangeHeat: plain.airChange,
    fanHeat: intake.fans,
    lightHeat: intake.work.lights,
    vehicleHeat: intake.work.vehicles,
    peopleHeat: intake.work.people,
  };
  return { ...parts, heat: sumOf(`cooling on day ${days} of the intake`, 'kW', Object.entries(parts)) };
}

function cooledInDay(plain: Plain, days: number, value: number): Figure<'1'> {
  const { warmth, lost } = plain.shared();
  const { formula, inputs } = byAge(warmth, lost, days);
  return compute('bins times kelvins that they cool in the day', '1', formula, inputs, () => value);
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
    (v) => kilowattsOfBins(v.cooled, v.massInBin, v.specificHeat),
  );
}

export function kilowattsOfBins(cooled: number, massInBin: number, specificHeat: number): number {
  return Math.max(0, (cooled * massInBin * specificHeat) / 86_400);
}

/** Mean temperature over a day of all fruit in the room, °C. */
function meanCelsius({ arrivals, inside }: Intake, plain: Plain, days: number): number {
  let bins = 0;
  for (let index = 0; index < days; index++) bins += arrivals[index]?.binsIn ?? 0;
  const room = inside.temperature.value;
  return bins === 0 ? room : room + valueByAge(plain, plain.left, days) / bins;
}

/** The same with how it comes about. */
function meanTemperature(intake: Intake, plain: Plain, days: number): Figure<'degC'> {
  const room = intake.inside.temperature;
  const loaded = intake.arrivals
    .slice(0, days)
    .map(({ bins }, index) => [`bins_${index + 1}`, bins] as const);
  if (loaded.every(([, bins]) => bins.value === 0))
    return compute('temperature of the room', 'degC', 'room', { room }, (v) => v.room);
  const { warmth, left } = plain.shared();
  const sum = byAge(warmth, left, days);
  return compute(
    'mean temperature of the fruit in the room',
    'degC',
    `room + (${sum.formula}) / (${loaded.map(([key]) => key).join(' + ')})`,
    { room, ...sum.inputs, ...Object.fromEntries(loaded) },
    () => meanCelsius(intake, plain, days),
  );
}

/** Of the fruit that has come in by the end of a day, mean over the day, kW. */
export function respirationKw(intake: Intake, plain: Plain, index: number): number {
  const celsius = meanCelsius(intake, plain, index + 1);
  const day = intake.arrivals[index]?.day ?? 0;
  let kilowatts = 0;
  for (const { variety } of intake.varieties) {
    const kg = intake.binsOfVariety(variety.name, day) * intake.netFruit.value;
    const rate = respirationRateInAir(variety, celsius);
    const wattsPerTonne = (rate * variety.heatPerMilligram.value * 1000) / 3600;
    kilowatts += ((kg / 1000) * wattsPerTonne) / 1000;
  }
  return kilowatts;
}

function loadedRespirationHeat(intake: Intake, plain: Plain, index: number): Figure<'kW'> {
  const kilowatts = respirationKw(intake, plain, index);
  const day = intake.arrivals[index]?.day ?? 0;
  const parts = () => heatByVariety(intake, meanTemperature(intake, plain, index + 1), day);
  return sumLater('heat of respiration', 'kW', 'variety', kilowatts, parts);
}

/** Heat of respiration of each variety as far as it has come in, by its name. */
function heatByVariety(intake: Intake, temperature: Figure<'degC'>, day: Day): Keyed<'kW'>[] {
  return intake.varieties.map(({ variety }) => {
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
    return [variety.name, heat] as const;
  });
}
