import { type Consequence, type Direction, gravities } from '../compare/types';
import { formatDay } from '../plan/dates';
import { type DisplayUnits, showFigure } from '../plan/display';
import { counted } from '../plan/wording';
import { inNoRoom } from '../scenario/in-no-room';
import { consequenceText } from './compare-words';
import type { SideBySide, ToldSeason } from './scenario-season';
import type { WhatIfReport } from './schemas';

type Told = WhatIfReport['consequences'][number];

/** What follows from a scenario, the worse first and the gravest before: an error comes before all else. */
export function consequencesOf(side: SideBySide, units: DisplayUnits): Told[] {
  const isComparable = roomsOverfilled(side) === 0;
  const compared = side.consequences.filter(({ kind }) => isComparable || kind !== 'value');
  return [
    ...compared.map((one) => consequenceJson(one, units)),
    ...leftOver(side),
    ...setPoints(side, units),
  ].sort((a, b) => rankOf(a) - rankOf(b));
}

function consequenceJson(one: Consequence, units: DisplayUnits): Told {
  const { kind, gravity, direction } = one;
  return { kind, text: consequenceText(one, units), gravity, direction };
}

const DIRECTIONS: readonly Direction[] = ['worse', 'better', 'neither'];

function rankOf({ direction, gravity }: Pick<Told, 'direction' | 'gravity'>): number {
  return DIRECTIONS.indexOf(direction) * gravities.length + gravityRank(gravity);
}

/** 0 for the gravest. */
export function gravityRank(gravity: string): number {
  const names: readonly string[] = gravities;
  return names.indexOf(gravity);
}

/** Rooms that hold too many bins only with the scenario: what it is worth then is worth of fruit that has no room. */
export function roomsOverfilled({ newFindings }: Pick<SideBySide, 'newFindings'>): number {
  return newFindings.filter(({ code }) => code === 'room-overfilled').length;
}

/** Bins that have no room with the scenario and have one, or are not there, in the base. */
function leftOver({ base, over }: SideBySide): Told[] {
  const [was, is] = [inNoRoom(base.season.plan), inNoRoom(over.season.plan)];
  const packed = Math.max(0, is.packedAtHarvest - was.packedAtHarvest);
  const left = Math.max(0, is.leftOver - was.leftOver);
  if (packed + left < 0.5) return [];
  const parts = [
    ...(packed >= 0.5 ? [`${counted(packed, 'bin')} to be packed at harvest, as their lots say`] : []),
    ...(left >= 0.5
      ? [
          `${counted(left, 'bin')} left over, for which nothing is reckoned: the plan does not say where they go`,
        ]
      : []),
  ];
  const text = `${counted(packed + left, 'bin')} more than in the base ${packed + left < 1.5 ? 'has' : 'have'} no room: ${parts.join('; ')}`;
  return [{ kind: 'bins-in-no-room', text, gravity: 'warning', direction: 'worse' }];
}

/** Less is no matter of days. */
const LEAST_HOURS = 12;

/** Rooms whose oxygen comes to its set-point so much later or sooner, the latest first. */
function setPoints({ base, over }: SideBySide, units: DisplayUnits): Told[] {
  return [...over.season.filled]
    .flatMap(([fill, { regime }]) => {
      const [was, is] = [arrivalOf(base, fill), arrivalOf(over, fill)];
      if (!was || !is || was.hour === is.hour || !regime?.oxygen) return [];
      const hours = is.hour - was.hour;
      if (Math.abs(hours) < LEAST_HOURS) return [];
      const oxygen = showFigure(regime.oxygen, units);
      const text =
        is.hour === Number.POSITIVE_INFINITY
          ? `${fill}: never reaches its ${oxygen} oxygen, in the base on ${was.day}`
          : `${fill}: reaches its ${oxygen} oxygen on ${is.day}${was.day === undefined ? ', in the base never' : `, ${byHours(hours)} than in the base`}`;
      return [{ text, hours }];
    })
    .sort((a, b) => b.hours - a.hours)
    .map(({ text, hours }) => ({
      kind: 'set-point',
      text,
      gravity: 'shift',
      direction: hours > 0 ? ('worse' as const) : ('better' as const),
    }));
}

/** `3.0 days later`. */
function byHours(hours: number): string {
  return `${(Math.abs(hours) / 24).toFixed(1)} days ${hours > 0 ? 'later' : 'sooner'}`;
}

/** When a sealed room's oxygen comes to its set-point, as hours since 1970-01-01; never is without end. */
function arrivalOf({ season }: ToldSeason, fill: string) {
  const course = season.courses?.courses.get(fill);
  if (!course) return undefined;
  const hours = course.hoursToSetPoint?.value;
  if (hours === undefined) return { hour: Number.POSITIVE_INFINITY, day: undefined };
  return { hour: 24 * course.sealed + hours, day: formatDay(course.sealed + Math.floor(hours / 24)) };
}
