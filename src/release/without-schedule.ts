import type { RoomKeeping } from '../keeping/types';
import type { Week } from '../plan/dates';
import type { Plan } from '../plan/model';
import { type EmptiedRoom, neverOpensText } from './conflicts';
import { isReleased, leftIn, packingFromStand, seasonStandOf } from './from-stand';
import { mostPackable } from './openable';
import { packhouseDays, packingWeeks, weeksToEmpty } from './packing-weeks';
import { binsLeftOfWeek, seasonWeeks } from './problem';
import type { Packhouse, ReleaseProblem } from './types';

/** The packhouse over the season, and the rooms that it must still empty: what is known of a release without demand. */
export interface Emptying extends Packhouse {
  readonly rooms: readonly EmptiedRoom[];
}

/**
 * What a plan says of emptying rooms, whatever is sold of them: those with a window and bins that are not opened yet, but
 * for fills in `others`. Undefined without the season's days or the packhouse's bins a week, or where there is no such room.
 */
export function emptyingOf(
  plan: Plan,
  keeping: ReadonlyMap<string, RoomKeeping>,
  others: ReadonlySet<string> = new Set(),
): Emptying | undefined {
  const season = seasonWeeks(plan);
  const { packing } = plan;
  const binsAWeek = packing?.binsAWeek?.value ?? 0;
  if (!season || !packing || !(binsAWeek > 0)) return undefined;
  const { firstWeek, weeks } = season;
  const standing = seasonStandOf(plan, firstWeek);
  const emptyingWeeks = Math.min(weeks, weeksToEmpty(packing));
  const rooms: EmptiedRoom[] = [];
  for (const { filled, window } of keeping.values()) {
    const { fill, room, bins } = filled;
    if (!window || !bins || !(bins.value > 0) || others.has(fill.id)) continue;
    if (standing?.opened.has(fill.id) || isReleased(plan, standing, fill.id, bins.value)) continue;
    const edge = (week: Week) => week - firstWeek;
    rooms.push({
      fill: fill.id,
      room: room.id,
      bins: leftIn(filled, standing).bins?.value ?? bins.value,
      weeksToEmpty: emptyingWeeks,
      earliest: Math.max(standing?.week ?? 0, edge(window.earliest.week)),
      latest: Math.min(weeks - 1, edge(window.latest.week)),
      pinned: fill.open ? edge(fill.open.value) : null,
    });
  }
  if (rooms.length === 0) return undefined;
  const left = binsLeftOfWeek(plan, packing, binsAWeek, season);
  const { packingBins, lastWeekBins } = packingFromStand(
    packingWeeks(packing, binsAWeek, season),
    standing,
    left,
  );
  const days = packhouseDays(packing, season);
  return { firstWeek, weeks, packingBins, ...(lastWeekBins && { lastWeekBins }), days, rooms };
}

/** A room with more bins than the packhouse runs in the time of emptying it, and how many those are. */
export interface TooLarge {
  readonly room: Pick<EmptiedRoom, 'fill' | 'room' | 'bins' | 'weeksToEmpty'>;
  readonly most: number;
}

/**
 * The rooms that are too large to be emptied in time wherever in their windows that begins; those without a week in
 * their window too, so that both are known before either is mended. Also those that the release problem leaves out, and
 * all where there is none.
 */
export function tooLargeToEmpty(
  plan: Plan,
  keeping: ReadonlyMap<string, RoomKeeping>,
  problem: ReleaseProblem | undefined,
): TooLarge[] {
  const inProblem = new Set(problem?.rooms.map(({ fill }) => fill));
  const isWhole = problem !== undefined && [...keeping.keys()].every((fill) => inProblem.has(fill));
  const others = isWhole ? undefined : emptyingOf(plan, keeping, inProblem);
  return [problem, others].flatMap((packhouse) =>
    packhouse
      ? packhouse.rooms.flatMap((room) => {
          const most = mostPackable(packhouse, room);
          return room.bins > most ? [{ room, most }] : [];
        })
      : [],
  );
}

/** Rooms told one by one. */
const MOST_TOLD = 4;

/** Of a plan without a schedule, the rooms that no schedule could open, in sentences as a schedule's conflicts are told. */
export function roomsThatNeverOpen(plan: Plan, keeping: ReadonlyMap<string, RoomKeeping>): string[] {
  const emptying = emptyingOf(plan, keeping);
  if (!emptying) return [];
  const told = emptying.rooms.flatMap((room) => neverOpensText(emptying, room) ?? []);
  const more = told.length - MOST_TOLD;
  if (more <= 0) return told;
  return [
    ...told.slice(0, MOST_TOLD),
    `${more} more ${more === 1 ? 'room' : 'rooms'} cannot be opened as the plan stands either.`,
  ];
}
