import { type Day, formatDay } from '../../../plan/dates';
import { compute, countedFigure, type Figure } from '../../../plan/figure';
import { roomCelsius } from '../fruit-temperature';
import { pointAt } from '../room-course';
import { AIR, CARBON_DIOXIDE_KG, molesPerCubicMetre, STATE } from '../state';
import type { CoursePoint, RoomCourse } from '../types';

/**
 * What came in and what went out: tables that add up to the gas in the room. Cubic metres are at the room's temperature
 * at the end of the time, so that the terms of a room that cools add up too.
 */

/** Oxygen from sealing to opening, straight from the integration's own totals. */
export function oxygenTable({ course, room }: RoomCourse): Figure<'m3'> {
  const { first, last } = course;
  const perM3 = molesPerCubicMetre(roomCelsius(room.temperature, room.untilHours));
  const of = (array: Float64Array, index: number) => (array[index] ?? 0) / perM3;
  const air = (index: number) => AIR.oxygen * of(last, index);
  return oxygenSum('at opening', 'integrated from sealing to opening', {
    before: of(first, STATE.oxygen),
    withNitrogen: of(last, STATE.oxygenFed),
    withLeaks: air(STATE.airLeaked),
    atBeds: air(STATE.airAtBeds),
    letIn: air(STATE.airLetIn),
    throughMembrane: of(last, STATE.oxygenThroughMembrane),
    used: of(last, STATE.oxygenUsed),
    out: of(last, STATE.oxygenOut),
  });
}

/** Carbon dioxide from sealing to opening. */
export function carbonDioxideTable({ course }: RoomCourse): Figure<'kg'> {
  const { first, last } = course;
  const kg = (moles: number) => moles * CARBON_DIOXIDE_KG;
  const air = (last[STATE.airLeaked] ?? 0) + (last[STATE.airAtBeds] ?? 0) + (last[STATE.airLetIn] ?? 0);
  return carbonDioxideSum('at opening', 'integrated from sealing to opening', {
    before: kg(first[STATE.carbonDioxide] ?? 0),
    made: kg(last[STATE.carbonDioxideMade] ?? 0),
    withAir: kg(AIR.carbonDioxide * air),
    scrubbed: kg(last[STATE.scrubbed] ?? 0),
    out: kg(last[STATE.carbonDioxideOut] ?? 0),
  });
}

/** Oxygen over one day of the course; undefined outside it. */
export function oxygenOfDay(course: RoomCourse, day: Day): Figure<'m3'> | undefined {
  const ends = endsOf(course, day);
  if (!ends) return undefined;
  const { from, until, shrinks } = ends;
  const { gasVolumeM3 } = course.room;
  const moved = (of: (point: CoursePoint) => number) => of(until) - shrinks * of(from);
  return oxygenSum(`at the end of ${formatDay(day)}`, `integrated over ${formatDay(day)}`, {
    before: (shrinks * gasVolumeM3 * from.oxygen) / 100,
    withNitrogen: moved((point) => point.oxygenFedM3),
    withLeaks: moved((point) => point.oxygenLeakedInM3),
    atBeds: moved((point) => point.oxygenAtBedsM3),
    letIn: moved((point) => point.oxygenLetInM3),
    throughMembrane: moved((point) => point.oxygenThroughMembraneM3),
    used: moved((point) => point.oxygenUsedM3),
    out: moved((point) => point.oxygenOutM3),
  });
}

/** Carbon dioxide over one day of the course; undefined outside it. */
export function carbonDioxideOfDay(course: RoomCourse, day: Day): Figure<'kg'> | undefined {
  const ends = endsOf(course, day);
  if (!ends) return undefined;
  const { from, until, shrinks } = ends;
  const { gasVolumeM3, temperature } = course.room;
  const kgPerM3 = (point: CoursePoint) =>
    molesPerCubicMetre(roomCelsius(temperature, point.hours)) * CARBON_DIOXIDE_KG;
  const oxygenWithAir = (point: CoursePoint) =>
    point.oxygenLeakedInM3 + point.oxygenAtBedsM3 + point.oxygenLetInM3;
  const airM3 = (oxygenWithAir(until) - shrinks * oxygenWithAir(from)) / AIR.oxygen;
  return carbonDioxideSum(`at the end of ${formatDay(day)}`, `integrated over ${formatDay(day)}`, {
    before: ((gasVolumeM3 * from.carbonDioxide) / 100) * kgPerM3(from),
    made: until.carbonDioxideMadeKg - from.carbonDioxideMadeKg,
    withAir: AIR.carbonDioxide * airM3 * kgPerM3(until),
    scrubbed: until.scrubbedKg - from.scrubbedKg,
    out: until.carbonDioxideOutKg - from.carbonDioxideOutKg,
  });
}

/** The points at a day's ends, and what a cubic metre at its start takes up at its end. */
function endsOf({ course, room, sealed }: RoomCourse, day: Day) {
  const hours = 24 * (day - sealed);
  if (!(hours >= 0 && hours < room.untilHours)) return undefined;
  const from = pointAt(course, hours);
  const until = pointAt(course, Math.min(hours + 24, room.untilHours));
  if (!from || !until) return undefined;
  const perM3 = (point: CoursePoint) => molesPerCubicMetre(roomCelsius(room.temperature, point.hours));
  return { from, until, shrinks: perM3(from) / perM3(until) };
}

const OXYGEN_TERMS = {
  before: 'oxygen in the room before',
  withNitrogen: 'oxygen in the nitrogen fed',
  withLeaks: 'oxygen let in by leaks and weather',
  atBeds: 'oxygen carried in by changes of beds',
  letIn: 'oxygen let in to hold its set-point',
  throughMembrane: 'oxygen let in through a membrane',
  used: 'oxygen used by the fruit',
  out: 'oxygen that went out with the gas',
} as const;

const CARBON_DIOXIDE_TERMS = {
  before: 'carbon dioxide in the room before',
  made: 'carbon dioxide the fruit made',
  withAir: 'carbon dioxide in the air that came in',
  scrubbed: 'carbon dioxide scrubbed',
  out: 'carbon dioxide that went out with the gas',
} as const;

function oxygenSum(
  when: string,
  how: string,
  amounts: Readonly<Record<keyof typeof OXYGEN_TERMS, number>>,
): Figure<'m3'> {
  const term = (key: keyof typeof OXYGEN_TERMS) => countedFigure(OXYGEN_TERMS[key], 'm3', amounts[key], how);
  const inputs = {
    before: term('before'),
    withNitrogen: term('withNitrogen'),
    withLeaks: term('withLeaks'),
    atBeds: term('atBeds'),
    letIn: term('letIn'),
    used: term('used'),
    out: term('out'),
  };
  const name = `oxygen in the room ${when}`;
  if (amounts.throughMembrane === 0) {
    return compute(
      name,
      'm3',
      'before + withNitrogen + withLeaks + atBeds + letIn - used - out',
      inputs,
      (v) => v.before + v.withNitrogen + v.withLeaks + v.atBeds + v.letIn - v.used - v.out,
    );
  }
  return compute(
    name,
    'm3',
    'before + withNitrogen + withLeaks + atBeds + letIn + throughMembrane - used - out',
    { ...inputs, throughMembrane: term('throughMembrane') },
    (v) => v.before + v.withNitrogen + v.withLeaks + v.atBeds + v.letIn + v.throughMembrane - v.used - v.out,
  );
}

function carbonDioxideSum(
  when: string,
  how: string,
  amounts: Readonly<Record<keyof typeof CARBON_DIOXIDE_TERMS, number>>,
): Figure<'kg'> {
  const term = (key: keyof typeof CARBON_DIOXIDE_TERMS) =>
    countedFigure(CARBON_DIOXIDE_TERMS[key], 'kg', amounts[key], how);
  return compute(
    `carbon dioxide in the room ${when}`,
    'kg',
    'before + made + withAir - scrubbed - out',
    {
      before: term('before'),
      made: term('made'),
      withAir: term('withAir'),
      scrubbed: term('scrubbed'),
      out: term('out'),
    },
    (v) => v.before + v.made + v.withAir - v.scrubbed - v.out,
  );
}
