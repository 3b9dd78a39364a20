import type { ComputedSeason, Finding } from '../findings/types';
import { formatWeek } from '../plan/dates';
import { type DisplayUnits, measureOf, type UnitSystem } from '../plan/display';
import type { NitrogenSeason, ScrubberSeason, ScrubberWeek } from '../plant/types';
import { caution } from '../room/caution';
import type { FilledRoom } from '../room/types';
import { type CourseEnds, courseCasesOf, courseEnds } from './course-report';
import { displayUnits } from './explain';
import { countFindings, measures, planPart, present, varietiesOf } from './parts';
import { placeOf } from './place';
import type { GasReport } from './schemas';

/** Carbon dioxide by room, each scrubber's load by week, and the hours of nitrogen. */
export function gasReport(
  season: ComputedSeason,
  findings: readonly Finding[],
  system?: UnitSystem,
): GasReport {
  const { plan, plant } = season;
  const units = displayUnits(plan, system);
  const ends = courseEnds(season);
  return {
    format: 'lotwright-gas-report',
    version: 1,
    plan: planPart(plan),
    units: units.system,
    counts: countFindings(findings),
    rooms: [...season.filled.values()].map((filled) => gasRow(season, filled, ends, units)),
    scrubbers: (plant?.scrubbers ?? []).map((scrubber) => scrubberPart(season, scrubber, units)),
    nitrogen: (plant?.nitrogen ?? []).map((nitrogen) => nitrogenPart(season, nitrogen, units)),
    caution,
  };
}

function gasRow(
  season: ComputedSeason,
  filled: FilledRoom,
  ends: CourseEnds,
  units: DisplayUnits,
): GasReport['rooms'][number] {
  const { fill, room, regime } = filled;
  return {
    room: room.id,
    fill: fill.id,
    varieties: varietiesOf(filled),
    place: placeOf(season.plan, fill.at),
    ...present({
      regime: fill.regime?.value,
      scrubber: room.scrubber?.value,
      nitrogen: room.nitrogen?.value,
      nitrogenShortfall: filled.nitrogenShortfall,
      course: courseCasesOf(season, ends, fill.id, units),
    }),
    ...measures(
      {
        oxygen: regime?.oxygen,
        carbonDioxide: regime?.carbonDioxide,
        temperature: regime?.temperature,
        carbonDioxideAtFilling: filled.carbonDioxideAtFilling,
        carbonDioxideInStore: filled.carbonDioxideInStore,
        carbonDioxideInStoreLow: filled.carbonDioxideInStoreLow,
        carbonDioxideInStoreHigh: filled.carbonDioxideInStoreHigh,
        limePerMonth: filled.limePerMonth,
        nitrogenVolume: filled.nitrogenVolume,
        nitrogenHours: filled.nitrogenHours,
        leakShareOfFruitUse: filled.leakShareOfFruitUse,
        freshAirVolumes: filled.freshAirVolumes,
      },
      units,
    ),
  };
}

function scrubberPart(
  season: ComputedSeason,
  load: ScrubberSeason,
  units: DisplayUnits,
): GasReport['scrubbers'][number] {
  const week = (entry: ScrubberWeek) => ({
    week: formatWeek(entry.week),
    ...measures({ load: entry.load, share: entry.share }, units),
  });
  return {
    scrubber: load.scrubber.id,
    rooms: load.rooms.map(({ room }) => room.id),
    place: placeOf(season.plan, load.scrubber.at),
    ...present({
      capacity: measureOf(load.capacity, units),
      settlesAt: measureOf(load.settlesAt, units),
      peak: load.peak && week(load.peak),
    }),
    weeks: load.weeks.map(week),
  };
}

function nitrogenPart(
  season: ComputedSeason,
  nitrogen: NitrogenSeason,
  units: DisplayUnits,
): GasReport['nitrogen'][number] {
  return {
    source: nitrogen.source.id,
    rooms: nitrogen.rooms.map(({ room }) => room.id),
    place: placeOf(season.plan, nitrogen.source.at),
    weeks: nitrogen.weeks.map(({ week, runs, hours, share }) => ({
      week: formatWeek(week),
      ...measures({ hours: runs, asked: hours, share }, units),
    })),
  };
}
