import type { ComputedSeason } from '../findings/types';
import { type DisplayUnits, fixed, measure, unitLabel } from '../plan/display';
import type { Unit } from '../plan/figure';
import { counted } from '../plan/wording';
import { daysOf } from '../readings/days';
import type { ReadQuantity, RoomReadings } from '../readings/types';
import type { FilledRoom } from '../room/types';
import type { DayChart, DayLine } from './card-types';
import { expectedAt } from './readings-beside';
import type { CardDays } from './room-card-days';

const MINUTES_A_DAY = 1440;
/** Differences are told to the hundredth. */
const SMALLEST = 0.01;

interface ReadLine {
  readonly quantity: ReadQuantity;
  readonly name: string;
  readonly look: DayLine['look'];
  readonly unit: Unit;
  readonly decimals: number;
}

const READ_LINES: Readonly<Partial<Record<DayChart['id'], readonly ReadLine[]>>> = {
  gas: [
    { quantity: 'oxygen', name: 'oxygen read', look: 'oxygen-read', unit: '%', decimals: 2 },
    {
      quantity: 'carbon-dioxide',
      name: 'carbon dioxide read',
      look: 'carbon-dioxide-read',
      unit: '%',
      decimals: 2,
    },
  ],
  temperature: [{ quantity: 'temperature', name: 'air read', look: 'room-read', unit: 'degC', decimals: 1 }],
};

/**
 * The charts with what was read laid over what is computed: the mean of each day, as points. Where they lie apart the
 * chart's description says by how much, on average over the readings.
 */
export function withReadings(
  charts: readonly DayChart[],
  season: ComputedSeason,
  filled: FilledRoom,
  days: CardDays,
  readings: RoomReadings | undefined,
  units: DisplayUnits,
): DayChart[] {
  if (!readings) return [...charts];
  return charts.map((chart) => {
    const read = (READ_LINES[chart.id] ?? []).flatMap((line) => readLine(line, readings, days, units));
    if (read.length === 0) return chart;
    const apart = (READ_LINES[chart.id] ?? []).flatMap((line) =>
      howFarApart(line, season, filled, readings, days, units),
    );
    const values = read.flatMap((line) => line.values.filter((value) => value !== null));
    // The gas scale ends above the set-points: air on its way down is cut off there, read or computed.
    const widens = chart.id !== 'gas';
    return {
      ...chart,
      lines: [...chart.lines, ...read],
      top: widens ? Math.max(chart.top, ...values) : chart.top,
      bottom: widens ? Math.min(chart.bottom, ...values) : chart.bottom,
      description: [chart.description, 'Points are the means of what was read each day.', ...apart].join(' '),
    };
  });
}

function readLine(
  { quantity, name, look, unit, decimals }: ReadLine,
  readings: RoomReadings,
  { first, count }: CardDays,
  units: DisplayUnits,
): DayLine[] {
  const values: (number | null)[] = Array.from({ length: count }, () => null);
  for (const { day, mean } of daysOf(readings, quantity)) {
    const shown = measure(mean, unit, units)?.value;
    if (day >= first && day < first + count && shown !== undefined)
      values[day - first] = Number(shown.toFixed(decimals));
  }
  return values.some((value) => value !== null) ? [{ name, look, values }] : [];
}

function howFarApart(
  { quantity, name, unit }: ReadLine,
  season: ComputedSeason,
  filled: FilledRoom,
  readings: RoomReadings,
  { first, count }: CardDays,
  units: DisplayUnits,
): string[] {
  const values = readings.values[quantity];
  const read = new Set<number>();
  const differences: number[] = [];
  readings.times.forEach((time, index) => {
    const [value = Number.NaN, day] = [values[index], Math.floor(time / MINUTES_A_DAY)];
    if (Number.isNaN(value) || day < first || day >= first + count) return;
    const expected = expectedAt(season, filled, quantity, time);
    if (expected === undefined) return;
    differences.push(value - expected);
    read.add(day);
  });
  if (differences.length === 0) return [];
  const mean = differences.reduce((sum, one) => sum + one, 0) / differences.length;
  const zero = measure(0, unit, units)?.value ?? 0;
  const shown = (measure(mean, unit, units)?.value ?? mean) - zero;
  const over = `on average of ${counted(read.size, 'day')}`;
  if (Math.abs(shown) < SMALLEST / 2) return [`${capital(name)} is what is computed, ${over}.`];
  const amount = `${fixed(Math.abs(shown), 2)} ${unitLabel(unit, units)}`;
  const side = shown < 0 ? 'below' : 'above';
  return [`${capital(name)} lies ${amount} ${side} what is computed, ${over}.`];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
