import {
  type ClaimPeriod,
  claimFrom,
  daysCutShort,
  fivePercentDue,
  newYorkPeriod,
  washingtonPeriod,
} from '../keeping/law';
import type { Day } from '../plan/dates';
import type { Room } from '../plan/model';
import type { Progress } from '../plan/record-model';
import type { Minute, RoomReadings } from '../readings/types';
import type { FilledRoom, LotInRoom } from '../room/types';
import { type WatchedQuantity, watchedQuantities } from './types';

export type Law = Exclude<Room['law'], 'none'>;

/** A day of one quantity. */
export interface CaReading {
  /** The first reading of the day. */
  readonly time: Minute;
  readonly value: number;
  readonly lowest: number;
  readonly highest: number;
  readonly count: number;
}

export interface CaDay {
  readonly day: Day;
  readonly readings: Readonly<Partial<Record<WatchedQuantity, CaReading>>>;
}

export const caDates = ['first-bin', 'last-bin', 'sealed', 'five-per-cent', 'opened', 'emptied'] as const;
export type CaDate = (typeof caDates)[number];

/** A date of the record: from the plan's records, or from the readings; `planned` where nobody recorded it. */
export interface CaDateOf {
  readonly day: Day;
  readonly by: 'record' | 'readings' | 'plan';
}

export interface CaClaim {
  readonly variety: string;
  readonly period: ClaimPeriod | undefined;
  /** First day on which the claim may be made, as far as this record tells. */
  readonly from: Day | undefined;
}

/** Something the record lacks, or that speaks against a claim. */
export interface CaLack {
  readonly what: string;
  /** First and last day, where it is about days. */
  readonly days?: readonly [Day, Day];
}

/** What a "CA" claim of a fill rests on. A planning aid: the text in force and the state's inspectors decide. */
export interface CaRecord {
  readonly room: string;
  readonly fill: string;
  readonly law: Law;
  readonly dates: Readonly<Partial<Record<CaDate, CaDateOf>>>;
  /** The last day of the record: the day before opening, or the day it is looked at from. */
  readonly until: Day;
  readonly varieties: readonly { readonly variety: string; readonly bins: number }[];
  readonly days: readonly CaDay[];
  readonly claims: readonly CaClaim[];
  readonly lacks: readonly CaLack[];
}

const MINUTES_A_DAY = 1440;
const FIVE = 5;

/**
 * The record of a fill of a sealed room as it stands on `until`. Dates count only as they were recorded or read; a date
 * that is only planned is lacking. What is read in the room belongs to the fill up to the day before its opening, or where
 * none is recorded before it was empty, or before `next`, the first day of the room's next fill.
 */
export function caRecord(
  filled: FilledRoom,
  law: Law,
  progress: Progress | undefined,
  readings: RoomReadings | undefined,
  until: Day,
  next?: Day | undefined,
): CaRecord {
  const { fill, room } = filled;
  const sealed = progress?.sealed?.value ?? fill.sealed?.value;
  const ends = progress?.opened?.value ?? progress?.emptied?.value ?? next;
  const last = Math.min(
    until,
    (ends ?? Number.POSITIVE_INFINITY) - 1,
    (next ?? Number.POSITIVE_INFINITY) - 1,
  );
  const isFilledAgain = !progress?.opened && !progress?.emptied && next !== undefined && next <= until;
  const days = sealed === undefined ? [] : caDays(readings, sealed, last);
  const dates = datesOf(filled, progress, days, until);
  const claims = claimsOf(filled, law, dates, isFilledAgain ? next : undefined);
  return {
    room: room.id,
    fill: fill.id,
    law,
    dates,
    until: last,
    varieties: namesOf(filled).map((variety) => ({
      variety,
      bins: filled.lots
        .filter((lot) => nameOf(lot) === variety)
        .reduce((sum, { bins }) => sum + bins.value, 0),
    })),
    days,
    claims,
    lacks: [
      ...lacksOf(filled, law, progress, dates, days, claims),
      ...(isFilledAgain ? [{ what: FILLED_AGAIN, days: [next, next] as const }] : []),
    ],
  };
}

/** Varieties as the plan names them: `Red Delicious`, where the built-in name is `Delicious`. */
function namesOf({ lots }: FilledRoom): string[] {
  return [...new Set(lots.map(nameOf))];
}

function nameOf({ lot, variety }: LotInRoom): string {
  return lot.variety?.value ?? variety.name;
}

/** Whether the rule as it was read asks for readings every day. */
export function wantsDaily(law: Room['law']): boolean {
  return law === 'washington';
}

const FILLED_AGAIN =
  'No record of the opening, and the room’s next fill begins: what is read from then on is taken as of that one';

function caDays(readings: RoomReadings | undefined, sealed: Day, last: Day): CaDay[] {
  const byDay = new Map<Day, Partial<Record<WatchedQuantity, CaReading>>>();
  for (const quantity of readings ? watchedQuantities : []) {
    const values = readings?.values[quantity];
    readings?.times.forEach((time, index) => {
      const value = values?.[index] ?? Number.NaN;
      const day = Math.floor(time / MINUTES_A_DAY);
      if (Number.isNaN(value) || day < sealed || day > last) return;
      const ofDay = byDay.get(day) ?? {};
      const before = ofDay[quantity];
      ofDay[quantity] = before
        ? {
            ...before,
            lowest: Math.min(before.lowest, value),
            highest: Math.max(before.highest, value),
            count: before.count + 1,
          }
        : { time, value, lowest: value, highest: value, count: 1 };
      byDay.set(day, ofDay);
    });
  }
  return Array.from({ length: Math.max(0, last - sealed + 1) }, (_, index) => ({
    day: sealed + index,
    readings: byDay.get(sealed + index) ?? {},
  }));
}

function datesOf(
  { fill }: FilledRoom,
  progress: Progress | undefined,
  days: readonly CaDay[],
  until: Day,
): CaRecord['dates'] {
  const date = (recorded: Day | undefined, planned: Day | undefined): CaDateOf | undefined => {
    if (recorded !== undefined) return { day: recorded, by: 'record' };
    return planned !== undefined && planned <= until ? { day: planned, by: 'plan' } : undefined;
  };
  const read = days.find(({ readings }) => (readings.oxygen?.lowest ?? 100) <= FIVE)?.day;
  const five = progress?.lowOxygen?.value;
  const written = fill.planned ?? fill;
  return {
    ...given('first-bin', date(progress?.firstBin?.value, written.firstBin?.value)),
    ...given('last-bin', date(progress?.lastBin?.value, written.lastBin?.value)),
    ...given('sealed', date(progress?.sealed?.value, written.sealed?.value)),
    ...given(
      'five-per-cent',
      five !== undefined
        ? { day: five, by: 'record' }
        : read !== undefined
          ? { day: read, by: 'readings' }
          : undefined,
    ),
    ...given('opened', date(progress?.opened?.value, undefined)),
    ...given('emptied', date(progress?.emptied?.value, undefined)),
  };
}

function given(key: CaDate, date: CaDateOf | undefined): Partial<Record<CaDate, CaDateOf>> {
  return date ? { [key]: date } : {};
}

/** `again`: the day from which the room is filled anew, where neither its opening nor its end is on record. */
function claimsOf(filled: FilledRoom, law: Law, dates: CaRecord['dates'], again: Day | undefined): CaClaim[] {
  const [firstBin, sealed, five] = [dates['first-bin'], dates.sealed, dates['five-per-cent']];
  return namesOf(filled).map((variety) => {
    if (!firstBin || !sealed || !five) return { variety, period: undefined, from: undefined };
    const days = { firstBin: firstBin.day, sealed: sealed.day, fivePercent: five.day };
    const asked = (law === 'new-york' ? newYorkPeriod : washingtonPeriod)(variety, days);
    const period = endedBefore(asked, five.day, dates, again);
    return { variety, period, from: claimFrom(period, five.day) };
  });
}

/** A period that ended too soon makes no claim, however well the room was kept. */
function endedBefore(
  period: ClaimPeriod,
  five: Day,
  { opened, emptied }: CaRecord['dates'],
  again: Day | undefined,
): ClaimPeriod {
  const ended = opened?.day ?? emptied?.day ?? again;
  const kept = ended === undefined ? undefined : daysCutShort(period, five, ended);
  if (kept === undefined || period.kind !== 'days') return period;
  const how = opened ? 'opened' : emptied ? 'empty' : 'filled again';
  return {
    kind: 'no claim',
    why: `${how} after ${kept} of ${period.days} days (${period.rule})`,
    source: period.source,
  };
}

const NAMES: Readonly<Record<WatchedQuantity, string>> = {
  oxygen: 'oxygen',
  'carbon-dioxide': 'carbon dioxide',
  temperature: 'temperature',
};

const DATES: Readonly<Record<CaDate, string>> = {
  'first-bin': 'the day the first bin came in',
  'last-bin': 'the day the last bin came in',
  sealed: 'the day the room was sealed',
  'five-per-cent': 'the day oxygen was at 5 %',
  opened: 'the day the room was opened',
  emptied: 'the day the room was empty',
};

function lacksOf(
  { lots, fill }: FilledRoom,
  law: Law,
  progress: Progress | undefined,
  dates: CaRecord['dates'],
  days: readonly CaDay[],
  claims: readonly CaClaim[],
): CaLack[] {
  const needed: readonly CaDate[] = ['first-bin', 'last-bin', 'sealed'];
  const unrecorded = needed
    .filter((date) => dates[date]?.by !== 'record')
    .map((date) => ({
      what: `No record of ${DATES[date]}${dates[date] ? ', only of the one planned' : ''}: write it under progress.`,
    }));
  return [
    ...unrecorded,
    ...(progress && progress.lots.length > 0
      ? []
      : [
          {
            what: `No record of the bins of each lot that went in: those of ${lots.length === 1 ? 'its lot' : 'its lots'} are planned.`,
          },
        ]),
    ...fiveLacks(law, progress, dates, days),
    ...watchedQuantities.flatMap((quantity) =>
      runs(days.filter(({ readings }) => !readings[quantity]).map(({ day }) => day)).map((span) => ({
        what: `No reading of ${NAMES[quantity]}${wantsDaily(law) ? '' : ' (what was read of the rule does not say how often)'}`,
        days: span,
      })),
    ),
    ...claims.flatMap(({ variety, period }) =>
      period?.kind === 'no claim' ? [{ what: `No claim for ${variety}: ${period.why}.` }] : [],
    ),
    ...(progress?.emptied && !progress.opened
      ? [{ what: `${fill.id} is on record as empty, and no day of its opening is.` }]
      : []),
  ];
}

/** Oxygen: when it came to 5 %, and the days on which it was read above. */
function fiveLacks(
  law: Law,
  progress: Progress | undefined,
  dates: CaRecord['dates'],
  days: readonly CaDay[],
): CaLack[] {
  const five = dates['five-per-cent'];
  const sealed = dates.sealed?.day;
  if (!five) {
    const due = sealed === undefined ? undefined : fivePercentDue(sealed);
    return [
      {
        what: `Neither record nor reading of oxygen at 5 % or below${due === undefined ? '.' : ', due within 20 days of sealing'}`,
        ...(due === undefined ? {} : { days: [due, due] as const }),
      },
    ];
  }
  const read = days.find(({ readings }) => (readings.oxygen?.lowest ?? 100) <= FIVE)?.day;
  const differs = progress?.lowOxygen && read !== undefined && read > progress.lowOxygen.value;
  const above = days.filter(({ day, readings }) => day > five.day && (readings.oxygen?.highest ?? 0) > FIVE);
  return [
    ...(five.by === 'readings'
      ? [{ what: 'The day oxygen was at 5 % is read, not recorded: write low-oxygen under progress.' }]
      : []),
    ...(differs
      ? [
          {
            what: 'Oxygen is on record as at 5 % or below before a reading shows it',
            days: [progress.lowOxygen.value, read] as const,
          },
        ]
      : []),
    ...runs(above.map(({ day }) => day)).map((span) => ({
      what: `Oxygen was read above 5 %, single readings too${law === 'washington' ? ': the days count only where they are continuous' : ''}`,
      days: span,
    })),
  ];
}

/** Days that follow one another, as first and last. */
export function runs(days: readonly Day[]): [Day, Day][] {
  const found: [Day, Day][] = [];
  for (const day of days) {
    const last = found.at(-1);
    if (last && last[1] === day - 1) last[1] = day;
    else found.push([day, day]);
  }
  return found;
}
