import { opensIn } from '../findings/compute';
import type { ComputedSeason, Finding } from '../findings/types';
import { formatDay } from '../plan/dates';
import { type DisplayUnits, type Measure, measure, type UnitSystem } from '../plan/display';
import { compute, countedFigure, type Figure } from '../plan/figure';
import type { Fill } from '../plan/model';
import { type SeasonCourses, seasonCourses } from '../plant/season-courses';
import { caution } from '../room/caution';
import { pointAt } from '../room/course/room-course';
import type { CourseEventKind, RoomCourse } from '../room/course/types';
import type { FilledRoom } from '../room/types';
import { displayUnits } from './explain';
import { countFindings, measures, planPart, present } from './parts';
import { placeOf } from './place';
import type { CourseReport, GasReport } from './schemas';

type Cases = NonNullable<GasReport['rooms'][number]['course']>;
type Summary = NonNullable<Cases['expected']>;

/** The courses of a season at both ends of the sources' respiration, for the schedule and equipment there are. */
export interface CourseEnds {
  readonly low?: SeasonCourses | undefined;
  readonly high?: SeasonCourses | undefined;
}

export function courseEnds(season: ComputedSeason): CourseEnds {
  const { plan, filled } = season;
  const opens = opensIn(season);
  const at = (respiration: 'low' | 'high') =>
    seasonCourses(plan, filled, { opens, choices: { respiration } });
  return season.courses ? { low: at('low'), high: at('high') } : {};
}

/** What a fill's course comes to; undefined for one that has none. */
export function courseCasesOf(
  season: ComputedSeason,
  ends: CourseEnds,
  fill: string,
  units: DisplayUnits,
): Cases | undefined {
  const { courses } = season;
  const summaryOf = (found: SeasonCourses | undefined) => summary(season, found?.courses.get(fill), units);
  const cold = courses?.cooling.get(fill)?.allCold;
  const filled = season.filled.get(fill);
  const storage = filled && cold && daysToStorage(filled, cold.value);
  const cases = present({
    daysToCold: cold && toTenths(measure(cold.value, 'days', units)),
    daysToStorage: storage === undefined ? undefined : toTenths(measure(storage, 'days', units)),
    low: summaryOf(ends.low),
    expected: summaryOf(courses),
    high: summaryOf(ends.high),
  });
  return Object.keys(cases).length > 0 ? cases : undefined;
}

/**
 * Days from the first bin until a room with a warm hold has come down to the temperature of its regime; undefined for one
 * that is cooled straight down. `daysToCold` counts to the hold there.
 */
export function daysToStorage({ stepDown, fill }: FilledRoom, daysToCold: number): number | undefined {
  if (!stepDown || !fill.firstBin) return undefined;
  return Math.max(daysToCold, stepDown.last + 1 - fill.firstBin.value);
}

/** Days to all fruit cold are found hour by hour: more than a tenth of a day is not known. */
function toTenths(found: Measure | undefined): Measure | undefined {
  return found && { ...found, value: Math.round(10 * found.value) / 10 };
}

function summary(
  season: ComputedSeason,
  course: RoomCourse | undefined,
  units: DisplayUnits,
): Summary | undefined {
  if (!course) return undefined;
  const { hoursToFivePercent, hoursToSetPoint, lowestOxygen, highestCarbonDioxide, oxygenAtEnd } = course;
  const { carbonDioxideMade, nitrogenFed, ethanolMade, weightLost } = course;
  return measures(
    {
      hoursToFivePercent,
      hoursToSetPoint,
      lowestOxygen,
      highestCarbonDioxide,
      oxygenAtEnd,
      oxygenRise: oxygenRise(season, course),
      carbonDioxideMade,
      nitrogenFed,
      ethanolMade,
      weightLost,
    },
    units,
  );
}

/** Points of oxygen above the set-point of the last stage when the room opens. */
export function oxygenRise({ filled }: ComputedSeason, course: RoomCourse): Figure<'%'> | undefined {
  const setPoint = filled.get(course.fill) && course.room.stages.at(-1)?.oxygen;
  if (setPoint === undefined || !course.hoursToSetPoint) return undefined;
  const inputs = {
    oxygenAtEnd: course.oxygenAtEnd,
    setPoint: countedFigure('oxygen set-point of the last stage', '%', setPoint, 'the regime'),
  };
  // Oxygen that is held lies on its set-point to a few billionths.
  return compute(
    'points of oxygen above the set-point at opening',
    '%',
    'oxygenAtEnd - setPoint < 0.000001 ? 0 : oxygenAtEnd - setPoint',
    inputs,
    (v) => (v.oxygenAtEnd - v.setPoint < 1e-6 ? 0 : v.oxygenAtEnd - v.setPoint),
  );
}

/** Days told one by one after sealing; from then on a point a week. */
const DAYS_TOLD = 21;

/** The courses of a room's fills, point by point; `room` is a room's or a fill's identifier. */
export function courseReport(
  season: ComputedSeason,
  findings: readonly Finding[],
  room: string,
  system?: UnitSystem,
): CourseReport {
  const { plan } = season;
  const units = displayUnits(plan, system);
  const ends = courseEnds(season);
  const fills = [...season.filled.values()].filter(
    (filled) => filled.room.id === room || filled.fill.id === room,
  );
  return {
    format: 'lotwright-course-report',
    version: 1,
    plan: planPart(plan),
    units: units.system,
    counts: countFindings(findings),
    room,
    courses: fills.flatMap(({ fill }) => {
      const course = season.courses?.courses.get(fill.id);
      if (!course) return [];
      return [
        {
          fill: fill.id,
          place: placeOf(plan, fill.at),
          sealed: formatDay(course.sealed),
          opens: formatDay(course.sealed + Math.round(course.room.untilHours / 24)),
          ...(stays(season, fill) && { staysShut: true }),
          assumptions: [...course.assumptions],
          cases: courseCasesOf(season, ends, fill.id, units) ?? {},
          events: eventsOf(course),
          points: pointsOf(course, units),
        },
      ];
    }),
    caution,
  };
}

const TOLD: Readonly<Record<CourseEventKind, string>> = {
  'feed-starts': 'nitrogen starts',
  'purity-raised': 'purer nitrogen',
  'feed-stops': 'nitrogen stops',
  'five-per-cent': 'oxygen at 5 %',
  'set-point-reached': 'oxygen at its set-point',
  'oxygen-climbs': 'oxygen climbs above its set-point',
  'oxygen-below-limit': 'oxygen below what the fruit bears',
  'carbon-dioxide-above-limit': 'carbon dioxide above what the fruit bears',
  'scrubber-at-its-most': 'the scrubber gives its most',
  'lime-used-up': 'the lime is used up',
};

/** The first time of each kind of event: a scrubber comes to its most many times. */
export function eventsOf({ course, sealed }: RoomCourse): CourseReport['courses'][number]['events'] {
  const seen = new Set<CourseEventKind>();
  return course.events
    .filter(({ kind }) => !seen.has(kind) && seen.add(kind))
    .map(({ hours, kind }) => ({
      day: formatDay(sealed + Math.floor(hours / 24)),
      hours: Number(hours.toFixed(1)),
      what: TOLD[kind],
    }));
}

function pointsOf(course: RoomCourse, units: DisplayUnits): CourseReport['courses'][number]['points'] {
  const last = Math.floor(course.room.untilHours / 24);
  const days = Array.from({ length: last + 1 }, (_, day) => day).filter(
    (day) => day <= DAYS_TOLD || day % 7 === 0 || day === last,
  );
  return days.flatMap((day) => {
    const point = pointAt(course.course, Math.min(24 * day, course.room.untilHours));
    if (!point) return [];
    return [
      {
        day: formatDay(course.sealed + day),
        daysSealed: day,
        ...present({
          oxygen: measure(point.oxygen, '%', units),
          carbonDioxide: measure(point.carbonDioxide, '%', units),
          temperature: measure(point.fruitCelsius, 'degC', units),
          carbonDioxideMade: measure(point.carbonDioxideMadeKg, 'kg', units),
          scrubbed: measure(point.scrubbedKg, 'kg', units),
          nitrogenFed: measure(point.nitrogenFedM3, 'm3', units),
        }),
      },
    ];
  });
}

/** True where neither the schedule nor a pin opens the room. */
function stays(season: ComputedSeason, fill: Fill): boolean {
  return fill.open === undefined && opensIn(season)?.get(fill.id) === undefined;
}
