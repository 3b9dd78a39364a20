import type { ComputedSeason } from '../../findings/types';
import { type Day, firstDayOfWeek, type Week } from '../../plan/dates';
import { figureWith } from '../../plan/figure';
import { asksOf, scrubbingPower, shareNeeded } from '../../plant/scrubber-asks';
import type { ScrubberTurns } from '../../plant/scrubber-turns';
import { limeChanges } from '../../room/course/lime';
import type { ScrubbingTurn } from './account';

/** Turns that differ by less are told as one: nobody sets a scrubber by the minute. */
const LEAST_CHANGE_HOURS = 1;

/** Each room's turn at its scrubber, and from which week it is another one. Lime has no turns. */
export function scrubbingTurns(season: ComputedSeason): ScrubbingTurn[] {
  return (season.courses?.scrubbers ?? [])
    .filter(({ scrubber }) => scrubber.kind !== 'lime')
    .flatMap((one) =>
      one.rooms.flatMap(({ course }) => turnsOfRoom(season, one, course.fill, course.sealed)),
    );
}

function turnsOfRoom(season: ComputedSeason, all: ScrubberTurns, fill: string, sealed: Day): ScrubbingTurn[] {
  const room = season.filled.get(fill)?.room.id;
  if (room === undefined) return [];
  const turns: { first: Week; last: Week; hours: number[] }[] = [];
  for (const { week, hours } of all.weeks) {
    const found = hours.find((one) => one.fill === fill)?.hoursADay;
    if (found === undefined) continue;
    const given = found * partOfWeek(week, sealed);
    const open = turns.at(-1);
    if (open && open.last === week - 1 && Math.abs(given - (open.hours[0] ?? 0)) < LEAST_CHANGE_HOURS) {
      open.last = week;
      open.hours.push(given);
    } else turns.push({ first: week, last: week, hours: [given] });
  }
  return turns.map(({ first, last, hours }) => ({
    scrubber: all.scrubber.id,
    room,
    fill,
    first,
    last,
    hoursADay: Math.min(24, Math.round(10 * Math.max(...hours)) / 10),
    hoursNeeded: Math.round(10 * hoursNeeded(all, fill, first, last)) / 10,
  }));
}

/** Hours a day that holding a room at its set-point takes in the week that takes most, mean of the days it is sealed. */
function hoursNeeded({ scrubber, rooms }: ScrubberTurns, fill: string, first: Week, last: Week): number {
  const served = rooms.find(({ course }) => course.fill === fill)?.served;
  const asks = served && asksOf(served);
  const power = scrubbingPower(scrubber);
  if (!asks || !power) return 0;
  let most = 0;
  for (let week = first; week <= last; week++) {
    const begins = firstDayOfWeek(week);
    const from = Math.max(begins, asks.sealed);
    const until = Math.min(begins + 7, asks.sealed + asks.removed.length);
    let sum = 0;
    for (let day = from; day < until; day++) sum += shareNeeded(asks, power, day);
    if (until > from) most = Math.max(most, (sum / (until - from)) * scrubber.hoursADay.value);
  }
  return most;
}

/** A week's mean counts the days before sealing as none. */
function partOfWeek(week: Week, sealed: Day): number {
  const days = Math.min(7, firstDayOfWeek(week + 1) - sealed);
  return days > 0 ? 7 / days : 1;
}

/** Days on which a scrubber's lime has to be changed, with the rooms it serves. */
export interface LimeChange {
  readonly scrubber: string;
  readonly fills: readonly string[];
  readonly days: readonly Day[];
}

/** A charge that several rooms share is used up by all of them: each has its part of it. */
export function limeChangesOf(season: ComputedSeason): LimeChange[] {
  return (season.courses?.scrubbers ?? []).flatMap(({ scrubber, rooms }) => {
    const charge = season.plan.scrubbers.get(scrubber.id)?.charge;
    const [first] = rooms;
    if (scrubber.kind !== 'lime' || !charge || !first) return [];
    const all = rooms.reduce((sum, { course }) => sum + course.scrubbed.value, 0);
    const part = figureWith(charge, { value: (charge.value * first.course.scrubbed.value) / all });
    const days = limeChanges(first.course, part);
    return days.length === 0
      ? []
      : [{ scrubber: scrubber.id, fills: rooms.map(({ course }) => course.fill), days }];
  });
}
