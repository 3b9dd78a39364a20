import type { ComputedSeason } from '../findings/types';
import { type Day, firstDayOfWeek, formatDay, formatWeek, type Week, weekOfDay } from '../plan/dates';
import { seasonWeeks } from '../plant/weeks';
import type { TimelineView } from './timeline-types';

/** Two years; a mistyped year must not give a chart of centuries. */
const MOST_WEEKS = 106;

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** The weeks the timeline shows, and how days and weeks lie on it. */
export interface TimeAxis {
  readonly firstWeek: Week;
  readonly weeks: number;
  /** Where a day begins, in weeks from the first; a fraction for days after a Monday. */
  at(day: Day): number;
}

/** The season's weeks; where the plan does not state its season, those its fills and openings touch. */
export function timeAxis(season: ComputedSeason): TimeAxis | undefined {
  const stated = seasonWeeks(season.plan);
  if (stated) return axis(stated.firstWeek, stated.lastWeek);
  const touched = weeksTouched(season);
  if (touched.length === 0) return undefined;
  const first = Math.min(...touched);
  return axis(first, Math.min(Math.max(...touched), first + MOST_WEEKS - 1));
}

function axis(firstWeek: Week, lastWeek: Week): TimeAxis {
  const start = firstDayOfWeek(firstWeek);
  return {
    firstWeek,
    weeks: lastWeek - firstWeek + 1,
    at: (day) => Math.round(((day - start) / 7) * 1000) / 1000,
  };
}

function weeksTouched({ filled, keeping }: ComputedSeason): Week[] {
  const ofFills = [...filled.values()].flatMap(({ fill }) => [
    ...[fill.firstBin, fill.lastBin, fill.sealed].flatMap((day) => (day ? [weekOfDay(day.value)] : [])),
    ...(fill.open ? [fill.open.value] : []),
  ]);
  const ofWindows = [...keeping.values()].flatMap(({ window }) =>
    window ? [window.earliest.week, window.latest.week] : [],
  );
  return [...ofFills, ...ofWindows].filter(Number.isFinite);
}

export function weekLabels({ firstWeek, weeks }: TimeAxis): string[] {
  return Array.from({ length: weeks }, (_, index) => formatWeek(firstWeek + index));
}

/** Each month that begins on the axis, and the one it begins in; the year stands with January and the first. */
export function monthLabels(axis: TimeAxis): TimelineView['months'] {
  const first = firstDayOfWeek(axis.firstWeek);
  const labels: { week: number; label: string }[] = [];
  for (let day = first; day < first + axis.weeks * 7; day += 1) {
    const [year = '', month = '', date = ''] = formatDay(day).split('-');
    if (date !== '01' && day !== first) continue;
    const name = MONTHS[Number(month) - 1] ?? '';
    labels.push({
      week: axis.at(day),
      label: labels.length === 0 || month === '01' ? `${name} ${year}` : name,
    });
  }
  return labels;
}

/** Where today lies; undefined outside the axis. */
export function todayOn(axis: TimeAxis, today: Day | undefined): number | undefined {
  if (today === undefined) return undefined;
  const at = axis.at(today);
  return at >= 0 && at < axis.weeks ? at : undefined;
}
