import type { Day } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import type { Fill, Lot, Plan } from '../plan/model';
import { formulaKeys, sumOf } from './figures';
import type { Arrival, LotInRoom } from './types';

/** One lot's bins over its days. */
interface LotArrival {
  readonly id: string;
  readonly first: Day;
  readonly last: Day;
  readonly aDay: Figure<'bins'>;
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
  return Array.from({ length: count }, (_, index) => {
    const day = firstBin.value + index;
    return arrivalOfDay(
      day,
      coming.filter(({ first, last }) => first <= day && day <= last),
      mean,
    );
  });
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
  return Array.from({ length: count }, (_, index) => ({ day: first + index, bins, field }));
}

/** First and last day on which a lot's bins come into a room that is filled from a day to another. */
function daysOf(lot: Lot | undefined, [firstBin, lastBin]: readonly [Day, Day]): readonly [Day, Day] {
  if (!lot?.picked) return [firstBin, lastBin];
  const within = (day: Day) => Math.min(lastBin, Math.max(firstBin, day));
  return [within(lot.picked.value.first), within(lot.picked.value.last)];
}

/** Bins of a variety that are in a room by the end of a day of its filling. */
export function binsOfVarietyBy(
  plan: Pick<Plan, 'policy'>,
  { firstBin, lastBin }: Fill,
  lots: readonly LotInRoom[],
): (name: string, day: Day) => number {
  if (!firstBin || !lastBin) return () => 0;
  const coming = lots.map(({ lot, variety, bins }) => ({
    name: variety.name,
    bins: bins.value,
    days:
      plan.policy.arrivals === 'evenly'
        ? ([firstBin.value, lastBin.value] as const)
        : daysOf(lot, [firstBin.value, lastBin.value]),
  }));
  return (name, day) =>
    coming.reduce((sum, { name: own, bins, days: [first, last] }) => {
      const count = last - first + 1;
      return own === name ? sum + (bins * Math.min(count, Math.max(0, day - first + 1))) / count : sum;
    }, 0);
}

function arrivalOfLot(
  plan: Pick<Plan, 'lots'>,
  { lot: named, bins }: Fill['lots'][number],
  span: readonly [Day, Day],
  mean: Figure<'degC'>,
): LotArrival {
  const lot = plan.lots.get(named.value);
  const [first, last] = daysOf(lot, span);
  const days = countedFigure(
    `days in which ${named.value} comes in`,
    'days',
    last - first + 1,
    lot?.picked ? "its days of picking within the fill's" : 'first bin to last: it has no days of picking',
    lot?.picked ? [lot.picked.at] : [],
  );
  return {
    id: named.value,
    first,
    last,
    aDay: compute(
      `bins of ${named.value} a day`,
      'bins',
      'bins / days',
      { bins, days },
      (v) => v.bins / v.days,
    ),
    field: lot?.fieldTemperature ?? mean,
  };
}

function arrivalOfDay(day: Day, lots: readonly LotArrival[], mean: Figure<'degC'>): Arrival {
  const ids = lots.map(({ id }) => id);
  const binKeys = formulaKeys('bins', ids);
  const bins = sumOf(
    'bins that come in that day',
    'bins',
    lots.map(({ aDay }, index) => [binKeys[index] ?? '', aDay] as const),
  );
  const [only] = lots;
  if (!only) return { day, bins, field: mean };
  if (lots.every(({ field }) => field.value === only.field.value)) return { day, bins, field: only.field };
  const fieldKeys = formulaKeys('temperature', ids);
  const inputs: Record<string, Figure> = {};
  lots.forEach(({ aDay, field }, index) => {
    inputs[binKeys[index] ?? ''] = aDay;
    inputs[fieldKeys[index] ?? ''] = field;
  });
  const weighted = binKeys.map((key, index) => `${key} * ${fieldKeys[index]}`).join(' + ');
  const field = compute(
    "mean temperature of the day's fruit on arrival",
    'degC',
    `(${weighted}) / (${binKeys.join(' + ')})`,
    inputs,
    () => lots.reduce((sum, one) => sum + one.aDay.value * one.field.value, 0) / bins.value,
  );
  return { day, bins, field };
}

/** Whether every day brings as much, and as warm. */
export function comesInEvenly(arrivals: readonly Pick<Arrival, 'bins' | 'field'>[]): boolean {
  const [first] = arrivals;
  return arrivals.every(
    ({ bins, field }) => bins.value === first?.bins.value && field.value === first.field.value,
  );
}
