import { type Day, formatDay, type Week, weekOfDay } from '../plan/dates';
import { compute, type Figure } from '../plan/figure';
import type { Plan, RefrigerationGroup } from '../plan/model';
import { finite, formulaKeys, sumOf } from '../room/figures';
import type { FilledRoom } from '../room/types';
import { daysOfWeek, type Openings, openingWeek } from './weeks';

export interface RefrigerationWeek {
  readonly week: Week;
  readonly load: Figure<'kW'>;
  /** Load as a share of the group's capacity. */
  readonly share?: Figure<'%'>;
}

/** A room's cooling by day, looked up once a room and not once a week. */
export interface CoolingCourse {
  readonly room: FilledRoom;
  readonly intake: ReadonlyMap<Day, Figure<'kW'>>;
  /** Last day the room is kept cold: when it has been emptied, or the end of the season. */
  readonly lastDay: Day;
}

/** An opened room stays cold until it is empty. */
export function coolingCourse(
  plan: Plan,
  room: FilledRoom,
  opens: Openings | undefined,
  seasonEnds: Day,
): CoolingCourse {
  const opening = openingWeek(room, opens);
  const daysToEmpty = plan.packing?.daysToEmpty.value ?? 7;
  const lastDay = opening === undefined ? seasonEnds : (daysOfWeek(opening)[0] ?? seasonEnds) + daysToEmpty;
  return { room, intake: new Map(room.intake.map(({ day, heat }) => [day, heat])), lastDay };
}

/** What a room needs on a day: its intake, its step down from a warm hold, or holding; nothing when empty. */
export function coolingOn({ room, intake, lastDay }: CoolingCourse, day: Day): Figure<'kW'> | undefined {
  const loading = intake.get(day);
  if (loading) return loading;
  const [first] = room.intake;
  if (!first || day < first.day || day > lastDay) return undefined;
  const { stepDown } = room;
  if (stepDown && day >= stepDown.first && day <= stepDown.last) return stepDown.cooling;
  return room.holdingCooling;
}

/** The week's day with the highest load of all rooms together, and that load. */
export function refrigerationWeek(
  week: Week,
  group: RefrigerationGroup,
  courses: readonly CoolingCourse[],
): RefrigerationWeek {
  const totals = daysOfWeek(week).map((day) => ({
    day,
    kilowatts: courses.reduce((sum, course) => sum + (coolingOn(course, day)?.value ?? 0), 0),
  }));
  const highest = totals.reduce((best, one) => (one.kilowatts > best.kilowatts ? one : best));
  const load = loadOn(highest.day, courses);
  const share = group.capacity && finite(shareOf(load, group.capacity));
  return { week: weekOfDay(highest.day), load, share };
}

function loadOn(day: Day, courses: readonly CoolingCourse[]): Figure<'kW'> {
  const cooled = courses.flatMap((course) => {
    const cooling = coolingOn(course, day);
    return cooling ? [{ id: course.room.fill.id, cooling }] : [];
  });
  const keys = formulaKeys(
    'fill',
    cooled.map(({ id }) => id),
  );
  return sumOf(
    `cooling on ${formatDay(day)}`,
    'kW',
    cooled.map(({ cooling }, index) => [keys[index] ?? '', cooling] as const),
  );
}

function shareOf(load: Figure<'kW'>, capacity: Figure<'kW'>): Figure<'%'> {
  return compute(
    'load of the refrigeration group',
    '%',
    '100 * load / capacity',
    { load, capacity },
    (v) => (100 * v.load) / v.capacity,
  );
}
