import { type Day, firstDayOfWeek } from '../plan/dates';
import type { Plan } from '../plan/model';
import type { Steps } from '../plan/steps';
import { marchRoom } from '../room/cooling-course';
import type { MarchRoom } from '../room/cooling-march';
import { GroupMarch, type GroupState } from '../room/group-march';
import { NOT_MARCHED } from '../room/marched';
import type { FilledRoom } from '../room/types';
import { kilowattsOn, type RoomLoad, roomLoads } from './refrigeration-load';
import { type Openings, seasonWeeks } from './weeks';

/** The rooms of a group, ready to be marched as often as changes are tried. */
export interface GroupRooms {
  readonly firstDay: Day;
  /** The first day after the season. */
  readonly endDay: Day;
  readonly rooms: readonly GroupRoom[];
}

export interface GroupRoom {
  readonly filled: FilledRoom;
  /** What it asks once its fruit has settled, and until when. */
  readonly cold: RoomLoad;
  /** Undefined where the plan lacks what its cooling is counted from. */
  readonly march: MarchRoom | undefined;
}

export interface DayAsked {
  readonly day: Day;
  readonly kilowatts: number;
  /** By room; undefined while there is nothing in it. */
  readonly byRoom: readonly (number | undefined)[];
}

/** A march to the season's end, with where it stood on some of its days so that others can go on from there. */
export interface GroupRun {
  /** What all rooms ask on each day of the season, mean kW. */
  readonly kilowatts: Float64Array;
  /** Days on which they ask for more than there is. */
  readonly over: readonly DayAsked[];
  /** With the most that had been asked for in an hour up to then, kW. */
  readonly saved: readonly { readonly state: GroupState; readonly worstHourKw: number }[];
  /** The most that was asked for in an hour, kW. */
  readonly worstHourKw: number;
  /** By room that is marched: when the last of its fruit was cold. */
  readonly allColdAtHours: ReadonlyMap<string, number>;
}

/** Undefined where the plan does not say when the season starts and ends. */
export function groupRooms(
  plan: Plan,
  rooms: readonly FilledRoom[],
  opens: Openings | undefined,
): GroupRooms | undefined {
  const season = seasonWeeks(plan);
  if (!season) return undefined;
  const endDay = firstDayOfWeek(season.lastWeek + 1);
  return {
    firstDay: firstDayOfWeek(season.firstWeek),
    endDay,
    rooms: rooms.map((filled) => groupRoom(plan, filled, opens, endDay)),
  };
}

export function groupRoom(
  plan: Plan,
  filled: FilledRoom,
  opens: Openings | undefined,
  endDay: Day,
): GroupRoom {
  const [cold] = roomLoads(plan, new Map([[filled.fill.id, filled]]), opens, endDay - 1, new Map());
  const load = cold ?? { room: filled, marched: NOT_MARCHED, lastDay: endDay - 1 };
  return { filled, cold: load, march: marchRoom(plan, filled) };
}

/** Which days of a march are kept to go on from: the first days of rooms, or those with a worse hour than all before. */
export type SavedDays = 'first days' | 'worst hours';

/** The whole season with so much cooling, a day a step. */
export function* groupRun(at: GroupRooms, plantKw: number, keep: SavedDays): Steps<GroupRun> {
  const march = marchOf(at, plantKw);
  const firstDays = new Set(at.rooms.map((room) => room.march?.firstDay));
  const saved: { state: GroupState; worstHourKw: number }[] = [];
  const over: DayAsked[] = [];
  const kilowatts = new Float64Array(Math.max(0, at.endDay - at.firstDay));
  let worstHourKw = 0;
  for (let day = Math.min(at.firstDay, march.day); day < at.endDay || !march.over(); day++) {
    yield;
    if (!march.over() && march.day === day) {
      const state = keep === 'worst hours' || firstDays.has(day) ? march.save() : undefined;
      march.nextDay();
      if (state && (keep === 'first days' || march.worstHourKw > worstHourKw))
        saved.push({ state, worstHourKw });
      worstHourKw = Math.max(worstHourKw, march.worstHourKw);
    } else march.askedKw.fill(Number.NaN);
    if (day < at.firstDay || day >= at.endDay) continue;
    const sum = askedOn(at.rooms, march, day);
    kilowatts[day - at.firstDay] = sum;
    if (sum > plantKw) over.push({ day, kilowatts: sum, byRoom: askedByRoom(at.rooms, march, day) });
  }
  const ids = at.rooms.flatMap(({ filled, march: marched }) => (marched ? [filled.fill.id] : []));
  const cold = march.allColdAtHours();
  const allColdAtHours = new Map(ids.map((id, index) => [id, cold[index] ?? Number.NaN]));
  return { kilowatts, over, saved, worstHourKw, allColdAtHours };
}

/**
 * Whether no day of the season asks for more than there is. It goes on from a state that all of it up to then has in
 * common with another march in which no day before did, and stops at the first day that does. `anew` are rooms of that
 * march that have been changed; none of them has begun by then.
 */
export function* keepsUpFrom(
  at: GroupRooms,
  plantKw: number,
  from: GroupState | undefined,
  anew: ReadonlySet<string> = new Set(),
): Steps<boolean> {
  const march = marchOf(at, plantKw);
  const marched = at.rooms.filter((room) => room.march);
  if (from)
    march.restore(
      from,
      new Set(marched.flatMap(({ filled }, index) => (anew.has(filled.fill.id) ? [index] : []))),
    );
  for (let day = from?.day ?? Math.min(at.firstDay, march.day); day < at.endDay; day++) {
    yield;
    if (!march.over() && march.day === day) march.nextDay();
    else march.askedKw.fill(Number.NaN);
    if (day >= at.firstDay && askedOn(at.rooms, march, day) > plantKw) return false;
  }
  return true;
}

function marchOf({ rooms }: GroupRooms, plantKw: number): GroupMarch {
  const marched = rooms.flatMap(({ march }) => march ?? []);
  return new GroupMarch(marched, plantKw, { records: false });
}

/** What all rooms ask on a day that has just been marched, the cold ones too. */
function askedOn(rooms: readonly GroupRoom[], march: GroupMarch, day: Day): number {
  let [sum, place] = [0, 0];
  for (const room of rooms) sum += roomAsks(room, room.march ? march.askedKw[place++] : undefined, day) ?? 0;
  return sum;
}

function askedByRoom(rooms: readonly GroupRoom[], march: GroupMarch, day: Day): (number | undefined)[] {
  let place = 0;
  return rooms.map((room) => roomAsks(room, room.march ? march.askedKw[place++] : undefined, day));
}

function roomAsks({ cold }: GroupRoom, marchedKw: number | undefined, day: Day): number | undefined {
  if (marchedKw !== undefined && !Number.isNaN(marchedKw) && day <= cold.lastDay) return marchedKw;
  return kilowattsOn(cold, day)?.asked;
}
