import type { ComputedSeason } from '../findings/types';
import type { OpeningWindow } from '../keeping/types';
import { formatWeek, type Week, weekOfDay } from '../plan/dates';
import type { Fill } from '../plan/model';
import type { FilledRoom } from '../room/types';
import { LEAST_AMOUNT } from './amounts';
import type { TimelineRow } from './timeline-types';
import type { TimeAxis } from './timeline-weeks';

/** When a room opens and is packed out, as ISO weeks. */
export interface RoomOpening {
  readonly week: Week;
  readonly pinned: boolean;
  /** Chosen by the schedule, not pinned, and before today's week. */
  readonly passed?: true;
  /** It has been opened in that week. */
  readonly opened?: true;
  /** Last week in which it is packed. */
  readonly emptyBy: Week | undefined;
}

/** A room's opening by the schedule; without a schedule, as pinned in the plan. `thisWeek` is today's week. */
export function openingOf(
  { plan, release }: ComputedSeason,
  filled: FilledRoom,
  thisWeek?: Week,
): RoomOpening | undefined {
  const { fill } = filled;
  if (fill.opened) return openedInFact(fill, release, plan);
  const at = release?.problem.rooms.findIndex((room) => room.fill === fill.id) ?? -1;
  const room = release?.problem.rooms[at];
  if (!release || !room) {
    if (!fill.open) return undefined;
    const weeks = Math.max(1, Math.ceil((plan.packing?.daysToEmpty.value ?? 7) / 7));
    return { week: fill.open.value, pinned: true, emptyBy: fill.open.value + weeks - 1 };
  }
  const { firstWeek } = release.problem;
  const { opens, packed } = release.result.schedule;
  const opened = opens[at];
  if (opened === undefined || opened === null) return undefined;
  const week = firstWeek + opened;
  const isPinned = room.pinned === opened || fill.open?.value === week;
  const last = (packed[at] ?? []).findLastIndex((bins) => bins >= LEAST_AMOUNT);
  return {
    week,
    pinned: isPinned,
    ...(thisWeek !== undefined && week < thisWeek && !isPinned && { passed: true }),
    emptyBy: last < 0 ? undefined : firstWeek + last,
  };
}

/** The opening of a room that has been opened, and the week it was or will be empty in. */
function openedInFact(
  fill: Fill,
  release: ComputedSeason['release'],
  plan: ComputedSeason['plan'],
): RoomOpening | undefined {
  if (!fill.open) return undefined;
  const week = fill.open.value;
  const at = release?.problem.rooms.findIndex((room) => room.fill === fill.id) ?? -1;
  const last = (release?.result.schedule.packed[at] ?? []).findLastIndex((bins) => bins >= LEAST_AMOUNT);
  const planned = release && last >= 0 ? release.problem.firstWeek + last : undefined;
  const emptyBy = fill.emptied ? weekOfDay(fill.emptied.value) : (planned ?? lastPacked(plan, fill.id));
  return { week, pinned: true, opened: true, emptyBy };
}

function lastPacked(plan: ComputedSeason['plan'], fill: string): Week | undefined {
  const days = [...plan.packed.values()].flatMap((run) =>
    run.fill?.value === fill && run.day ? [run.day.value] : [],
  );
  return days.length === 0 ? undefined : weekOfDay(Math.max(...days));
}

/** The week that could be written into the fill: the schedule opens it, and the fill has no `open` of its own. */
export function pinFor(
  { release }: ComputedSeason,
  { fill }: FilledRoom,
  opening: RoomOpening | undefined,
): string | undefined {
  if (!release || !opening || opening.pinned || fill.open || fill.places.entries?.has('open'))
    return undefined;
  return formatWeek(opening.week);
}

type Stages = Pick<TimelineRow, 'filling' | 'pullDown' | 'keeping' | 'window' | 'opens' | 'emptying'>;

/** The stages of a room's season, where the plan tells them, in weeks on the axis. */
export function stagesOf(
  season: ComputedSeason,
  filled: FilledRoom,
  opening: RoomOpening | undefined,
  axis: TimeAxis,
): Stages {
  const { fill } = filled;
  const window = season.keeping.get(fill.id)?.window;
  const firstBin = fill.firstBin?.value ?? fill.lastBin?.value;
  const lastBin = fill.lastBin?.value ?? fill.firstBin?.value;
  const allIn = lastBin === undefined ? undefined : axis.at(lastBin + 1);
  const pullDown = pullDownOf(filled, axis);
  const keptFrom = pullDown?.to ?? (fill.sealed ? axis.at(fill.sealed.value) : allIn);
  const keptTo = endOfKeeping(opening, window, axis);
  return {
    ...part('filling', firstBin === undefined ? undefined : axis.at(firstBin), allIn),
    ...(pullDown && { pullDown }),
    ...part('keeping', keptFrom, keptTo),
    ...(window && { window: windowOn(window, axis) }),
    ...(opening && {
      opens: {
        week: opening.week - axis.firstWeek,
        pinned: opening.pinned,
        ...(opening.passed && { passed: opening.passed }),
        ...(fill.open && { target: fill.open.at }),
      },
      ...part(
        'emptying',
        opening.week - axis.firstWeek,
        (opening.emptyBy ?? opening.week) + 1 - axis.firstWeek,
      ),
    }),
  };
}

/** From sealing until nitrogen and the fruit itself have brought the oxygen down. */
function pullDownOf({ fill, nitrogenHours, respirationHours }: FilledRoom, axis: TimeAxis) {
  const hours = (nitrogenHours?.value ?? 0) + (respirationHours?.value ?? 0);
  if (!fill.sealed || !Number.isFinite(hours) || hours <= 0) return undefined;
  return { from: axis.at(fill.sealed.value), to: axis.at(fill.sealed.value + hours / 24) };
}

/** A room that no schedule opens is kept until its fruit no longer lasts, or the season ends. */
function endOfKeeping(opening: RoomOpening | undefined, window: OpeningWindow | undefined, axis: TimeAxis) {
  if (opening) return opening.week - axis.firstWeek;
  return window ? Math.min(window.latest.week + 1 - axis.firstWeek, axis.weeks) : axis.weeks;
}

function windowOn({ earliest, bestBefore, latest }: OpeningWindow, { firstWeek }: TimeAxis) {
  return {
    earliest: earliest.week - firstWeek,
    bestBefore: bestBefore.week - firstWeek,
    latest: latest.week - firstWeek,
  };
}

/** A stretch under its name; nothing where an end is not known or it would be empty. */
function part<K extends string>(
  name: K,
  from: number | undefined,
  to: number | undefined,
): { [P in K]?: { from: number; to: number } } {
  if (from === undefined || to === undefined || !(to > from)) return {};
  return { [name]: { from, to } } as { [P in K]?: { from: number; to: number } };
}
