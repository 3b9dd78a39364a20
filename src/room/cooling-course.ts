import type { Day } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import type { Plan } from '../plan/model';
import { specificHeatOfBin, specificHeatOfFruit } from './bulk';
import { coolingHalfTime, noLag } from './cooling';
import type { MarchRoom } from './cooling-march';
import { rateTable, roomTemperature } from './course/of-plan';
import { march, marchTogether } from './group-march';
import type { Marched, MarchedBatch, MarchedDay, MarchedDays } from './marched';
import type { FilledRoom } from './types';

export interface CoolingOptions {
  /** Cooling that the room gets on a day, kW; its own cooler where left out, without limit where it has none. */
  readonly capacityKw?: (day: Day) => number;
  readonly halfTimeHours?: number;
  readonly lag?: number;
}

/** One day's fruit on its way to the room's temperature. */
export interface BatchCooling {
  readonly day: Day;
  readonly bins: number;
  /** Mean temperature at the end of each day from its own on. */
  readonly temperatures: readonly { readonly day: Day; readonly celsius: number }[];
  /** From its arrival until it has lost seven eighths of its difference to the room; absent if not in two months. */
  readonly sevenEighths?: Figure<'days'>;
}

export interface CoolingCourse {
  readonly batches: readonly BatchCooling[];
  readonly days: readonly MarchedDay[];
  /** The same days for those who look at few of them: nothing is made for the others. */
  readonly marched: MarchedDays;
  /** Hours in which the fruit wants to give up more heat than the cooler takes. */
  readonly shortOfCooling: Figure<'h'>;
  /** From the first bin until all fruit is seven-eighths cool. */
  readonly allCold?: Figure<'days'> | undefined;
  /** The first day that begins with all fruit cold: the room can be sealed from it on. */
  readonly canBeSealed?: Day | undefined;
}

/**
 * The temperature of each day's fruit, hour by hour: by halves towards the room after its lag, slower while the heat of
 * fruit, bins, respiration, fabric, air, fans, lights, vehicles and people is more than the cooler takes. Undefined where the plan lacks what it
 * needs.
 */
export function coolingCourse(
  plan: Plan,
  filled: FilledRoom,
  options: CoolingOptions = {},
): CoolingCourse | undefined {
  const room = marchRoom(plan, filled, options);
  return room && new CourseOfMarch(march(room));
}

/** The same for rooms that draw on one plant of so many kilowatts, by fill; those that lack what it needs left out. */
export function coolingTogether(
  plan: Plan,
  rooms: readonly FilledRoom[],
  plantKw: number,
): ReadonlyMap<string, CoolingCourse> {
  const planned = rooms.flatMap((filled) => {
    const room = marchRoom(plan, filled);
    return room ? [{ id: filled.fill.id, room }] : [];
  });
  const marched = marchTogether(
    planned.map(({ room }) => room),
    plantKw,
  );
  return new Map(
    planned.flatMap(({ id }, index) => {
      const one = marched[index];
      return one ? [[id, new CourseOfMarch(one)] as const] : [];
    }),
  );
}

/** All numbers that a room's course of cooling follows from, as text; with its varieties they settle it. */
export function coolingNumbers(plan: Plan, filled: FilledRoom): string {
  const room = marchRoom(plan, filled);
  return JSON.stringify(room && [room, ...behindFunctions(filled)], (_key, value: unknown) =>
    typeof value === 'number' && !Number.isFinite(value) ? String(value) : value,
  );
}

/** What the functions of `marchRoom` follow from beside the varieties: text does not have them. */
function behindFunctions({ room, varieties, stepDown, holdingCooling }: FilledRoom): unknown[] {
  return [
    room.coolerCapacity?.value,
    varieties.map(({ fruit }) => fruit.value),
    stepDown && [stepDown.first, stepDown.last, stepDown.cooling.value],
    holdingCooling?.value,
  ];
}

/** Holds the march alone: all else is made when somebody asks, which hardly anybody does of most rooms. */
class CourseOfMarch implements CoolingCourse {
  readonly #march: Marched;

  constructor(marched: Marched) {
    this.#march = marched;
  }

  get marched(): MarchedDays {
    return this.#march.days;
  }

  get days(): MarchedDay[] {
    return this.#march.days.all();
  }

  get batches(): BatchCooling[] {
    return this.#march.batches().map((batch) => batchCooling(batch));
  }

  get shortOfCooling(): Figure<'h'> {
    return countedFigure('hours short of cooling', 'h', this.#march.shortHours, HOW);
  }

  get allCold(): Figure<'days'> | undefined {
    const last = this.#march.allColdAtHours();
    if (!Number.isFinite(last)) return undefined;
    return countedFigure(
      'days from the first bin until all fruit is seven-eighths cool',
      'days',
      last / 24,
      HOW,
    );
  }

  get canBeSealed(): Day | undefined {
    const last = this.#march.allColdAtHours();
    return Number.isFinite(last) ? this.#march.firstDay + Math.ceil(last / 24 - 1e-9) : undefined;
  }
}

const HOW =
  "counted hour by hour: each day's fruit cools by halves after its lag, slower while all heat is more than the cooler takes";

function coldAfter({ sevenEighthsAtHours }: MarchedBatch): number {
  return sevenEighthsAtHours ?? Number.POSITIVE_INFINITY;
}

function batchCooling({ day, bins, loadedAtHours, sevenEighthsAtHours, ends }: MarchedBatch): BatchCooling {
  const sevenEighths =
    sevenEighthsAtHours === undefined
      ? undefined
      : countedFigure(
          'days until seven-eighths cool',
          'days',
          (sevenEighthsAtHours - loadedAtHours) / 24,
          HOW,
        );
  return { day, bins, temperatures: ends, ...(sevenEighths ? { sevenEighths } : {}) };
}

/** What a fill's cooling is counted from. Undefined where the plan lacks what it needs. */
export function marchRoom(
  plan: Plan,
  filled: FilledRoom,
  options: CoolingOptions = {},
): MarchRoom | undefined {
  const { room, regime, intake, meanFieldTemperature: field, varieties } = filled;
  const binType = room.binType && plan.binTypes.get(room.binType.value);
  const [first] = intake;
  const heatOfBins = specificHeatOfBin(binType);
  if (!regime || !first || !field || !binType?.netFruit || !binType.tare || !heatOfBins) return undefined;
  const kg = varieties.reduce((sum, { fruit }) => sum + fruit.value, 0);
  if (!(kg > 0)) return undefined;
  const respiration = varieties.map(({ variety, fruit }) => ({
    share: fruit.value / kg,
    inAir: rateTable(variety),
    joules: variety.heatPerMilligram.value,
  }));
  const own = room.coolerCapacity?.value ?? Number.POSITIVE_INFINITY;
  const fixed = first.transmissionHeat.value + first.fanHeat.value;
  return {
    firstDay: first.day,
    loads: intake.map(({ bins, fieldTemperature }) => ({ bins, celsius: fieldTemperature.value })),
    fruitKgInBin: binType.netFruit.value,
    heatOfBin:
      binType.netFruit.value * specificHeatOfFruit(varieties).value + binType.tare.value * heatOfBins.value,
    roomTemperature: roomTemperature(filled, regime, first.day),
    halfTimeHours: options.halfTimeHours ?? (room.coolingHalfTime ?? coolingHalfTime).value,
    lag: options.lag ?? (room.coolingLag ?? noLag).value,
    respiration,
    loadingKw:
      fixed +
      first.airChangeHeat.value +
      first.lightHeat.value +
      first.vehicleHeat.value +
      first.peopleHeat.value,
    coolingKw: fixed,
    capacityKw: options.capacityKw ?? (() => own),
    coldKw: (day) => coldCooling(filled, day)?.value ?? fixed,
  };
}

/** What a room wants on a day whose fruit has settled: its step down from a warm hold, or holding. */
export function coldCooling({ stepDown, holdingCooling }: FilledRoom, day: Day): Figure<'kW'> | undefined {
  return stepDown && day >= stepDown.first && day <= stepDown.last ? stepDown.cooling : holdingCooling;
}

/** How many bins a day a room may take so that its fruit is cold in time. */
export interface IntakeLimit {
  /** Largest daily intake at which the fruit of every day is seven-eighths cool within the promise of its arrival. */
  readonly largest?: Figure<'bins/day'>;
  /** Smallest at which all of the fill is, within the promise of the first bin: slower, and loading takes too long. */
  readonly smallest?: Figure<'bins/day'>;
  /** Days from the first bin to all fruit cold with all bins on one day: no other intake is quicker. */
  readonly quickest: Figure<'days'>;
}

/**
 * The largest and the smallest daily intake of a fill that keep the promise, with the cooling there is. Each intake
 * that is tried is counted hour by hour. An end is absent where no daily intake keeps it.
 */
export function intakeLimit(
  plan: Plan,
  filled: FilledRoom,
  options: CoolingOptions = {},
  promise: Figure<'days'> = filled.assumptions.daysToCold,
): IntakeLimit | undefined {
  const planned = marchRoom(plan, filled, options);
  if (!planned) return undefined;
  const bins = planned.loads.reduce((sum, one) => sum + one.bins, 0);
  const celsius = filled.meanFieldTemperature?.value ?? 0;
  const batchesAt = (daily: number) => march({ ...planned, loads: loadsOf(bins, daily, celsius) }).batches();
  const within = promise.value * 24 + 1e-6;
  const eachInTime = (daily: number) =>
    batchesAt(daily).every((one) => coldAfter(one) - one.loadedAtHours <= within);
  const allInTime = (daily: number) => batchesAt(daily).every((one) => coldAfter(one) <= within);
  const limit = (name: string, value: number) =>
    countedFigure(name, 'bins/day', value, 'found by trying daily intakes, each counted hour by hour');
  const largest = edge(Math.max(1, Math.floor(bins / MOST_INTAKE_DAYS)), bins, eachInTime);
  const smallest = edge(bins, Math.max(1, Math.floor(bins / MOST_INTAKE_DAYS)), allInTime);
  const quickest = Math.max(...batchesAt(bins).map((one) => coldAfter(one))) / 24;
  return {
    ...(largest === undefined
      ? {}
      : { largest: limit("largest daily intake at which each day's fruit is cold in time", largest) }),
    ...(smallest === undefined
      ? {}
      : { smallest: limit('smallest daily intake at which the whole room is cold in time', smallest) }),
    quickest: countedFigure('quickest days to all fruit cold', 'days', quickest, HOW),
  };
}

/** Intakes spread over more days than these are not tried. */
const MOST_INTAKE_DAYS = 40;

/** The last whole number that keeps the promise on the way from one to another, by halving; undefined if none does. */
function edge(from: number, towards: number, keeps: (daily: number) => boolean): number | undefined {
  if (keeps(towards)) return towards;
  if (!keeps(from)) return undefined;
  let [good, bad] = [from, towards];
  while (Math.abs(good - bad) > 1) {
    const middle = Math.trunc((good + bad) / 2);
    if (keeps(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

/** Full days, and the rest on the last, all as warm as the fill in the mean. */
function loadsOf(bins: number, daily: number, celsius: number): MarchRoom['loads'] {
  const days = Math.max(1, Math.ceil(bins / daily));
  return Array.from({ length: days }, (_, index) => ({
    bins: Math.min(daily, bins - index * daily),
    celsius,
  }));
}

/** Share of a room's bins that its busiest day brings, for the rule of 7 to 10 % a day. */
export function busiestDayShare(filled: FilledRoom): Figure<'%'> | undefined {
  const { places } = filled.capacity;
  const busiest = Math.max(0, ...filled.intake.map(({ bins }) => bins));
  if (!places || busiest === 0) return undefined;
  const bins = countedFigure('bins of the busiest day', 'bins', busiest, 'the intake by day');
  return compute(
    'busiest day, of the room',
    '%',
    '100 * bins / places',
    { bins, places },
    (v) => (100 * v.bins) / v.places,
  );
}
