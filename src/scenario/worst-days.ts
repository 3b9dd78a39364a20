import { type Day, formatDay } from '../plan/dates';
import { hoursBetween } from '../plant/nitrogen-hours';
import { nitrogenQueue } from '../plant/nitrogen-queue';
import { loadOnDay } from '../plant/scrubber-load';
import type { NitrogenSeason, ScrubberSeason } from '../plant/types';
import { daysOfWeek, type Openings } from '../plant/weeks';

/** Consecutive days, both included, and the work asked of a machine on them together. */
export interface WorstDays {
  readonly first: Day;
  readonly last: Day;
  /** Hours of nitrogen, or kilograms of carbon dioxide. */
  readonly asked: number;
}

/** Less is rounding. */
const LEAST = 1e-9;

/**
 * The consecutive days on which most is asked. They begin on a day on which something is: a machine that stands still
 * before it is needed holds nothing up. Of several alike the first. Undefined where nothing is asked on any day.
 */
export function worstDays(askedOn: ReadonlyMap<Day, number>, days: number): WorstDays | undefined {
  let worst: WorstDays | undefined;
  for (const first of [...askedOn.keys()].sort((a, b) => a - b)) {
    if ((askedOn.get(first) ?? 0) <= LEAST) continue;
    let asked = 0;
    for (let day = first; day < first + days; day++) asked += askedOn.get(day) ?? 0;
    if (asked > (worst?.asked ?? 0) + LEAST) worst = { first, last: first + days - 1, asked };
  }
  return worst;
}

/** Of what is asked on each day, that of days after the last of which something is known. */
export function daysToCome(
  askedOn: ReadonlyMap<Day, number>,
  stand: Day | undefined,
): ReadonlyMap<Day, number> {
  return stand === undefined ? askedOn : new Map([...askedOn].filter(([day]) => day > stand));
}

/** Hours that a source works on each day: the flushes of its rooms from their sealing on, one after another. */
export function nitrogenByDay({ source, rooms }: NitrogenSeason): Map<Day, number> {
  const { turns } = nitrogenQueue(source, rooms);
  const hours = new Map<Day, number>();
  for (const turn of turns) {
    // A flush of more than a year is a mistyped number.
    const last = Math.min(turn.days.last, turn.days.first + 366);
    for (let day = turn.days.first; day <= last; day++)
      hours.set(day, (hours.get(day) ?? 0) + hoursBetween(turn, day, day));
  }
  return hours;
}

/** Kilograms of carbon dioxide that its rooms give a scrubber on each day of the season. */
export function carbonDioxideByDay(
  { rooms, weeks }: ScrubberSeason,
  opens: Openings | undefined,
): Map<Day, number> {
  const days = weeks.flatMap(({ week }) => daysOfWeek(week));
  return new Map(days.map((day) => [day, loadOnDay(day, rooms, opens)]));
}

/** `from 2026-10-16, when most is asked of it: 28 h of nitrogen`. */
export function worstDaysText({ first, asked }: WorstDays, of: 'nitrogen' | 'carbon dioxide'): string {
  const unit = of === 'nitrogen' ? 'h' : 'kg';
  const much = asked < 10 ? asked.toFixed(1) : asked.toFixed(0);
  return `from ${formatDay(first)}, when most is asked of it: ${much} ${unit} of ${of}`;
}
