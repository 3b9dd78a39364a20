import type { ScrubberSeries, SupplySeries, TimelineView } from '../../src/report/timeline-types';
import { filled, numberText, say, weekName } from './words';

/** A whole number with its thousands apart, as the language has them. */
export function whole(value: number): string {
  return numberText(Math.round(value), 0);
}

/** A number on a scale: `12,000`, `1.5`. */
export function scaleText(value: number): string {
  return numberText(value, 2);
}

/** Decimals beyond which a round value of an axis has none. */
const MOST_DECIMALS = 10;

/** The values along one axis, none rounded, all with as many decimals: `-0.325`, `-0.300`. */
export function axisTexts(values: readonly number[]): string[] {
  const decimals = Math.max(0, ...values.map(decimalsOf));
  return values.map((value) => numberText(value, decimals, decimals));
}

function decimalsOf(value: number): number {
  let decimals = 0;
  while (decimals < MOST_DECIMALS && Number(value.toFixed(decimals)) !== value) decimals += 1;
  return decimals;
}

/** Demand against supply in one week. */
export function supplyWeekText(view: TimelineView, series: SupplySeries, week: number): string {
  const wanted = series.demand[week] ?? 0;
  const supplied = series.supply[week];
  const start = `${weekName(view.weeks[week])}, ${series.name}: ${filled(say.cartonsWanted, whole(wanted))}`;
  if (supplied === undefined) return `${start}. ${say.noSchedule}`;
  const surplus = series.surplus?.[week] ?? 0;
  const parts = [
    start,
    filled(say.cartonsSupplied, whole(supplied)),
    ...(series.short.includes(week) ? [filled(say.cartonsShort, whole(wanted - supplied))] : []),
    ...(surplus >= 0.5 ? [filled(say.cartonsProcessed, whole(surplus))] : []),
  ];
  const chance = series.chance && `; ${filled(say.shortInSeasons, chanceText(series.chance[week] ?? 0))}`;
  return `${parts.join(', ')}${chance ?? ''}.`;
}

/** A share of the seasons drawn; what is small and not nothing is told as such. */
export function chanceText(share: number): string {
  return share > 0 && share < 0.01 ? say.lessThanOne : `${whole(100 * share)} %`;
}

/** Every scrubber's load in one week. */
export function scrubberWeekText(view: TimelineView, week: number): string {
  return loadWeekText(view, view.scrubbers, say.scrubberLoad, week);
}

/** The load of every piece of equipment of a kind in one week. */
export function loadWeekText(
  view: TimelineView,
  series: readonly ScrubberSeries[],
  what: string,
  week: number,
): string {
  const loads = series.flatMap(({ name, share, limit }) => {
    const value = share[week];
    if (value === undefined || value === null) return [];
    return [`${name} ${whole(value)} %${value > limit ? ` (${filled(say.limit, whole(limit))})` : ''}`];
  });
  return `${weekName(view.weeks[week])}, ${what}: ${loads.length > 0 ? loads.join(', ') : say.notKnown}.`;
}

/** The first sentence, and the rest. */
export function firstSentence(text: string): readonly [first: string, rest: string] {
  const end = text.search(/\.\s/);
  return end < 0 ? [text, ''] : [text.slice(0, end + 1), text.slice(end + 2)];
}
