import { opensIn } from '../findings/compute';
import type { ComputedSeason } from '../findings/types';
import { type Day, firstDayOfWeek, formatDay } from '../plan/dates';
import type { FilledRoom } from '../room/types';
import type { CardEvent, RoomCard } from './card-types';
import { eventsOf } from './course-report';

/** Two years: a mistyped date must not give a chart of centuries. */
const MOST_DAYS = 740;
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** The days that a room's card tells, from the first bin to the opening. */
export interface CardDays {
  readonly first: Day;
  readonly count: number;
}

/** First bin, else sealing, to the opening; without one to the end of its window, else of the season. */
export function cardDays(season: ComputedSeason, { fill }: FilledRoom): CardDays | undefined {
  const first = (fill.firstBin ?? fill.lastBin ?? fill.sealed)?.value;
  if (first === undefined) return undefined;
  const course = season.courses?.courses.get(fill.id);
  const opens = opensIn(season)?.get(fill.id) ?? fill.open?.value;
  const latest = season.keeping.get(fill.id)?.window?.latest.week;
  const last =
    (course && course.sealed + Math.floor(course.room.untilHours / 24)) ??
    weekStart(opens) ??
    weekStart(latest) ??
    season.plan.season?.ends?.value;
  if (last === undefined || last <= first) return undefined;
  return { first, count: Math.min(MOST_DAYS, last - first + 1) };
}

function weekStart(week: number | undefined): Day | undefined {
  return week === undefined ? undefined : firstDayOfWeek(week);
}

export function dayLabels({ first, count }: CardDays): string[] {
  return Array.from({ length: count }, (_, index) => formatDay(first + index));
}

/** Where months begin, the year with January and the first. */
export function monthsAmong(labels: readonly string[]): RoomCard['months'] {
  const found: { day: number; label: string }[] = [];
  labels.forEach((label, day) => {
    const [year = '', month = '', date = ''] = label.split('-');
    if (date !== '01') return;
    const name = MONTHS[Number(month) - 1] ?? '';
    found.push({ day, label: found.length === 0 || month === '01' ? `${name} ${year}` : name });
  });
  return found;
}

/** A value for each day; null where there is none, or no finite one. */
export function valuesOn(
  { first, count }: CardDays,
  of: (day: Day) => number | undefined,
  decimals: number,
): (number | null)[] {
  const step = 10 ** decimals;
  return Array.from({ length: count }, (_, index) => {
    const value = of(first + index);
    return value === undefined || !Number.isFinite(value) ? null : Math.round(value * step) / step;
  });
}

/** Sealing, what the course tells, and the opening, each at its day. */
export function cardEvents(season: ComputedSeason, { fill }: FilledRoom, days: CardDays): RoomCard['events'] {
  const course = season.courses?.courses.get(fill.id);
  const opens = opensIn(season)?.get(fill.id) ?? fill.open?.value;
  const all = [
    ...(fill.firstBin ? [{ at: fill.firstBin.value, what: 'first bin' }] : []),
    ...(fill.lastBin ? [{ at: fill.lastBin.value, what: 'last bin' }] : []),
    ...(fill.sealed ? [{ at: fill.sealed.value, what: 'sealed' }] : []),
    ...(course
      ? eventsOf(course).map(({ hours, what }) => ({ at: course.sealed + Math.floor(hours / 24), what }))
      : []),
    ...(opens === undefined ? [] : [{ at: firstDayOfWeek(opens), what: 'opens' }]),
  ];
  return all
    .map(({ at, what }) => ({ day: at - days.first, what, ...kindOf(what) }))
    .filter(({ day }) => day >= 0 && day < days.count)
    .sort((a, b) => a.day - b.day);
}

function kindOf(what: string): Pick<CardEvent, 'kind'> {
  if (what === 'sealed' || what === 'opens') return { kind: what };
  return what.startsWith('oxygen at its set-point') ? { kind: 'set-point' } : {};
}
