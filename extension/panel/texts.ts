import type { ScrubberSeries, SupplySeries, TimelineView } from '../../src/report/timeline-types';

/** A whole number with commas between thousands. */
export function whole(value: number): string {
  return Math.round(value).toLocaleString('en-GB');
}

/** A number on a scale: `12,000`, `1.5`. */
export function scaleText(value: number): string {
  return value.toLocaleString('en-GB', { maximumFractionDigits: 2 });
}

/** Demand against supply in one week. */
export function supplyWeekText(view: TimelineView, series: SupplySeries, week: number): string {
  const wanted = series.demand[week] ?? 0;
  const supplied = series.supply[week];
  const start = `${view.weeks[week] ?? ''}, ${series.name}: ${whole(wanted)} cartons wanted`;
  if (supplied === undefined) return `${start}. No release schedule.`;
  const surplus = series.surplus?.[week] ?? 0;
  const short = series.short.includes(week) ? `, ${whole(wanted - supplied)} short` : '';
  const chance = series.chance && `; short in ${chanceText(series.chance[week] ?? 0)} of the seasons drawn`;
  return `${start}, ${whole(supplied)} supplied${short}${surplus >= 0.5 ? `, ${whole(surplus)} to processing` : ''}${chance ?? ''}.`;
}

/** A share of the seasons drawn; what is small and not nothing is told as such. */
export function chanceText(share: number): string {
  return share > 0 && share < 0.01 ? 'less than 1 %' : `${whole(100 * share)} %`;
}

/** Every scrubber's load in one week. */
export function scrubberWeekText(view: TimelineView, week: number): string {
  return loadWeekText(view, view.scrubbers, 'scrubber load', week);
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
    return [`${name} ${whole(value)} %${value > limit ? ` (limit ${whole(limit)} %)` : ''}`];
  });
  return `${view.weeks[week] ?? ''}, ${what}: ${loads.length > 0 ? loads.join(', ') : 'not known'}.`;
}

/** The first sentence, and the rest. */
export function firstSentence(text: string): readonly [first: string, rest: string] {
  const end = text.search(/\.\s/);
  return end < 0 ? [text, ''] : [text.slice(0, end + 1), text.slice(end + 2)];
}
