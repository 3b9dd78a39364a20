import { type Day, firstDayOfWeek, formatWeek, type Week } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import type { NitrogenSource } from '../plan/model';
import { formulaKeys, type Keyed, sumOf } from '../room/figures';
import type { NitrogenQueue, NitrogenTurn } from './nitrogen-queue';
import { daysInUse } from './out-of-use';

const hoursInWeek = countedFigure('hours in a week', 'h', 168, 'seven days of 24 hours');

export interface NitrogenWeek {
  readonly week: Week;
  /** Hours asked: what the weeks before left undone, and the flushes of the rooms sealed in this one. */
  readonly hours: Figure<'h'>;
  /** Of it, what the weeks before left. */
  readonly carried: Figure<'h'>;
  /** Hours the source runs in the week, room after room. */
  readonly runs: Figure<'h'>;
  /** What is left for the next week. */
  readonly left: Figure<'h'>;
  /** Hours asked as a share of the week. */
  readonly share: Figure<'%'>;
}

/** Hours for which a source works for a room between two days, both included. */
export function hoursBetween({ sealed, waits, flushed }: NitrogenTurn, first: Day, last: Day): number {
  const [begins, ends] = [24 * sealed + waits.value, 24 * sealed + flushed.value];
  return Math.max(0, Math.min(ends, 24 * last + 24) - Math.max(begins, 24 * first));
}

/** A source's hours by week, as its queue comes to them. Each week's rest is carried to the next. */
export function nitrogenWeeks(
  weeks: readonly Week[],
  { turns, source }: Pick<NitrogenQueue, 'turns'> & Partial<Pick<NitrogenQueue, 'source'>>,
): NitrogenWeek[] {
  const [first] = weeks;
  let carried = first === undefined ? NOTHING_LEFT : leftBefore(first, turns);
  return weeks.map((week) => {
    const one = nitrogenWeek(week, turns, carried, hoursInUse(source, week));
    carried = one.left;
    return one;
  });
}

const NOTHING_LEFT = countedFigure('hours left from the week before', 'h', 0, 'nothing is left');

/** Of rooms sealed before the first week that is asked for, what they still need from it on. */
function leftBefore(week: Week, turns: readonly NitrogenTurn[]): Figure<'h'> {
  const from = firstDayOfWeek(week);
  const left = turns
    .filter(({ sealed }) => sealed < from)
    .reduce((sum, turn) => sum + hoursBetween(turn, from, Number.POSITIVE_INFINITY), 0);
  return left > 0
    ? countedFigure('hours left from the weeks before', 'h', left, 'rooms still to be flushed')
    : NOTHING_LEFT;
}

/** Hours of the week in which the source may run. One that stands still all week has them asked of a whole one. */
function hoursInUse(source: NitrogenSource | undefined, week: Week): Figure<'h'> {
  const days = daysInUse(source?.outOfUse, week);
  if (days === 7 || days === 0) return hoursInWeek;
  return countedFigure('hours in which the source may run', 'h', 24 * days, 'days out of use left out');
}

function nitrogenWeek(
  week: Week,
  turns: readonly NitrogenTurn[],
  carried: Figure<'h'>,
  hoursThere: Figure<'h'>,
): NitrogenWeek {
  const first = firstDayOfWeek(week);
  const sealed: NitrogenTurn[] = [];
  let ran = 0;
  for (const turn of turns) {
    if (turn.sealed >= first && turn.sealed < first + 7) sealed.push(turn);
    ran += hoursBetween(turn, first, first + 6);
  }
  if (sealed.length === 0 && ran === 0 && carried === NOTHING_LEFT && hoursThere === hoursInWeek)
    return { week, ...IDLE };
  const keys = formulaKeys(
    'fill',
    sealed.map(({ room }) => room.fill.id),
  );
  const asked = sealed.map(({ flush }, index): Keyed<'h'> => [keys[index] ?? '', flush]);
  if (carried.value > 0) asked.unshift(['carried', carried]);
  const hours = hoursAsked(asked);
  const runs = hoursRun(ran);
  return {
    week,
    hours,
    carried,
    runs,
    left: leftOf(week, hours, runs),
    share: shareOfWeek(hours, hoursThere),
  };
}

function hoursAsked(asked: readonly Keyed<'h'>[]): Figure<'h'> {
  return sumOf('hours of nitrogen asked in the week', 'h', asked);
}

function hoursRun(ran: number): Figure<'h'> {
  return countedFigure(
    'hours the source runs in the week',
    'h',
    ran,
    'rooms flushed one after another, each from the day it is sealed on',
  );
}

function shareOfWeek(hours: Figure<'h'>, hoursThere: Figure<'h'>): Figure<'%'> {
  return compute(
    'hours of nitrogen asked, of the week',
    '%',
    '100 * hours / hoursInWeek',
    { hours, hoursInWeek: hoursThere },
    (v) => (100 * v.hours) / v.hoursInWeek,
  );
}

/** A week in which nothing is asked, as most of a season are: they have their figures in common. */
const IDLE: Omit<NitrogenWeek, 'week'> = {
  hours: hoursAsked([]),
  carried: NOTHING_LEFT,
  runs: hoursRun(0),
  left: NOTHING_LEFT,
  share: shareOfWeek(hoursAsked([]), hoursInWeek),
};

/** Below a millionth of an hour nothing is left but rounding. */
function leftOf(week: Week, hours: Figure<'h'>, runs: Figure<'h'>): Figure<'h'> {
  if (hours.value - runs.value < 1e-6) return NOTHING_LEFT;
  return compute(
    `hours left from ${formatWeek(week)}`,
    'h',
    'asked - runs',
    { asked: hours, runs },
    (v) => v.asked - v.runs,
  );
}
