import type { LessonPicture, LessonPicturePoint } from '../../src/report/card-types';
import { heightOf, type Scale, valueTicks } from './day-layout';

/** Where the picture of a lesson has its points, its curve and the band about it: a drawing area a hundred wide and high. */
export interface LessonLayout {
  /** Values on the scale, with their height from the top. */
  readonly ticks: readonly { readonly value: number; readonly y: number }[];
  /** Between the limits, a closed path. */
  readonly band: string;
  readonly curve: string;
  /** What was seen: strokes without length, which round caps make dots. */
  readonly dots: string;
  /** The first and the last point's label. */
  readonly ends: readonly [string, string];
}

/** Room above and below the outermost value, as a share of what lies between. */
const MARGIN = 0.08;
/** Half the width of a point that stands alone. */
const ALONE = 12;

export function lessonLayout({ points }: LessonPicture): LessonLayout {
  const scale = scaleOf(points);
  const places = placesOf(points);
  const y = (value: number) => round(100 * heightOf(value, scale));
  const at = (x: number, value: number) => `${x} ${y(value)}`;
  const wide = widened(points, places);
  const [there, back] = [
    wide.map(([x, { high }]) => at(x, high)),
    [...wide].reverse().map(([x, { low }]) => at(x, low)),
  ];
  const seen = points.flatMap((point, index) =>
    point.seen === null ? [] : [`M${at(places[index] ?? 0, point.seen)}h0.01`],
  );
  return {
    ticks: valueTicks(scale).map((value) => ({ value, y: y(value) })),
    band: points.length === 0 ? '' : `M${[...there, ...back].join('L')}Z`,
    curve: points.length === 0 ? '' : `M${wide.map(([x, { fitted }]) => at(x, fitted)).join('L')}`,
    dots: seen.join(' '),
    ends: [points[0]?.label ?? '', points.length > 1 ? (points.at(-1)?.label ?? '') : ''],
  };
}

function scaleOf(points: readonly LessonPicturePoint[]): Scale {
  const values = points.flatMap(({ seen, low, high }) => [low, high, ...(seen === null ? [] : [seen])]);
  const [bottom, top] = [Math.min(...values), Math.max(...values)];
  if (!Number.isFinite(bottom)) return { bottom: 0, top: 1 };
  const margin = MARGIN * (top - bottom) || Math.max(1e-3, Math.abs(top) * MARGIN);
  return { bottom: bottom - margin, top: top + margin };
}

/** By time; side by side where all are of one day. */
function placesOf(points: readonly LessonPicturePoint[]): number[] {
  const days = points.map(({ at }) => at);
  const [first, last] = [Math.min(...days), Math.max(...days)];
  // A little room at both ends, so that no dot is cut.
  const inside = (share: number) => round(3 + 94 * share);
  if (points.length < 2) return points.map(() => 50);
  if (first === last) return points.map((_, index) => inside(index / (points.length - 1)));
  return days.map((day) => inside((day - first) / (last - first)));
}

/** The curve's places from left to right; one point alone gets some width, or its band could not be seen. */
function widened(
  points: readonly LessonPicturePoint[],
  places: readonly number[],
): (readonly [number, LessonPicturePoint])[] {
  const [only] = points;
  if (only && points.length === 1)
    return [
      [50 - ALONE, only],
      [50 + ALONE, only],
    ];
  return points.map((point, index) => [places[index] ?? 0, point] as const).sort(([a], [b]) => a - b);
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
