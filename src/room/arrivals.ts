import type { Day } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import { LateFigure, LetsGo } from '../plan/late-figure';
import type { Fill, Lot, Plan } from '../plan/model';
import type { Span } from '../plan/span';
import { formulaKeys, sumOf } from './figures';
import type { Arrival, FilledRoom, LotInRoom } from './types';

/** One lot's bins over its days. */
interface LotArrival {
  readonly id: string;
  readonly first: Day;
  readonly last: Day;
  readonly bins: Figure<'bins'>;
  readonly aDay: number;
  /** Where its days of picking stand, where it has some. */
  readonly picked: Span | undefined;
  readonly field: Figure<'degC'>;
}

/** More days than any harvest: a plan with a mistyped year must not make the tool count for hours. */
const MOST_INTAKE_DAYS = 120;

/**
 * The bins of each day from the first to the last, and their temperature. A lot comes in evenly on those of its days of
 * picking that are within the fill's; on the fill's nearest day where none is; over all of the fill's days where the
 * plan tells no days of picking. `mean` stands for a lot that is not defined. Empty where the dates are the wrong way
 * round or too far apart to be meant. A plan may say instead that bins are held back and come in evenly.
 */
export function arrivalsOf(
  plan: Pick<Plan, 'lots' | 'policy'>,
  { firstBin, lastBin, lots }: Fill,
  bins: Figure<'bins'>,
  mean: Figure<'degC'>,
): Arrival[] {
  if (!firstBin || !lastBin) return [];
  const count = lastBin.value - firstBin.value + 1;
  if (!(count >= 1 && count <= MOST_INTAKE_DAYS)) return [];
  if (plan.policy.arrivals === 'evenly') return asManyEachDay(firstBin.value, count, bins, mean);
  const coming = lots.map((one) => arrivalOfLot(plan, one, [firstBin.value, lastBin.value], mean));
  // The order in which a fill names its lots is no one's concern: sums are taken in the order of their names.
  coming.sort((a, b) => (a.id < b.id ? -1 : 1));
  return arrivalsByDay(firstBin.value, count, coming, mean);
}

/** Bins held back, so that every day brings a part of all lots. */
function asManyEachDay(first: Day, count: number, all: Figure<'bins'>, field: Figure<'degC'>): Arrival[] {
  const days = countedFigure('days of intake', 'days', count, 'first bin to last bin');
  const bins = compute(
    'bins that come in a day, held back to be as many each day',
    'bins',
    'bins / days',
    { bins: all, days },
    (v) => v.bins / v.days,
  );
  const shared = new Arrivals(first, count, () => ({ bins, field }));
  shared.bins.fill(bins.value);
  shared.celsius.fill(field.value);
  return shared.days();
}

/** First and last day on which a lot's bins come into a room that is filled from a day to another. */
function daysWithin(picked: Lot['picked'], [firstBin, lastBin]: readonly [Day, Day]): readonly [Day, Day] {
  if (!picked) return [firstBin, lastBin];
  const within = (day: Day) => Math.min(lastBin, Math.max(firstBin, day));
  return [within(picked.value.first), within(picked.value.last)];
}

/** Bins of a variety that are in a room by the end of a day of its filling. */
export function binsOfVarietyBy(
  plan: Pick<Plan, 'policy'>,
  { firstBin, lastBin }: Fill,
  lots: readonly LotInRoom[],
): (name: string, day: Day) => number {
  if (!firstBin || !lastBin) return () => 0;
  const coming = lots.map(({ lot, variety, bins }) => {
    const days = [firstBin.value, lastBin.value] as const;
    const [first, last] = plan.policy.arrivals === 'evenly' ? days : daysWithin(lot.picked, days);
    return { name: variety.name, bins: bins.value, first, count: last - first + 1 };
  });
  return (name, day) => {
    let sum = 0;
    for (let index = 0; index < coming.length; index++) {
      const { name: own, bins, first, count } = coming[index] as (typeof coming)[number];
      if (own === name) sum += (bins * Math.min(count, Math.max(0, day - first + 1))) / count;
    }
    return sum;
  };
}

function arrivalOfLot(
  plan: Pick<Plan, 'lots'>,
  { lot: named, bins }: Fill['lots'][number],
  span: readonly [Day, Day],
  mean: Figure<'degC'>,
): LotArrival {
  const lot = plan.lots.get(named.value);
  const picked = lot?.picked;
  const [first, last] = daysWithin(picked, span);
  return {
    id: named.value,
    first,
    last,
    bins,
    aDay: bins.value / (last - first + 1),
    picked: picked?.at,
    field: lot?.fieldTemperature ?? mean,
  };
}

/** What comes in by day; lots in the order of their names. */
function arrivalsByDay(
  firstDay: Day,
  count: number,
  lots: readonly LotArrival[],
  mean: Figure<'degC'>,
): Arrival[] {
  const on = (day: Day) => lots.filter(({ first, last }) => first <= day && day <= last);
  const shared = new Arrivals(firstDay, count, (day) => figuresOfDay(on(day), mean));
  for (let index = 0; index < count; index++) countDay(shared, index, lots, mean.value);
  return shared.days();
}

/** The numbers of a day as its figures have them. */
function countDay(shared: Arrivals, index: number, lots: readonly LotArrival[], mean: number): void {
  const day = shared.firstDay + index;
  let [bins, warmth, warm, isOne, here] = [0, 0, mean, true, 0];
  for (const { first, last, aDay, field } of lots) {
    if (!(first <= day && day <= last)) continue;
    if (here++ === 0) warm = field.value;
    else if (field.value !== warm) isOne = false;
    bins += aDay;
    warmth += aDay * field.value;
  }
  shared.bins[index] = bins;
  shared.celsius[index] = isOne ? warm : warmth / bins;
}

/** A room's days of filling: numbers, and figures for those who ask. */
class Arrivals {
  readonly bins: Float64Array;
  readonly celsius: Float64Array;
  /** Makes the figures of a day; undefined once what they are made from is let go of. */
  #figuresOf: ((day: Day) => Made) | undefined;
  #made: (Made | undefined)[] = [];
  #whole: (() => Pick<FilledRoom, 'arrivals'> | undefined) | undefined;

  constructor(
    readonly firstDay: Day,
    count: number,
    figuresOf: (day: Day) => Made,
  ) {
    this.#figuresOf = figuresOf;
    this.bins = new Float64Array(count);
    this.celsius = new Float64Array(count);
  }

  days(): Arrival[] {
    return Array.from(this.bins, (_, index) => new ArrivingDay(this, index));
  }

  letGo(whole: () => Pick<FilledRoom, 'arrivals'> | undefined): void {
    this.#whole = whole;
    this.#figuresOf = undefined;
    this.#made = [];
  }

  figure<K extends keyof Made>(index: number, which: K): Made[K] {
    if (!this.#figuresOf) return this.#late(index, which) as Made[K];
    this.#made[index] ??= this.#figuresOf(this.firstDay + index);
    return this.#made[index][which];
  }

  #late(index: number, which: keyof Made): Figure {
    const whole = this.#whole;
    const [value, unit] =
      which === 'bins' ? ([this.bins[index], 'bins'] as const) : ([this.celsius[index], 'degC'] as const);
    return new LateFigure(value ?? 0, unit, () => whole?.()?.arrivals[index]?.[which]);
  }
}

/** One of them. */
class ArrivingDay extends LetsGo<Pick<FilledRoom, 'arrivals'>> implements Arrival {
  readonly #of: Arrivals;
  readonly #index: number;

  constructor(of: Arrivals, index: number) {
    super();
    this.#of = of;
    this.#index = index;
  }

  get day(): Day {
    return this.#of.firstDay + this.#index;
  }

  get binsIn(): number {
    return this.#of.bins[this.#index] ?? 0;
  }

  get celsius(): number {
    return this.#of.celsius[this.#index] ?? 0;
  }

  get bins(): Figure<'bins'> {
    return this.#of.figure(this.#index, 'bins');
  }

  get field(): Figure<'degC'> {
    return this.#of.figure(this.#index, 'field');
  }

  override letGo(whole: () => Pick<FilledRoom, 'arrivals'> | undefined): void {
    this.#of.letGo(whole);
  }

  /** As any other arrival. */
  toJSON(): Arrival {
    const { day, binsIn, celsius, bins, field } = this;
    return { day, binsIn, celsius, bins, field };
  }
}

interface Made {
  readonly bins: Figure<'bins'>;
  readonly field: Figure<'degC'>;
}

/** `lots` are those that come in on the day. */
function figuresOfDay(lots: readonly LotArrival[], mean: Figure<'degC'>): Made {
  const ids = lots.map(({ id }) => id);
  const binKeys = formulaKeys('bins', ids);
  const aDay = lots.map((one) => binsADay(one));
  const bins = sumOf(
    'bins that come in that day',
    'bins',
    aDay.map((each, index) => [binKeys[index] ?? '', each] as const),
  );
  const [only] = lots;
  if (!only) return { bins, field: mean };
  if (lots.every(({ field }) => field.value === only.field.value)) return { bins, field: only.field };
  const fieldKeys = formulaKeys('temperature', ids);
  const inputs: Record<string, Figure> = {};
  lots.forEach(({ field }, index) => {
    inputs[binKeys[index] ?? ''] = aDay[index] as Figure;
    inputs[fieldKeys[index] ?? ''] = field;
  });
  const weighted = binKeys.map((key, index) => `${key} * ${fieldKeys[index]}`).join(' + ');
  const field = compute(
    "mean temperature of the day's fruit on arrival",
    'degC',
    `(${weighted}) / (${binKeys.join(' + ')})`,
    inputs,
    () => lots.reduce((sum, one) => sum + one.aDay * one.field.value, 0) / bins.value,
  );
  return { bins, field };
}

function binsADay({ id, first, last, bins, picked }: LotArrival): Figure<'bins'> {
  const days = countedFigure(
    `days in which ${id} comes in`,
    'days',
    last - first + 1,
    picked ? "its days of picking within the fill's" : 'first bin to last: it has no days of picking',
    picked ? [picked] : [],
  );
  return compute(`bins of ${id} a day`, 'bins', 'bins / days', { bins, days }, (v) => v.bins / v.days);
}

/** Whether every day brings as much, and as warm. */
export function comesInEvenly(arrivals: readonly Pick<Arrival, 'binsIn' | 'celsius'>[]): boolean {
  const [first] = arrivals;
  return arrivals.every(({ binsIn, celsius }) => binsIn === first?.binsIn && celsius === first.celsius);
}
