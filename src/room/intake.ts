import type { Day } from '../plan/dates';
import type { Figure } from '../plan/figure';
import { LateFigure, LetsGo } from '../plan/late-figure';
import {
  type Heats,
  heatsOf,
  type Intake,
  kilowattsOfBins,
  type Plain,
  plainOf,
  respirationKw,
  valueByAge,
} from './intake-heat';
import type { Arrival, FilledRoom, IntakeDay } from './types';

/** Heats of a day that differ from day to day, as they stand in a row: the sum of all, and three of its terms. */
const DAILY = ['heat', 'fieldHeat', 'binHeat', 'respirationHeat'] as const;
/** Those that are the same every day. */
const STEADY = [
  'transmissionHeat',
  'airChangeHeat',
  'fanHeat',
  'lightHeat',
  'vehicleHeat',
  'peopleHeat',
] as const;

type Daily = (typeof DAILY)[number];
type Steady = (typeof STEADY)[number];
type Whole = Pick<FilledRoom, 'intake'>;

/** The days of an intake, and the most that any of them asks for, kW; nothing below zero of none. */
export interface IntakeDays {
  readonly days: readonly IntakeDay[];
  readonly mostKw: number;
}

/**
 * Heat of the intake, day by day. Each day's fruit comes in at the start of its day, as warm as its lots were picked,
 * and cools by halves towards the room: what a day's fruit gives up depends on its own temperature and on its age. The
 * field heat of a day is that of all fruit still cooling.
 */
export function intakeDays(intake: Intake): IntakeDays {
  const heat = new IntakeHeat(intake);
  const whole = wholeBins(intake.arrivals);
  const days = intake.arrivals.map((one, index) => new DayOfIntake(heat, one, index, whole[index] ?? 0));
  return { days, mostKw: heat.mostKw() };
}

/** Heat of all days of an intake: numbers, and figures for those who ask. */
class IntakeHeat {
  readonly #days: Float64Array;
  readonly #steady: Readonly<Record<Steady, number>>;
  /** What it is made from; undefined once that is let go of. */
  #from: { readonly intake: Intake; readonly plain: Plain } | undefined;
  #made: (Heats | undefined)[] = [];
  #whole: (() => Whole | undefined) | undefined;

  constructor(intake: Intake) {
    const plain = plainOf(intake);
    this.#from = { intake, plain };
    const { transmission, airChange } = plain;
    this.#steady = {
      transmissionHeat: transmission.value,
      airChangeHeat: airChange.value,
      fanHeat: intake.fans.value,
      lightHeat: intake.work.lights.value,
      vehicleHeat: intake.work.vehicles.value,
      peopleHeat: intake.work.people.value,
    };
    this.#days = new Float64Array(DAILY.length * intake.arrivals.length);
    for (let index = 0; index < intake.arrivals.length; index++) this.#count(intake, plain, index);
  }

  mostKw(): number {
    let most = Number.NEGATIVE_INFINITY;
    for (let at = 0; at < this.#days.length; at += DAILY.length)
      most = Math.max(most, this.#days[at] as number);
    return most;
  }

  letGo(whole: () => Whole | undefined): void {
    this.#whole = whole;
    this.#from = undefined;
    this.#made = [];
  }

  figure(index: number, which: Daily | Steady): Figure<'kW'> {
    const from = this.#from;
    if (!from) return this.#late(index, which);
    this.#made[index] ??= heatsOf(from.intake, from.plain, index);
    return this.#made[index][which];
  }

  #late(index: number, which: Daily | Steady): Figure<'kW'> {
    const whole = this.#whole;
    const daily = DAILY.indexOf(which as Daily);
    const value = daily < 0 ? this.#steady[which as Steady] : (this.#days[DAILY.length * index + daily] ?? 0);
    return new LateFigure(value, 'kW', () => whole?.()?.intake[index]?.[which]);
  }

  /** The numbers of a day as `heatsOf` comes to them. */
  #count(intake: Intake, plain: Plain, index: number): void {
    const kelvins = valueByAge(plain, plain.lost, index + 1);
    const field = kilowattsOfBins(kelvins, intake.netFruit.value, intake.heatOfFruit.value);
    const bin = kilowattsOfBins(kelvins, intake.tare.value, intake.heatOfBins.value);
    const respiration = respirationKw(intake, plain, index);
    let heat = field + bin + respiration;
    for (const which of STEADY) heat += this.#steady[which];
    this.#days.set([heat, field, bin, respiration], DAILY.length * index);
  }
}

/** One of them. */
class DayOfIntake extends LetsGo<Whole> implements IntakeDay {
  readonly #heat: IntakeHeat;
  readonly #arrival: Arrival;
  readonly #index: number;

  constructor(
    heat: IntakeHeat,
    arrival: Arrival,
    index: number,
    readonly bins: number,
  ) {
    super();
    this.#heat = heat;
    this.#arrival = arrival;
    this.#index = index;
  }

  get day(): Day {
    return this.#arrival.day;
  }

  get binsIn(): Figure<'bins'> {
    return this.#arrival.bins;
  }

  get fieldTemperature(): Figure<'degC'> {
    return this.#arrival.field;
  }

  get heat(): Figure<'kW'> {
    return this.#heat.figure(this.#index, 'heat');
  }

  get fieldHeat(): Figure<'kW'> {
    return this.#heat.figure(this.#index, 'fieldHeat');
  }

  get binHeat(): Figure<'kW'> {
    return this.#heat.figure(this.#index, 'binHeat');
  }

  get respirationHeat(): Figure<'kW'> {
    return this.#heat.figure(this.#index, 'respirationHeat');
  }

  get transmissionHeat(): Figure<'kW'> {
    return this.#heat.figure(this.#index, 'transmissionHeat');
  }

  get airChangeHeat(): Figure<'kW'> {
    return this.#heat.figure(this.#index, 'airChangeHeat');
  }

  get fanHeat(): Figure<'kW'> {
    return this.#heat.figure(this.#index, 'fanHeat');
  }

  get lightHeat(): Figure<'kW'> {
    return this.#heat.figure(this.#index, 'lightHeat');
  }

  get vehicleHeat(): Figure<'kW'> {
    return this.#heat.figure(this.#index, 'vehicleHeat');
  }

  get peopleHeat(): Figure<'kW'> {
    return this.#heat.figure(this.#index, 'peopleHeat');
  }

  override letGo(whole: () => Whole | undefined): void {
    this.#heat.letGo(whole);
  }

  /** As any other day. */
  toJSON(): unknown {
    const { day, bins, binsIn, fieldTemperature } = this;
    const heats = [...DAILY, ...STEADY].map((which) => [which, this[which]] as const);
    return { day, bins, binsIn, fieldTemperature, ...Object.fromEntries(heats) };
  }
}

/** Whole bins of each day, that add up to all of them. */
function wholeBins(arrivals: readonly Arrival[]): number[] {
  let [before, sum] = [0, 0];
  return arrivals.map(({ binsIn }) => {
    sum += binsIn;
    const now = Math.round(sum + 1e-9);
    const that = now - before;
    before = now;
    return that;
  });
}
