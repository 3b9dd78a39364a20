import { type Day, firstDayOfWeek, type Week, weekOfDay } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import { finite, formulaKeys, type Keyed, sumById, sumOf } from '../room/figures';
import type { FilledRoom } from '../room/types';
import { type Openings, openingWeek } from './weeks';

/**
 * Days after sealing in which respiration falls, on a straight line, from the rate in air to that in store: the four
 * days in which nitrogen has to bring oxygen to 3 % (ARC 2019).
 */
const PULL_DOWN_DAYS = 4;

/** Carbon dioxide that the rooms give their scrubber in each week, kilograms a day as the mean of the week. */
export function weeklyLoad(
  week: Week,
  rooms: readonly FilledRoom[],
  opens: Openings | undefined,
): Figure<'kg/day'> {
  return sumOfLoads(loadsOfRooms(week, rooms, opens));
}

function loadsOfRooms(
  week: Week,
  rooms: readonly FilledRoom[],
  opens: Openings | undefined,
): Keyed<'kg/day'>[] {
  const loads: Keyed<'kg/day'>[] = [];
  for (const room of rooms) {
    const load = loadOfRoom(week, room, opens);
    if (load) loads.push([room.fill.id, load]);
  }
  return loads;
}

function sumOfLoads(loads: readonly Keyed<'kg/day'>[]): Figure<'kg/day'> {
  return sumById('carbon dioxide given off', 'kg/day', 'fill', loads);
}

/**
 * The same of each week, in their order. For most of a season the rooms give off what they gave off the week before: then
 * it is the very same figure.
 */
export function weeklyLoads(
  weeks: readonly Week[],
  rooms: readonly FilledRoom[],
  opens: Openings | undefined,
): Figure<'kg/day'>[] {
  let [before, last]: [readonly Keyed<'kg/day'>[], Figure<'kg/day'> | undefined] = [[], undefined];
  return weeks.map((week) => {
    const loads = loadsOfRooms(week, rooms, opens);
    if (!last || !areSame(loads, before)) last = sumOfLoads(loads);
    before = loads;
    return last;
  });
}

function areSame(a: readonly Keyed<'kg/day'>[], b: readonly Keyed<'kg/day'>[]): boolean {
  return (
    a.length === b.length && a.every(([id, load], index) => id === b[index]?.[0] && load === b[index]?.[1])
  );
}

/**
 * One room's load. Nothing before sealing, for an open room needs no scrubber, and nothing from the week it opens.
 * After sealing it falls from the rate in air at the regime's temperature to the rate in store; from then on it is
 * the rate in store.
 */
function loadOfRoom(week: Week, room: FilledRoom, opens: Openings | undefined): Figure<'kg/day'> | undefined {
  const sealed = room.fill.sealed?.value;
  const inStore = room.carbonDioxideInStore;
  if (sealed === undefined || !inStore || !room.regime?.oxygen) return undefined;
  const opening = openingWeek(room, opens);
  if (opening !== undefined && week >= opening) return undefined;
  const firstDay = firstDayOfWeek(week);
  if (firstDay + 6 < sealed) return undefined;
  if (firstDay >= sealed + PULL_DOWN_DAYS) return inStore;
  return loadInPullDown(firstDay - sealed, inStore, room.carbonDioxideBeforePullDown ?? inStore);
}

/** Carbon dioxide that the rooms give their scrubber on one day, kilograms: what `weeklyLoad` is the mean of. */
export function loadOnDay(day: Day, rooms: readonly FilledRoom[], opens: Openings | undefined): number {
  let load = 0;
  for (const room of rooms) {
    const sealed = room.fill.sealed?.value;
    const inStore = room.carbonDioxideInStore?.value;
    if (sealed === undefined || inStore === undefined || !room.regime?.oxygen || day < sealed) continue;
    const opening = openingWeek(room, opens);
    if (opening !== undefined && weekOfDay(day) >= opening) continue;
    const inAir = room.carbonDioxideBeforePullDown?.value ?? inStore;
    load += inStore + (inAir - inStore) * Math.max(0, 1 - (day - sealed) / PULL_DOWN_DAYS);
  }
  return load;
}

/** Mean over a week that begins some days after sealing (before it, where negative). */
function loadInPullDown(
  weekBegins: number,
  inStore: Figure<'kg/day'>,
  inAir: Figure<'kg/day'>,
): Figure<'kg/day'> {
  const since = Array.from({ length: 7 }, (_, day) => weekBegins + day).filter((day) => day >= 0);
  const above = since.reduce((sum, day) => sum + Math.max(0, 1 - day / PULL_DOWN_DAYS), 0);
  const sealedDays = countedFigure(
    'days sealed in the week',
    'days',
    since.length,
    'from the day of sealing',
  );
  const stillAbove = countedFigure(
    'share of the fall still to come, summed over these days',
    'days',
    above,
    `respiration falls on a straight line over the ${PULL_DOWN_DAYS} days after sealing in which oxygen is brought down (ARC 2019)`,
  );
  return compute(
    'carbon dioxide given off in pull-down',
    'kg/day',
    '(inStore * sealedDays + (inAir - inStore) * stillAbove) / 7',
    { inStore, inAir, sealedDays, stillAbove },
    (v) => (v.inStore * v.sealedDays + (v.inAir - v.inStore) * v.stillAbove) / 7,
  );
}

/** Mean carbon dioxide set-point of the rooms; undefined where no regime has one. */
export function meanCarbonDioxideLevel(rooms: readonly FilledRoom[]): Figure<'%'> | undefined {
  const levels = rooms.flatMap(({ fill, regime }) =>
    regime?.oxygen && regime.carbonDioxide ? [{ id: fill.id, level: regime.carbonDioxide }] : [],
  );
  if (levels.length === 0) return undefined;
  const keys = formulaKeys(
    'fill',
    levels.map(({ id }) => id),
  );
  const sum = sumOf(
    'carbon dioxide set-points added up',
    '%',
    levels.map(({ level }, index) => [keys[index] ?? '', level] as const),
  );
  const count = countedFigure('rooms with a set-point', '1', levels.length, 'fills on the scrubber');
  return finite(
    compute(
      "mean carbon dioxide of the scrubber's rooms",
      '%',
      'sum / count',
      { sum, count },
      (v) => v.sum / v.count,
    ),
  );
}
