import type { DayChart, DayLine, RoomCard } from '../../src/report/card-types';
import { filled, say, withSign } from './words';

/** Where a card's charts have their lines and labels: shares of a width and a height, zero at the left and the top. */

/** A line as the path of a drawing area a hundred wide and high; it is lifted where a value is missing. */
export function linePath(values: readonly (number | null)[], { bottom, top }: Scale): string {
  const last = Math.max(1, values.length - 1);
  let drawn = false;
  const parts: string[] = [];
  values.forEach((value, day) => {
    if (value === null) {
      drawn = false;
      return;
    }
    const [x, y] = [round((100 * day) / last), round(100 * heightOf(value, { bottom, top }))];
    parts.push(`${drawn ? 'L' : 'M'}${x} ${y}`);
    // A day alone would be a line without length.
    if (!drawn && (values[day + 1] ?? null) === null) parts.push(`h0.01`);
    drawn = true;
  });
  return parts.join(' ');
}

/** A point for each value: strokes without length, which round caps make dots. */
export function pointsPath(values: readonly (number | null)[], scale: Scale): string {
  const last = Math.max(1, values.length - 1);
  return values
    .flatMap((value, day) =>
      value === null ? [] : [`M${round((100 * day) / last)} ${round(100 * heightOf(value, scale))}h0.01`],
    )
    .join(' ');
}

/** Looks that are points and not lines: what was read. */
export function isPoints(look: DayLine['look']): boolean {
  return look.endsWith('-read');
}

export interface Scale {
  readonly bottom: number;
  readonly top: number;
}

/** From the top of the scale, 0, to its bottom, 1; outside that where the value is outside the scale. */
export function heightOf(value: number, { bottom, top }: Scale): number {
  return top > bottom ? (top - value) / (top - bottom) : 0.5;
}

/** Round values on the scale, at most five, the lowest first. */
export function valueTicks({ bottom, top }: Scale): number[] {
  const span = top - bottom;
  if (!(span > 0) || !Number.isFinite(span)) return [];
  const power = 10 ** Math.floor(Math.log10(span / 4));
  const step = ([1, 2, 2.5, 5, 10].find((factor) => span / (factor * power) <= 5) ?? 10) * power;
  const first = Math.ceil(bottom / step - 1e-9);
  const last = Math.floor(top / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, index) =>
    Number(((first + index) * step).toPrecision(10)),
  );
}

/** Months, and the first day, as far as their labels have room; at as a share of the width. */
export function dayTicks(
  { days, months }: Pick<RoomCard, 'days' | 'months'>,
  width: number,
): readonly { readonly at: number; readonly label: string }[] {
  const last = Math.max(1, days.length - 1);
  const first = days[0];
  const all = [...(first === undefined ? [] : [{ day: 0, label: first }]), ...months];
  let free = 0;
  return all.flatMap(({ day, label }) => {
    const left = (day / last) * width;
    const needs = label.length * CHARACTER + GAP;
    if (left < free || left + needs > width) return [];
    free = left + needs;
    return [{ at: day / last, label }];
  });
}

/** Pixels of a letter of small type, and between two labels. */
const CHARACTER = 6.4;
const GAP = 10;

/** The day under a place at a share of the width. */
export function dayAt(share: number, days: number): number {
  return Math.max(0, Math.min(days - 1, Math.round(share * (days - 1))));
}

/** A chart's values on a day in words. */
export function dayText(card: Pick<RoomCard, 'days' | 'events'>, chart: DayChart, day: number): string {
  const told = chart.lines.flatMap(({ name, look, values }) => {
    const value = values[day];
    if (look === 'batch' || value === null || value === undefined) return [];
    return [`${name} ${valueText(value, chart)}`];
  });
  const batches = batchText(chart, day);
  const events = card.events.flatMap((event) => (event.day === day ? [event.what] : []));
  const values = [...batches, ...told].join(', ');
  const happens = events.length === 0 ? '' : ` ${capital(events.join(', '))}.`;
  return `${card.days[day] ?? ''}: ${values === '' ? say.nothingTold : values}.${happens}`;
}

/** The fruit of the intake's days, many lines alike: the coldest and the warmest. */
function batchText(chart: DayChart, day: number): string[] {
  const values = chart.lines.flatMap(({ look, values: all }) => {
    const value = all[day];
    return look !== 'batch' || value === null || value === undefined ? [] : [value];
  });
  if (values.length === 0) return [];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const span =
    low === high ? valueText(low, chart) : filled(say.fromTo, valueText(low, chart), valueText(high, chart));
  return [
    values.length === 1 ? filled(say.fruitOfOneDay, span) : filled(say.fruitOfDays, values.length, span),
  ];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** `1.50 %`, `12.3 kW`. */
export function valueText(value: number, { decimals, unit }: Pick<DayChart, 'decimals' | 'unit'>): string {
  const text = value.toFixed(decimals);
  // A temperature a hair below zero is not minus zero.
  const plain = withSign(Number(text) === 0 ? (0).toFixed(decimals) : text);
  return unit === '' ? plain : `${plain} ${unit}`;
}

function round(value: number): number {
  return Math.round(value * 1000) / 1000;
}
