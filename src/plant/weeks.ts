import { type Day, firstDayOfWeek, type Week, weekOfDay } from '../plan/dates';
import type { Plan } from '../plan/model';
import type { FilledRoom } from '../room/types';

/** Two years: more than any season, so that a mistyped year cannot make the tool count for hours. */
const MOST_WEEKS = 106;

/** First and last week of a season, inclusive. */
export interface SeasonWeeks {
  readonly firstWeek: Week;
  readonly lastWeek: Week;
}

/** Undefined where the plan does not say when its season starts and ends, or says it the wrong way round. */
export function seasonWeeks(plan: Plan): SeasonWeeks | undefined {
  const { starts, ends } = plan.season ?? {};
  if (!starts || !ends) return undefined;
  const [firstWeek, lastWeek] = [weekOfDay(starts.value), weekOfDay(ends.value)];
  return lastWeek >= firstWeek && lastWeek - firstWeek < MOST_WEEKS ? { firstWeek, lastWeek } : undefined;
}

export function weeksOf({ firstWeek, lastWeek }: SeasonWeeks): Week[] {
  return Array.from({ length: lastWeek - firstWeek + 1 }, (_, index) => firstWeek + index);
}

export function daysOfWeek(week: Week): Day[] {
  return Array.from({ length: 7 }, (_, index) => firstDayOfWeek(week) + index);
}

/** By fill identifier: the week a room opens, where a schedule or the plan says so. */
export type Openings = ReadonlyMap<string, Week>;

/** The week a room opens: by the schedule, else as pinned; undefined for one that holds to the season's end. */
export function openingWeek({ fill }: FilledRoom, opens: Openings | undefined): Week | undefined {
  return opens?.get(fill.id) ?? fill.open?.value;
}
