import { ethanolMade as forEachOfFermentation } from '../../fruit/fermentation';
import type { Day } from '../../plan/dates';
import { compute, countedFigure, type Figure, type Unit } from '../../plan/figure';
import type { FilledRoom } from '../types';
import { type IntegrateOptions, integrate } from './integrate';
import { type CourseChoices, courseRoom } from './of-plan';
import type { Course, CourseEventKind, CoursePoint, RoomCourse } from './types';

/** Share of all carbon dioxide from which on fermentation is told of. */
const LEAST_FERMENTED = 0.003;

const HOW = 'integrated since sealing from the balances of oxygen, carbon dioxide and nitrogen';

/**
 * The course of a fill from sealing to the day it opens, with the figures that people quote. Undefined for a room kept
 * in air, and where the plan lacks what it needs.
 */
export function roomCourse(
  filled: FilledRoom,
  untilDay: number,
  choices: CourseChoices & IntegrateOptions = {},
): RoomCourse | undefined {
  const planned = courseRoom(filled, untilDay, choices);
  const sealed = filled.fill.sealed?.value;
  if (!planned || sealed === undefined) return undefined;
  const course = integrate(planned.room, choices);
  const last = course.points.at(-1);
  if (!last || !course.complete) return undefined;
  const reached = (name: string, kind: CourseEventKind) => {
    const hours = hoursOf(course, kind);
    return hours === undefined ? undefined : integrated(name, 'h', hours);
  };
  const dryMatterLost = integrated('dry matter the fruit used', 'kg', last.dryMatterLostKg);
  const ethanolMade =
    last.fermentedKg > LEAST_FERMENTED * last.carbonDioxideMadeKg ? ethanolOf(last.fermentedKg) : undefined;
  const waterLost = integrated('water the fruit gave off', 'kg', last.waterLostKg);
  return {
    fill: filled.fill.id,
    sealed,
    course,
    room: planned.room,
    assumptions: planned.assumptions,
    ...optional('hoursToFivePercent', reached('hours from sealing to 5 % oxygen', 'five-per-cent')),
    ...optional('hoursToSetPoint', reached("hours from sealing to the regime's oxygen", 'set-point-reached')),
    lowestOxygen: integrated('lowest oxygen', '%', course.lowestOxygen.percent),
    highestCarbonDioxide: integrated('highest carbon dioxide', '%', course.highestCarbonDioxide.percent),
    oxygenAtEnd: integrated('oxygen at opening', '%', last.oxygen),
    carbonDioxideAtEnd: integrated('carbon dioxide at opening', '%', last.carbonDioxide),
    carbonDioxideMade: integrated('carbon dioxide the fruit made', 'kg', last.carbonDioxideMadeKg),
    scrubbed: integrated('carbon dioxide scrubbed', 'kg', last.scrubbedKg),
    nitrogenFed: integrated('nitrogen fed', 'm3', last.nitrogenFedM3),
    dryMatterLost,
    waterLost,
    ...optional('ethanolMade', ethanolMade),
    weightLost: weightLost(filled, dryMatterLost, waterLost, ethanolMade),
  };
}

function integrated<U extends Unit>(name: string, unit: U, value: number): Figure<U> {
  return countedFigure(name, unit, value, HOW);
}

function ethanolOf(fermentedKg: number): Figure<'kg'> {
  const fermented = integrated('carbon dioxide made by fermentation', 'kg', fermentedKg);
  return compute(
    'ethanol that fermentation leaves in the fruit',
    'kg',
    'fermented * forEach',
    { fermented, forEach: forEachOfFermentation },
    (v) => v.fermented * v.forEach,
  );
}

function optional<K extends string, V>(key: K, value: V | undefined): { [P in K]?: V } {
  return value === undefined ? {} : ({ [key]: value } as { [P in K]: V });
}

export function hoursOf(course: Course, kind: CourseEventKind): number | undefined {
  return course.events.find((event) => event.kind === kind)?.hours;
}

/** The day of an event of a course. */
export function dayOf({ course, sealed }: RoomCourse, kind: CourseEventKind): Day | undefined {
  const hours = hoursOf(course, kind);
  return hours === undefined ? undefined : sealed + Math.floor(hours / 24);
}

function weightLost(
  filled: FilledRoom,
  dryMatter: Figure<'kg'>,
  water: Figure<'kg'>,
  ethanol: Figure<'kg'> | undefined,
): Figure<'%'> {
  const kg = filled.varieties.reduce((sum, { fruit }) => sum + fruit.value, 0);
  const fruit = countedFigure('fruit at sealing', 'kg', kg, 'all lots of known variety');
  const name = 'weight lost from sealing to opening';
  if (ethanol) {
    return compute(
      name,
      '%',
      '100 * (dryMatter - ethanol + water) / fruit',
      { dryMatter, ethanol, water, fruit },
      (v) => (100 * (v.dryMatter - v.ethanol + v.water)) / v.fruit,
    );
  }
  return compute(
    name,
    '%',
    '100 * (dryMatter + water) / fruit',
    { dryMatter, water, fruit },
    (v) => (100 * (v.dryMatter + v.water)) / v.fruit,
  );
}

/** The course at an hour, between its points on a straight line; undefined outside it. */
export function pointAt({ points }: Course, hours: number): CoursePoint | undefined {
  const after = points.findIndex((point) => point.hours >= hours);
  const [before, next] = [points[after - 1], points[after]];
  if (!next || hours < 0) return undefined;
  if (!before) return next;
  const share = (hours - before.hours) / (next.hours - before.hours);
  const between = Object.fromEntries(
    (Object.keys(next) as (keyof CoursePoint)[]).map((key) => [
      key,
      before[key] + share * (next[key] - before[key]),
    ]),
  );
  return { ...next, ...between };
}
