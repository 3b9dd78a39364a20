import { perCent } from '../findings/say';
import type { ComputedSeason } from '../findings/types';
import { chanceWhenOpened } from '../keeping/by-confidence';
import { formatWeek, type Week } from '../plan/dates';
import { weeklyLoad } from '../plant/scrubber-load';
import type { ScrubberSeason } from '../plant/types';
import type { Openings } from '../plant/weeks';
import { isOpened } from '../release/pins';
import { type OpenedIn, openedIn, reasonIn } from '../release/reasons';
import { Standing } from '../release/standing';
import type { ReleaseProblem, ReleaseSchedule } from '../release/types';
import { otherWeekJson, reasonJson } from './reason-json';
import { otherText, reasonText } from './reason-text';
import { percent } from './timeline-drawn';

/** What is said of a room's week, and whether something stands against it. */
export interface WeekAccount {
  readonly text: string;
  /** True where the plan's own limits would be broken. */
  readonly breaks: boolean;
}

/** A share that moves by less is not worth a word, per cent of capacity. */
const NOTABLE_SHARE = 0.5;

/** Why a fill's room opens in its week, by solving a week earlier and later anew; undefined without a schedule for it. */
export function whyItsWeek(season: ComputedSeason, fill: string): WeekAccount | undefined {
  const found = roomOf(season, fill);
  if (!found) return undefined;
  const { problem, schedule, room } = found;
  const opens = schedule.opens[room] ?? null;
  const reason = reasonJson(season.plan, problem, reasonIn(standingOf(problem, schedule), room));
  const week = opens === null ? undefined : formatWeek(problem.firstWeek + opens);
  const text = reasonText(
    { ...(week !== undefined && { opens: week }), reason },
    season.plan.season?.currency ?? '',
  );
  const chance =
    opens === null || reason.opened ? undefined : chanceText(season, fill, problem.firstWeek + opens);
  return { text: [sentence(text), chance].filter((part) => part !== undefined).join(' '), breaks: false };
}

/**
 * What opening a fill's room in another week would do, every other room as it is: to value and shortage, to the plan's
 * limits, to the packhouse and to its scrubber. Undefined without a schedule for it.
 */
export function whatIfOpened(season: ComputedSeason, fill: string, week: Week): WeekAccount | undefined {
  const found = roomOf(season, fill);
  if (!found) return undefined;
  const { problem, schedule, room } = found;
  const at = week - problem.firstWeek;
  if (schedule.opens[room] === at) return whyItsWeek(season, fill);
  if (isOpened(problem, room)) {
    const why = whyItsWeek(season, fill);
    return why && { ...why, breaks: true };
  }
  const standing = standingOf(problem, schedule);
  const other = openedIn(standing, room, at);
  const json = otherWeekJson(problem, other);
  const text = otherText('opening it then', json, season.plan.season?.currency ?? '');
  const load = packhouseText(standing, room, other);
  const gas = scrubberText(season, fill, week);
  // A pin is no hindrance where it is the pin itself that is being moved.
  return {
    text: [sentence(text), chanceText(season, fill, week), load, gas]
      .filter((part) => part !== undefined)
      .join(' '),
    breaks: other.cost === undefined || other.breaks.some(({ kind }) => kind !== 'pin'),
  };
}

function roomOf({ release }: ComputedSeason, fill: string) {
  const room = release?.problem.rooms.findIndex((one) => one.fill === fill) ?? -1;
  if (!release || room < 0) return undefined;
  return { problem: release.problem, schedule: release.result.schedule, room };
}

/** How sure it is that the fruit is within standard to the last week of packing; undefined where that is not known. */
function chanceText({ plan, keeping }: ComputedSeason, fill: string, week: Week): string | undefined {
  const room = keeping.get(fill);
  const chance = room && chanceWhenOpened(plan, room, week);
  if (chance === undefined) return undefined;
  const share = chance > 0.99 && chance < 1 ? 'more than 99 %' : percent(chance);
  return `All of its fruit is within standard until it is packed out with a chance of ${share}.`;
}

/** How full the packhouse is in the fullest of the weeks in which it then packs the room; undefined where it cannot. */
function packhouseText(
  { problem, schedule, free }: Standing,
  room: number,
  { week, packed }: OpenedIn,
): string | undefined {
  let fullest: { readonly week: Week; readonly share: number } | undefined;
  for (let since = 0; since < (packed?.length ?? 0); since++) {
    const bins = packed?.[since] ?? 0;
    const most = problem.packingBins[week + since] ?? 0;
    if (bins <= 0 || !(most > 0)) continue;
    const others = most - (free[week + since] ?? 0) - (schedule.packed[room]?.[week + since] ?? 0);
    const share = (100 * (others + bins)) / most;
    if (share > (fullest?.share ?? 0)) fullest = { week: problem.firstWeek + week + since, share };
  }
  return (
    fullest &&
    `The packhouse then runs at ${perCent(fullest.share)} in ${formatWeek(fullest.week)}, the fullest of the weeks in which it packs this room.`
  );
}

/** How the heaviest week of the room's scrubber changes; a room kept shut longer is scrubbed longer. */
function scrubberText(season: ComputedSeason, fill: string, week: Week): string | undefined {
  const { filled, release, plant } = season;
  const id = filled.get(fill)?.room.scrubber?.value;
  const scrubber = plant?.scrubbers.find((one) => one.scrubber.id === id);
  const was = scrubber?.peak?.share?.value;
  if (!release || !scrubber || was === undefined) return undefined;
  const opens = new Map(
    release.problem.rooms.flatMap((room, index) => {
      const opened = release.result.schedule.opens[index] ?? null;
      return opened === null ? [] : [[room.fill, release.problem.firstWeek + opened] as const];
    }),
  );
  const moved = heaviestWeek(scrubber, new Map([...opens, [fill, week]]));
  if (!moved || Math.abs(moved.share - was) < NOTABLE_SHARE) return undefined;
  return `Scrubber ${id} then works at ${perCent(moved.share)} in its heaviest week, ${formatWeek(moved.week)}, instead of ${perCent(was)}.`;
}

/** Its heaviest week for other openings. What it can remove stays: it is the same rooms' levels. */
export function heaviestWeek(
  { weeks, rooms, capacity }: ScrubberSeason,
  opens: Openings,
): { readonly week: Week; readonly share: number } | undefined {
  if (!capacity || !(capacity.value > 0)) return undefined;
  let heaviest: { week: Week; load: number } | undefined;
  for (const { week } of weeks) {
    const load = weeklyLoad(week, rooms, opens).value;
    if (load > (heaviest?.load ?? 0)) heaviest = { week, load };
  }
  return heaviest && { week: heaviest.week, share: (100 * heaviest.load) / capacity.value };
}

const standings = new WeakMap<ReleaseSchedule, Standing>();

/**
 * Made once for a schedule: while an opening is dragged, week after week is asked about. Selling all of it as is best
 * takes most of the time, so whoever asks why a room opens in its week has it made before a drag begins.
 */
function standingOf(problem: ReleaseProblem, schedule: ReleaseSchedule): Standing {
  const standing = standings.get(schedule) ?? new Standing(problem, schedule);
  standings.set(schedule, standing);
  return standing;
}

function sentence(text: string): string {
  const first = text.charAt(0).toUpperCase() + text.slice(1);
  return first.endsWith('.') ? first : `${first}.`;
}
