import { opensIn } from '../findings/compute';
import type { ComputedSeason } from '../findings/types';
import { type Day, formatDay } from '../plan/dates';
import { type DisplayUnits, fixed, measure, showFigure, showSetPoint, unitLabel } from '../plan/display';
import type { Unit } from '../plan/figure';
import { kilowattsOn, roomLoads } from '../plant/refrigeration-load';
import { roomCelsius } from '../room/course/fruit-temperature';
import { pointAt } from '../room/course/room-course';
import type { CoursePoint, RoomCourse } from '../room/course/types';
import type { FilledRoom } from '../room/types';
import type { DayChart, DayLine } from './card-types';
import { coldWords } from './cold-words';
import { daysToStorage } from './course-report';
import { type CardDays, valuesOn } from './room-card-days';

/** Room that a scale leaves above what it has to hold. */
const HEADROOM = 1.25;
/** Decimals of gas levels and temperatures. */
const GAS_DECIMALS = 2;
const DECIMALS = 1;

/** Levels of gas, temperatures, cooling and weight of a room, day by day, as far as the plan tells them. */
export function roomCharts(
  season: ComputedSeason,
  filled: FilledRoom,
  days: CardDays,
  units: DisplayUnits,
): DayChart[] {
  const course = season.courses?.courses.get(filled.fill.id);
  const points = course ? pointsByDay(course, days) : undefined;
  return [
    ...(course && points ? [gasChart(filled, course, points, days)] : []),
    ...temperatureChart(season, filled, points, days, units),
    ...coolingChart(season, filled, days, units),
    ...(course && points ? [weightChart(filled, course, points, days)] : []),
  ];
}

type Points = (day: Day) => CoursePoint | undefined;

/** The course at the start of each day from sealing on. */
function pointsByDay({ course, sealed, room }: RoomCourse, { first, count }: CardDays): Points {
  const found = new Map<Day, CoursePoint>();
  for (let day = Math.max(first, sealed); day < first + count; day += 1) {
    const point = pointAt(course, Math.min(24 * (day - sealed), room.untilHours));
    if (point) found.set(day, point);
  }
  return (day) => found.get(day);
}

function gasChart(filled: FilledRoom, course: RoomCourse, points: Points, days: CardDays): DayChart {
  const { limits, stages } = course.room;
  const on = (of: (day: Day) => number | undefined) => valuesOn(days, of, GAS_DECIMALS);
  const stageOn = (day: Day) =>
    day < course.sealed
      ? undefined
      : stages.findLast(({ fromHours }) => fromHours <= 24 * (day - course.sealed));
  const level = (value: number | undefined) => on((day) => (day < course.sealed ? undefined : value));
  const lines: DayLine[] = [
    { name: 'oxygen', look: 'oxygen', values: on((day) => points(day)?.oxygen) },
    { name: 'carbon dioxide', look: 'carbon-dioxide', values: on((day) => points(day)?.carbonDioxide) },
    { name: 'oxygen set-point', look: 'oxygen-set-point', values: on((day) => stageOn(day)?.oxygen) },
    {
      name: 'carbon dioxide set-point',
      look: 'carbon-dioxide-set-point',
      values: on((day) => stageOn(day)?.carbonDioxide),
    },
    { name: 'least oxygen the fruit bears', look: 'lower-limit', values: level(limits.leastOxygen) },
    {
      name: 'most carbon dioxide the fruit bears',
      look: 'upper-limit',
      values: level(limits.mostCarbonDioxide),
    },
  ];
  const told = lines.filter(({ values }) => values.some((value) => value !== null));
  const held = told.filter(({ look }) => look !== 'oxygen');
  const top = Math.max(2, HEADROOM * Math.max(...held.flatMap(numbers)));
  return {
    id: 'gas',
    title: 'Oxygen and carbon dioxide',
    unit: '%',
    decimals: GAS_DECIMALS,
    lines: told,
    top,
    bottom: 0,
    description: gasText(filled, course, top),
  };
}

function gasText({ regime }: FilledRoom, course: RoomCourse, top: number): string {
  const { hoursToSetPoint, lowestOxygen, highestCarbonDioxide, oxygenAtEnd } = course;
  const held = regime?.oxygen ? ` of ${showSetPoint({ value: regime.oxygen.value, unit: '%' })} %` : '';
  const reached = hoursToSetPoint
    ? `Oxygen is at its set-point${held} ${fixed(hoursToSetPoint.value, 0)} hours after sealing`
    : `Oxygen does not come to its set-point${held}`;
  return `${reached}; lowest ${fixed(lowestOxygen.value, 2)} %, ${fixed(oxygenAtEnd.value, 2)} % when the room opens. Carbon dioxide is at most ${fixed(highestCarbonDioxide.value, 2)} %. The scale ends at ${fixed(top, 1)} %, and what is above it is cut off.`;
}

function temperatureChart(
  season: ComputedSeason,
  filled: FilledRoom,
  points: Points | undefined,
  days: CardDays,
  units: DisplayUnits,
): DayChart[] {
  const { fill, regime, varieties } = filled;
  const course = season.courses?.courses.get(fill.id);
  const cooling = season.courses?.cooling.get(fill.id);
  const on = (of: (day: Day) => number | undefined) => shownOn(days, of, 'degC', DECIMALS, units);
  const batches = (cooling?.batches ?? []).map(({ day: loaded, temperatures }): DayLine => {
    const byDay = new Map(temperatures.map(({ day, celsius }) => [day, celsius]));
    return { name: `fruit of ${formatDay(loaded)}`, look: 'batch', values: on((day) => byDay.get(day)) };
  });
  const freezes =
    varieties.length > 0 ? Math.max(...varieties.map(({ variety }) => variety.freezesAt.value)) : undefined;
  const lines: DayLine[] = [
    ...batches,
    { name: 'mean of the fruit', look: 'mean', values: on((day) => points?.(day)?.fruitCelsius) },
    {
      name: "room's temperature",
      look: 'room',
      values: on((day) =>
        course ? roomCelsius(course.room.temperature, 24 * (day - course.sealed)) : regime?.temperature.value,
      ),
    },
    { name: 'the fruit freezes', look: 'lower-limit', values: on(() => freezes) },
  ];
  const told = lines.filter(({ values }) => values.some((value) => value !== null));
  if (told.length === 0) return [];
  const all = told.flatMap(numbers);
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const cold = cooling?.allCold && coldText(filled, cooling.allCold.value);
  return [
    {
      id: 'temperature',
      title: 'Temperature',
      unit: unitLabel('degC', units),
      decimals: DECIMALS,
      lines: told,
      top: high + 0.06 * (high - low || 1),
      bottom: low - 0.06 * (high - low || 1),
      description: [cold, heldText(filled, units), 'Fruit is told at the end of each day.']
        .filter((text) => text !== undefined)
        .join(' '),
    },
  ];
}

function coldText(filled: FilledRoom, days: number): string {
  const storage = daysToStorage(filled, days);
  return coldWords(fixed(days, 1), storage === undefined ? undefined : fixed(storage, 1));
}

/** At what the room is held: a warm hold first where it has one. */
function heldText({ regime, stepDown }: FilledRoom, units: DisplayUnits): string | undefined {
  if (!regime) return undefined;
  const held = showFigure(regime.temperature, units);
  const warm = stepDown && regime.conditioning;
  return warm
    ? `The room is held at ${showFigure(warm.temperature, units)} for ${showFigure(warm.lasts, units)} after its last bin, and at ${held} from ${formatDay(stepDown.last + 1)} on.`
    : `The room is held at ${held}.`;
}

function coolingChart(
  season: ComputedSeason,
  filled: FilledRoom,
  days: CardDays,
  units: DisplayUnits,
): DayChart[] {
  const { fill, room, peakCooling, holdingCooling } = filled;
  const load = roomLoads(
    season.plan,
    new Map([[fill.id, filled]]),
    opensIn(season),
    days.first + days.count - 1,
  )[0];
  const cooling = season.courses?.cooling.get(fill.id);
  if (!load) return [];
  const marched = new Map((cooling?.days ?? []).map((day) => [day.day, day]));
  const on = (of: (day: Day) => number | undefined) => shownOn(days, of, 'kW', DECIMALS, units);
  const held = (day: Day) => kilowattsOn(load, day);
  const capacity = room.coolerCapacity;
  const lines: DayLine[] = [
    {
      name: 'cooling wanted',
      look: 'wanted',
      values: on((day) => marched.get(day)?.wantedKw ?? held(day)?.asked),
    },
    {
      name: 'cooling it gets',
      look: 'taken',
      values: on((day) => marched.get(day)?.takenKw ?? held(day)?.taken),
    },
    { name: 'what the cooler gives', look: 'upper-limit', values: on(() => capacity?.value) },
  ];
  const told = lines.filter(({ values }) => values.some((value) => value !== null));
  if (!told.some(({ look }) => look === 'wanted')) return [];
  const sentences = [
    peakCooling && `Filling takes up to ${showFigure(peakCooling, units)}`,
    holdingCooling && `holding ${showFigure(holdingCooling, units)}`,
    capacity && `the cooler gives ${showFigure(capacity, units)}`,
  ].filter((text) => text !== undefined);
  return [
    {
      id: 'cooling',
      title: 'Cooling',
      unit: unitLabel('kW', units),
      decimals: DECIMALS,
      lines: told,
      top: 1.08 * Math.max(...told.flatMap(numbers)),
      bottom: 0,
      description: sentences.length === 0 ? '' : `${sentences.join(', ')}.`,
    },
  ];
}

function weightChart(filled: FilledRoom, course: RoomCourse, points: Points, days: CardDays): DayChart {
  const kg = filled.varieties.reduce((sum, { fruit }) => sum + fruit.value, 0);
  const lost = (point: CoursePoint) =>
    (100 * (point.dryMatterLostKg - point.ethanolKg + point.waterLostKg)) / kg;
  const values = valuesOn(
    days,
    (day) => {
      const point = points(day);
      return point && lost(point);
    },
    GAS_DECIMALS,
  );
  const total = course.weightLost.value;
  return {
    id: 'weight',
    title: 'Weight lost since sealing',
    unit: '%',
    decimals: GAS_DECIMALS,
    lines: [{ name: 'weight lost', look: 'loss', values }],
    top: Math.max(0.5, 1.1 * total),
    bottom: 0,
    description: `${fixed(total, 2)} % of its weight is lost by the day the room opens: water, and what the fruit breathes away.`,
  };
}

/** A value for each day in the unit it is shown in. */
function shownOn(
  days: CardDays,
  of: (day: Day) => number | undefined,
  unit: Unit,
  decimals: number,
  units: DisplayUnits,
): (number | null)[] {
  return valuesOn(
    days,
    (day) => {
      const value = of(day);
      return value === undefined ? undefined : measure(value, unit, units)?.value;
    },
    decimals,
  );
}

function numbers({ values }: DayLine): number[] {
  return values.filter((value) => value !== null);
}
