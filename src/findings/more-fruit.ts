import { figureWith } from '../plan/figure';
import { oxygenClimbs } from '../room/course/climbs';
import { integrate } from '../room/course/integrate';
import { roomCourse } from '../room/course/room-course';
import type { RoomCourse } from '../room/course/types';
import { filledRoom } from '../room/filled-room';
import type { FilledRoom } from '../room/types';
import { onceFor } from './courses';
import { keepsUpFrom, MOST_HALF_LIFE_MIN } from './tight-enough';
import type { ComputedSeason } from './types';

/**
 * The fewest bins, more than a fill has and no more than its room has places, with which its oxygen does not climb to its
 * end: of the same lots in the same shares, each number tried on the room's course. Null where a full room does not hold
 * it either; undefined where it has not been tried yet.
 */
export function binsThatHold(season: ComputedSeason, filled: FilledRoom): number | null | undefined {
  return onceFor(season.courses, `fruit of ${filled.fill.id}`, () => fewestThatHold(season, filled));
}

/** More bins of a fill's fruit, and the half-life in minutes with which they keep up with the leak. */
export interface FruitAndTightness {
  readonly bins: number;
  readonly minutes: number;
}

/**
 * The fewest bins, more than a fill has and no more than its room has places, whose use of oxygen keeps up with the leak
 * at a half-life that rooms are brought to, by the balance and by the room's course: of the same lots in the same shares.
 * Null where a full room does not do either; undefined where it has not been tried yet.
 */
export function binsThatKeepUp(
  season: ComputedSeason,
  filled: FilledRoom,
): FruitAndTightness | null | undefined {
  return onceFor(season.courses, `fruit against the leak of ${filled.fill.id}`, () => {
    const inBalance = (bins: number) =>
      Math.ceil(keepsUpFrom(withBins(season, filled, bins))?.value ?? Number.POSITIVE_INFINITY);
    const most = MOST_HALF_LIFE_MIN;
    const bins = fewestBins(
      filled,
      (some) => inBalance(some) <= most && holdsWith(season, filled, some, most),
    );
    if (bins === null) return null;
    let minutes = inBalance(bins);
    while (minutes < most && !holdsWith(season, filled, bins, minutes)) minutes++;
    return { bins, minutes };
  });
}

/** The bins that a fill's text names. */
export function binsIn({ fill }: FilledRoom): number {
  return fill.lots.reduce((sum, { bins }) => sum + bins.value, 0);
}

function fewestThatHold(season: ComputedSeason, filled: FilledRoom): number | null {
  return fewestBins(filled, (bins) => holdsWith(season, filled, bins));
}

function fewestBins(filled: FilledRoom, does: (bins: number) => boolean): number | null {
  const now = binsIn(filled);
  const places = Math.floor(filled.capacity.places?.value ?? 0);
  if (!(now > 0) || places <= now || !does(places)) return null;
  let [low, high] = [Math.floor(now), places];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (does(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** With turns at its scrubber that grow with its fruit, and its own half-life or one in minutes. */
function holdsWith(season: ComputedSeason, filled: FilledRoom, bins: number, minutes?: number): boolean {
  const { courses } = season;
  const { id } = filled.fill;
  const turns = courses?.scrubbers.flatMap(({ rooms }) => rooms).find(({ course }) => course.fill === id);
  const served = turns?.served ?? courses?.alone.get(id)?.served;
  if (!served) return false;
  const fuller = withBins(season, filled, bins);
  const times = bins / binsIn(filled);
  const scrubbing = turns && {
    ...turns.scrubbing,
    turns: turns.scrubbing.turns.map((turn) => ({ ...turn, share: Math.min(1, turn.share * times) })),
  };
  // A room with more fruit may open in another week: it is to hold to the season's end.
  const untilDay = Math.max(served.untilDay, (minutes && season.plan.season?.ends?.value) ?? 0);
  const course = roomCourse(fuller, untilDay, { ...served.choices, scrubbing });
  if (!course) return false;
  const now = filled.capacity.pressureHalfLife?.value;
  if (minutes === undefined || now === undefined) return isHeld(course);
  const room = { ...course.room, leakM3h: (course.room.leakM3h * now) / minutes };
  return isHeld({ ...course, room, course: integrate(room) });
}

function isHeld(course: RoomCourse): boolean {
  return oxygenClimbs(course).every(({ until }) => until !== undefined);
}

/** The room with so many bins of its fruit. */
function withBins({ plan, fruit }: ComputedSeason, filled: FilledRoom, bins: number): FilledRoom {
  const times = bins / binsIn(filled);
  const lots = filled.fill.lots.map((one) => ({
    ...one,
    bins: figureWith(one.bins, { value: one.bins.value * times }),
  }));
  return filledRoom(plan, fruit, { ...filled.fill, lots }, filled.capacity);
}
