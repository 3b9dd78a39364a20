import { type Day, firstDayOfWeek, formatDay, type Week } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import type { Plan, RefrigerationGroup } from '../plan/model';
import { type CoolingCourse, coldCooling } from '../room/cooling-course';
import { finite, type Keyed, sumById, sumLater, sumOf } from '../room/figures';
import { type MarchedDay, type MarchedDays, NOT_MARCHED } from '../room/marched';
import type { FilledRoom, IntakeDay } from '../room/types';
import { coolingInGroups } from './group-cooling';
import { type Openings, openingWeek } from './weeks';

export interface RefrigerationWeek {
  readonly week: Week;
  readonly load: Figure<'kW'>;
  /** Load as a share of the group's capacity. */
  readonly share?: Figure<'%'>;
}

/** A room's cooling by day over the season. */
export interface RoomLoad {
  readonly room: FilledRoom;
  /** From the first bin until its fruit has settled, hour by hour with the rooms of its group. */
  readonly marched: MarchedDays;
  /** The day it is opened; absent where it stays closed to the end of the season. */
  readonly opened?: Day;
  /** Last day the room is kept cold: when it has been emptied, or the end of the season. */
  readonly lastDay: Day;
}

/** All rooms with the days they are kept cold. An opened room stays cold until it is empty. */
export function roomLoads(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  opens: Openings | undefined,
  seasonEnds: Day,
  courses: ReadonlyMap<string, CoolingCourse> = coolingInGroups(plan, filled),
): RoomLoad[] {
  const daysToEmpty = plan.packing?.daysToEmpty.value ?? 7;
  return [...filled.values()].map((room) => {
    const opening = openingWeek(room, opens);
    const marched = courses.get(room.fill.id)?.marched ?? NOT_MARCHED;
    if (opening === undefined) return { room, marched, lastDay: seasonEnds };
    const opened = firstDayOfWeek(opening);
    return { room, marched, opened, lastDay: opened + daysToEmpty };
  });
}

/** Those that a group serves. */
export function loadsOn(group: RefrigerationGroup, loads: readonly RoomLoad[]): RoomLoad[] {
  return loads.filter(({ room }) => room.room.refrigerationGroup?.value === group.id);
}

/** Whether there is fruit in a room on a day, or there still is. */
export function keptCold({ room, lastDay }: RoomLoad, day: Day): boolean {
  const [first] = room.intake;
  return first !== undefined && day >= first.day && day <= lastDay;
}

/**
 * What a room asks of its group on a day, kW, and what it gets: as counted hour by hour while it is filled and cooled,
 * then its step down from a warm hold, or holding, and once it is opened what it asks while it is emptied. Undefined while there is nothing in it.
 */
export function kilowattsOn(
  load: RoomLoad,
  day: Day,
): { readonly asked: number; readonly taken: number } | undefined {
  const marched = marchedOn(load, day);
  if (marched) return { asked: marched.askedKw, taken: marched.takenKw };
  const cold = coldOn(load, day);
  return cold && { asked: cold.value, taken: cold.value };
}

function marchedOn({ marched, lastDay }: RoomLoad, day: Day): MarchedDay | undefined {
  return day <= lastDay ? marched.on(day) : undefined;
}

function coldOn(load: RoomLoad, day: Day): Figure<'kW'> | undefined {
  if (!keptCold(load, day)) return undefined;
  const emptied = load.opened !== undefined && day >= load.opened ? load.room.emptyingCooling : undefined;
  return emptied ?? coldCooling(load.room, day);
}

/** The same as `kilowattsOn` asks, with what it is made of. */
export function coolingOn(load: RoomLoad, day: Day): Figure<'kW'> | undefined {
  const marched = marchedOn(load, day);
  return marched ? marchedFigure(load.room, marched) : coldOn(load, day);
}

/** Its value alone, to the last bit: most of these figures nobody asks for. */
function coolingKw(load: RoomLoad, day: Day): number | undefined {
  const marched = marchedOn(load, day);
  return marched ? marchedKw(load.room, marched) : coldOn(load, day)?.value;
}

function marchedKw({ intake }: FilledRoom, marched: MarchedDay): number {
  const [first] = intake;
  const beside = first ? besideKw(first, loadedOn(intake, marched.day)) : marched.besideKw;
  const sum = marched.fruitKw + marched.respirationKw + beside;
  const beyond = beyondCoolerKw(marched);
  return beyond === undefined ? sum : sum - beyond;
}

/** What its cooler does not take; undefined where it takes all of it. */
function beyondCoolerKw({ wantedKw, askedKw }: MarchedDay): number | undefined {
  const beyond = wantedKw - askedKw;
  return beyond > 1e-9 * wantedKw ? beyond : undefined;
}

function loadedOn(intake: readonly IntakeDay[], on: Day): boolean {
  return intake.some(({ day }) => day === on);
}

function besideKw(day: IntakeDay, loading: boolean): number {
  const closed = day.transmissionHeat.value + day.fanHeat.value;
  if (!loading) return closed;
  return (
    closed + day.airChangeHeat.value + day.lightHeat.value + day.vehicleHeat.value + day.peopleHeat.value
  );
}

const HOUR_BY_HOUR = "mean of the day, hour by hour over all days' fruit";

function marchedFigure({ fill, intake }: FilledRoom, marched: MarchedDay): Figure<'kW'> {
  const [first] = intake;
  const loading = loadedOn(intake, marched.day);
  const fruit = countedFigure('heat that fruit and bins give up', 'kW', marched.fruitKw, HOUR_BY_HOUR);
  const respiration = countedFigure('heat of respiration', 'kW', marched.respirationKw, HOUR_BY_HOUR);
  const beside = first
    ? besideFigure(first, loading)
    : countedFigure('heat through the fabric and of fans', 'kW', marched.besideKw, HOUR_BY_HOUR);
  const name = `cooling that ${fill.id} asks for on ${formatDay(marched.day)}`;
  const beyond = beyondCoolerKw(marched);
  if (beyond === undefined)
    return compute(
      name,
      'kW',
      'fruit + respiration + beside',
      { fruit, respiration, beside },
      (v) => v.fruit + v.respiration + v.beside,
    );
  const beyondCooler = countedFigure('heat beyond its own cooler', 'kW', beyond, HOUR_BY_HOUR);
  return compute(
    name,
    'kW',
    'fruit + respiration + beside - beyondCooler',
    { fruit, respiration, beside, beyondCooler },
    (v) => v.fruit + v.respiration + v.beside - v.beyondCooler,
  );
}

/** What comes in beside the fruit's heat, from the day's own terms. */
function besideFigure(day: IntakeDay, loading: boolean): Figure<'kW'> {
  return sumOf(loading ? 'heat of fabric, fans, air and work' : 'heat of fabric and fans', 'kW', [
    ['fabric', day.transmissionHeat],
    ['fans', day.fanHeat],
    ...(loading
      ? ([
          ['air', day.airChangeHeat],
          ['lights', day.lightHeat],
          ['vehicles', day.vehicleHeat],
          ['people', day.peopleHeat],
        ] as const)
      : []),
  ]);
}

/** Of each week the day on which all rooms together ask most, and what they ask. The weeks follow one another. */
export function refrigerationWeeks(
  weeks: readonly Week[],
  group: RefrigerationGroup,
  loads: readonly RoomLoad[],
): RefrigerationWeek[] {
  const begins = firstDayOfWeek(weeks[0] ?? 0);
  const totals = new Float64Array(7 * weeks.length);
  for (const load of loads) addCooling(totals, begins, load);
  return weeks.map((week, index) => {
    let highest = 7 * index;
    for (let at = highest + 1; at < 7 * index + 7; at++)
      if ((totals[at] ?? 0) > (totals[highest] ?? 0)) highest = at;
    const load = groupLoad(begins + highest, loads).asked;
    const share = group.capacity && finite(shareOf(load, group.capacity));
    return { week, load, share };
  });
}

/** Adds what a room asks on each day as `kilowattsOn` tells, kW, to days that begin with `first`. */
function addCooling(days: Float64Array, first: Day, { room, marched, opened, lastDay }: RoomLoad): void {
  const filled = room.intake[0]?.day;
  const emptying = opened === undefined ? undefined : room.emptyingCooling?.value;
  const ends = Math.min(first + days.length - 1, lastDay);
  for (let day = Math.max(first, filled ?? lastDay); day <= ends; day++) {
    let asked = marched.askedKw(day);
    if (asked === undefined && filled !== undefined)
      asked =
        emptying !== undefined && opened !== undefined && day >= opened
          ? emptying
          : coldCooling(room, day)?.value;
    days[day - first] = (days[day - first] ?? 0) + (asked ?? 0);
  }
}

/** What all rooms of a group ask on a day, and by fill. */
export function groupLoad(
  day: Day,
  loads: readonly RoomLoad[],
): {
  readonly asked: Figure<'kW'>;
  readonly byFill: readonly (readonly [fill: string, kilowatts: number])[];
} {
  const byFill: (readonly [string, number])[] = [];
  let sum = 0;
  for (const load of loads) {
    const kilowatts = coolingKw(load, day);
    if (kilowatts === undefined) continue;
    sum += kilowatts;
    byFill.push([load.room.fill.id, kilowatts]);
  }
  const parts = () =>
    loads.flatMap((load): Keyed<'kW'>[] => {
      const cooling = coolingOn(load, day);
      return cooling ? [[load.room.fill.id, cooling]] : [];
    });
  const name = `cooling on ${formatDay(day)}`;
  const asked =
    byFill.length === 0 ? sumById(name, 'kW', 'fill', []) : sumLater(name, 'kW', 'fill', sum, parts);
  return { asked, byFill };
}

/** What the group gives of it: no more than it has, nor than its rooms' coolers take. */
export function groupTaken(
  day: Day,
  group: RefrigerationGroup,
  loads: readonly RoomLoad[],
  asked: Figure<'kW'>,
): Figure<'kW'> {
  const sum = loads.reduce((all, load) => all + (kilowattsOn(load, day)?.taken ?? 0), 0);
  const taken = Math.min(sum, group.capacity?.value ?? Number.POSITIVE_INFINITY);
  if (taken >= asked.value * (1 - 1e-9)) return asked;
  return countedFigure(
    `cooling given on ${formatDay(day)}`,
    'kW',
    taken,
    'what the group gives of what is asked',
  );
}

function shareOf(load: Figure<'kW'>, capacity: Figure<'kW'>): Figure<'%'> {
  return compute(
    'load of the refrigeration group',
    '%',
    '100 * load / capacity',
    { load, capacity },
    (v) => (100 * v.load) / v.capacity,
  );
}
