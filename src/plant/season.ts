import { firstDayOfWeek, type Week } from '../plan/dates';
import { compute, type Figure } from '../plan/figure';
import { type Keep, keepNothing } from '../plan/keep';
import type { NitrogenSource, Plan, RefrigerationGroup, Scrubber } from '../plan/model';
import { finish, type Steps } from '../plan/steps';
import { finite } from '../room/figures';
import type { FilledRoom } from '../room/types';
import { coolingInGroups } from './group-cooling';
import { nitrogenWeeks } from './nitrogen-hours';
import { nitrogenQueue } from './nitrogen-queue';
import { meanOfWeek } from './out-of-use';
import { type RoomLoad, refrigerationWeeks, roomLoads } from './refrigeration-load';
import {
  adsorbingShare,
  changesADay,
  oxygenAtChange,
  oxygenInADay,
  removalAt,
  removalPerLevel,
  settlingLevel,
  worksAgainst,
} from './scrubber';
import { meanCarbonDioxideLevel, weeklyLoads } from './scrubber-load';
import type { NitrogenSeason, PlantSeason, RefrigerationSeason, ScrubberSeason, ScrubberWeek } from './types';
import { type Openings, openingWeek, seasonWeeks, weeksOf } from './weeks';

/**
 * The shared equipment over the season, week by week. A room counts from its sealing (its first bin, for
 * refrigeration) to the week it opens: by `opens`, by fill identifier, else as pinned in the plan, else it holds to
 * the season's end. Undefined where the plan does not say when the season starts and ends. Equipment none of whose
 * rooms has changed may be `keep`t from the last time.
 */
export function plantSeason(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  opens?: Openings,
  keep: Keep = keepNothing,
): PlantSeason | undefined {
  return finish(plantSeasonSteps(plan, filled, opens, keep));
}

/** The same in steps, an equipment each. */
export function* plantSeasonSteps(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  opens?: Openings,
  keep: Keep = keepNothing,
): Steps<PlantSeason | undefined> {
  const season = seasonWeeks(plan);
  if (!season) return undefined;
  const weeks = weeksOf(season);
  const all = [...filled.values()];
  const courses = coolingInGroups(plan, filled, keep);
  const loads = roomLoads(plan, filled, opens, firstDayOfWeek(season.lastWeek + 1) - 1, courses);
  const when = [season.firstWeek, season.lastWeek, plan.packing?.daysToEmpty];
  const byScrubber = grouped(all, ({ room }) => room.scrubber?.value);
  const bySource = grouped(all, ({ room }) => room.nitrogen?.value);
  const byGroup = grouped(loads, ({ room: { room } }) => room.refrigerationGroup?.value);
  const scrubbers: ScrubberSeason[] = [];
  for (const scrubber of plan.scrubbers.values()) {
    yield;
    const rooms = byScrubber.get(scrubber.id) ?? [];
    // Rooms pinned or scheduled in other weeks load it otherwise; what else a schedule says does not matter to it.
    const until = rooms.map((room) => openingWeek(room, opens));
    const make = () => scrubberSeason(scrubber, rooms, weeks, opens);
    scrubbers.push(keep(`scrubber/${scrubber.id}`, [...when, scrubber, ...rooms, ...until], make));
  }
  const nitrogen: NitrogenSeason[] = [];
  for (const source of plan.nitrogenSources.values()) {
    yield;
    const rooms = bySource.get(source.id) ?? [];
    const make = () => nitrogenSeason(source, rooms, weeks);
    nitrogen.push(keep(`nitrogen/${source.id}`, [...when, source, ...rooms], make));
  }
  const refrigeration: RefrigerationSeason[] = [];
  for (const group of plan.refrigerationGroups.values()) {
    yield;
    const cooled = byGroup.get(group.id) ?? [];
    const inputs = cooled.flatMap(({ room, marched, opened }) => [room, marched, opened]);
    const make = () => refrigerationSeason(group, cooled, weeks);
    refrigeration.push(keep(`refrigeration/${group.id}`, [...when, group, ...inputs], make));
  }
  return { ...season, scrubbers, nitrogen, refrigeration };
}

/** By the identifier that each has; those without are under `undefined`. */
function grouped<T>(
  all: readonly T[],
  idOf: (one: T) => string | undefined,
): ReadonlyMap<string | undefined, readonly T[]> {
  const groups = new Map<string | undefined, T[]>();
  for (const one of all) {
    const id = idOf(one);
    const group = groups.get(id);
    if (group) group.push(one);
    else groups.set(id, [one]);
  }
  return groups;
}

/** One scrubber with these rooms, week by week. */
export function scrubberSeason(
  scrubber: Scrubber,
  rooms: readonly FilledRoom[],
  weeks: readonly Week[],
  opens: Openings | undefined,
): ScrubberSeason {
  const perLevel = removalPerLevel(scrubber);
  const level = meanCarbonDioxideLevel(rooms);
  const capacity = perLevel && level && finite(removalAt(perLevel, level, worksAgainst(scrubber)));
  const loads = scrubberWeeks(
    weeks,
    weeklyLoads(weeks, rooms, opens),
    (week) => capacity && meanOfWeek(capacity, scrubber.outOfUse, week),
  );
  const peak = loads.reduce<ScrubberWeek | undefined>(
    (best, one) => (pressed(one) > (best ? pressed(best) : 0) ? one : best),
    undefined,
  );
  return {
    scrubber,
    rooms,
    capacity,
    weeks: loads,
    peak,
    settlesAt: peak && perLevel && settlingLevel(peak.load, perLevel, worksAgainst(scrubber)),
    oxygenCarriedIn: oxygenCarriedIn(scrubber, rooms),
  };
}

/** A week's load, of what the scrubber can do in it where that is known: days out of use make a light week heavy. */
function pressed({ load, share }: ScrubberWeek): number {
  return share?.value ?? load.value;
}

/** Weeks of the same load and the same capacity have their share in common. */
function scrubberWeeks(
  weeks: readonly Week[],
  loads: readonly Figure<'kg/day'>[],
  capacityIn: (week: Week) => Figure<'kg/day'> | undefined,
): ScrubberWeek[] {
  let last: ScrubberWeek | undefined;
  return weeks.map((week, index) => {
    const load = loads[index] as Figure<'kg/day'>;
    const capacity = capacityIn(week);
    const isSame = last?.load === load && last.capacity === capacity;
    const share = isSame ? last?.share : capacity && finite(shareOf(load, capacity));
    last = { week, load, capacity, share };
    return last;
  });
}

function shareOf(load: Figure<'kg/day'>, capacity: Figure<'kg/day'>): Figure<'%'> {
  return compute(
    'load of the scrubber',
    '%',
    '100 * load / capacity',
    { load, capacity },
    (v) => (100 * v.load) / v.capacity,
  );
}

/** At the lowest oxygen of its rooms, where most is carried in. */
function oxygenCarriedIn(scrubber: Scrubber, rooms: readonly FilledRoom[]): Figure<'m3'> | undefined {
  const [lowest] = rooms
    .flatMap(({ regime }) => (regime?.oxygen ? [regime.oxygen] : []))
    .sort((a, b) => a.value - b.value);
  const { beds } = scrubber;
  const adsorbing = beds && adsorbingShare(beds);
  if (!beds?.voidVolume || !adsorbing || !lowest) return undefined;
  const changes = changesADay(beds, scrubber.hoursADay, adsorbing);
  return finite(oxygenInADay(oxygenAtChange(beds.voidVolume, lowest, beds.rinsed), changes));
}

function nitrogenSeason(
  source: NitrogenSource,
  rooms: readonly FilledRoom[],
  weeks: readonly Week[],
): NitrogenSeason {
  const queue = nitrogenQueue(source, rooms);
  return { source, rooms, queue, weeks: nitrogenWeeks(weeks, queue) };
}

function refrigerationSeason(
  group: RefrigerationGroup,
  loads: readonly RoomLoad[],
  weeks: readonly Week[],
): RefrigerationSeason {
  return {
    group,
    rooms: loads.map(({ room }) => room),
    weeks: refrigerationWeeks(weeks, group, loads),
  };
}
