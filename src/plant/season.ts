import { firstDayOfWeek, type Week } from '../plan/dates';
import { compute, type Figure } from '../plan/figure';
import { type Keep, keepNothing } from '../plan/keep';
import type { NitrogenSource, Plan, RefrigerationGroup, Scrubber } from '../plan/model';
import { finite } from '../room/figures';
import type { FilledRoom } from '../room/types';
import { coolingInGroups } from './group-cooling';
import { nitrogenWeeks } from './nitrogen-hours';
import { nitrogenQueue } from './nitrogen-queue';
import { meanOfWeek } from './out-of-use';
import { loadsOn, type RoomLoad, refrigerationWeek, roomLoads } from './refrigeration-load';
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
import { meanCarbonDioxideLevel, weeklyLoad } from './scrubber-load';
import type { NitrogenSeason, PlantSeason, RefrigerationSeason, ScrubberSeason, ScrubberWeek } from './types';
import { type Openings, seasonWeeks, weeksOf } from './weeks';

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
  const season = seasonWeeks(plan);
  if (!season) return undefined;
  const weeks = weeksOf(season);
  const all = [...filled.values()];
  const courses = coolingInGroups(plan, filled, keep);
  const loads = roomLoads(plan, filled, opens, firstDayOfWeek(season.lastWeek + 1) - 1, courses);
  const when = [season.firstWeek, season.lastWeek, opens, plan.packing?.daysToEmpty];
  const served = (by: 'scrubber' | 'nitrogen', id: string) =>
    all.filter(({ room }) => room[by]?.value === id);
  return {
    ...season,
    scrubbers: [...plan.scrubbers.values()].map((scrubber) => {
      const rooms = served('scrubber', scrubber.id);
      const make = () => scrubberSeason(scrubber, rooms, weeks, opens);
      return keep(`scrubber/${scrubber.id}`, [...when, scrubber, ...rooms], make);
    }),
    nitrogen: [...plan.nitrogenSources.values()].map((source) => {
      const rooms = served('nitrogen', source.id);
      const make = () => nitrogenSeason(source, rooms, weeks);
      return keep(`nitrogen/${source.id}`, [...when, source, ...rooms], make);
    }),
    refrigeration: [...plan.refrigerationGroups.values()].map((group) => {
      const cooled = loadsOn(group, loads);
      const inputs = cooled.flatMap(({ room, marched }) => [room, marched]);
      const make = () => refrigerationSeason(group, cooled, weeks);
      return keep(`refrigeration/${group.id}`, [...when, group, ...inputs], make);
    }),
  };
}

function scrubberSeason(
  scrubber: Scrubber,
  rooms: readonly FilledRoom[],
  weeks: readonly Week[],
  opens: Openings | undefined,
): ScrubberSeason {
  const perLevel = removalPerLevel(scrubber);
  const level = meanCarbonDioxideLevel(rooms);
  const capacity = perLevel && level && finite(removalAt(perLevel, level, worksAgainst(scrubber)));
  const loads = weeks.map((week) =>
    scrubberWeek(
      week,
      weeklyLoad(week, rooms, opens),
      capacity && meanOfWeek(capacity, scrubber.outOfUse, week),
    ),
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

function scrubberWeek(
  week: Week,
  load: Figure<'kg/day'>,
  capacity: Figure<'kg/day'> | undefined,
): ScrubberWeek {
  return { week, load, capacity, share: capacity && finite(shareOf(load, capacity)) };
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
  return { source, rooms, weeks: nitrogenWeeks(weeks, nitrogenQueue(source, rooms)) };
}

function refrigerationSeason(
  group: RefrigerationGroup,
  loads: readonly RoomLoad[],
  weeks: readonly Week[],
): RefrigerationSeason {
  return {
    group,
    rooms: loads.map(({ room }) => room),
    weeks: weeks.map((week) => refrigerationWeek(week, group, loads)),
  };
}
