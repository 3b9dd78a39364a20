import { figureWith } from '../plan/figure';
import { oxygenBalance } from '../plant/oxygen-balance';
import { oxygenClimbs } from '../room/course/climbs';
import { integrate } from '../room/course/integrate';
import { halfLifeNeeded } from '../room/tightness';
import type { FilledRoom } from '../room/types';
import { onceFor } from './courses';
import type { ComputedSeason } from './types';

/**
 * The half-life, minutes, that rooms are built and mended to at most: twice what is asked of rooms of low oxygen (from
 * memory: NRAES-22); common practice, no publication gives a limit.
 */
export const MOST_HALF_LIFE_MIN = 60;

/** The half-life with which the fruit keeps up with the leak and, `withoutWeather`, with a bag that takes all the weather. */
export function keepsUpFrom(
  { capacity, room, freeGasVolume, oxygenUse: use, regime, assumptions }: FilledRoom,
  withoutWeather = false,
) {
  if (!capacity.volume || !freeGasVolume || !use || !regime?.oxygen) return undefined;
  const bag = withoutWeather ? freeGasVolume : room.breatherBag;
  return halfLifeNeeded(capacity.volume, freeGasVolume, use, regime.oxygen, assumptions, bag);
}

/** Minutes beyond what the balance asks that are tried on the course: its fruit is not quite at its rate in store. */
const TRIED = 6;

/**
 * The least whole minutes of half-life at which a fill's oxygen does not climb to its end, all that comes in counted:
 * found on the balance, then tried on the room's course; `withoutWeather`, with a bag that takes all the weather. Null
 * where no tightness that rooms are built to holds it, or the plan does not say what would; undefined where it has not
 * been tried yet.
 */
export function minutesThatHold(
  season: ComputedSeason,
  filled: FilledRoom,
  withoutWeather = false,
): number | null | undefined {
  const weather = withoutWeather ? 'without' : 'with';
  return onceFor(season.courses, `tightness of ${filled.fill.id} ${weather} weather`, () =>
    tried(season, filled, withoutWeather),
  );
}

function tried(season: ComputedSeason, filled: FilledRoom, withoutWeather: boolean): number | null {
  const now = filled.capacity.pressureHalfLife?.value;
  const course = season.courses?.courses.get(filled.fill.id);
  const { scrubber: on, leakInService } = filled.room;
  if (!now || !course || leakInService) return null;
  const scrubber = on && season.plan.scrubbers.get(on.value);
  const weatherM3h = withoutWeather ? 0 : course.room.weatherM3h;
  const inBalance = (minutes: number) =>
    (oxygenBalance(tightened(filled, now / minutes, withoutWeather), scrubber)?.surplus.value ?? 0) <= 0;
  const inCourse = (minutes: number) => {
    const room = { ...course.room, weatherM3h, leakM3h: (course.room.leakM3h * now) / minutes };
    return oxygenClimbs({ ...course, room, course: integrate(room) }).every(
      ({ until }) => until !== undefined,
    );
  };
  let least = Math.ceil(now);
  while (least <= MOST_HALF_LIFE_MIN && !inBalance(least)) least++;
  const last = Math.min(MOST_HALF_LIFE_MIN, least + TRIED);
  for (let minutes = least; minutes <= last; minutes++) if (inCourse(minutes)) return minutes;
  return null;
}

/** The room with this share of its leak. */
function tightened(filled: FilledRoom, share: number, withoutWeather: boolean): FilledRoom {
  const { capacity, freeGasVolume } = filled;
  const { leakFlow } = capacity;
  if (!leakFlow) return filled;
  const less = figureWith(leakFlow, { value: leakFlow.value * share });
  const room = withoutWeather ? { ...capacity.room, breatherBag: freeGasVolume } : capacity.room;
  return { ...filled, capacity: { ...capacity, room, leakFlow: less } };
}

/** Whether the fill's course says that its oxygen climbs and does not come back. */
export function climbsToItsEnd(season: ComputedSeason, filled: FilledRoom): boolean {
  const course = season.courses?.courses.get(filled.fill.id);
  return !!course && oxygenClimbs(course).some(({ until }) => until === undefined);
}
