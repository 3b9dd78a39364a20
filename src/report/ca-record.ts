import type { ComputedSeason } from '../findings/types';
import { sources } from '../fruit/sources';
import { fivePercentDue } from '../keeping/law';
import { type Day, formatDay } from '../plan/dates';
import { type DisplayUnits, measure, type UnitSystem } from '../plan/display';
import type { Source, Unit } from '../plan/figure';
import { timeText } from '../readings/time-text';
import type { RoomReadings } from '../readings/types';
import { caution } from '../room/caution';
import type { FilledRoom } from '../room/types';
import { type CaDateOf, type CaReading, type CaRecord, caRecord, type Law } from '../watching/ca-record';
import { displayUnits } from './explain';
import { planPart, present } from './parts';
import type { CaRecordReport } from './schemas';

export type CaRecordJson = CaRecordReport['records'][number];

/** What stands on everything that is printed of it. */
export const AID =
  'This is an aid to keeping the record that a "CA" claim needs, made from the plan and the readings beside it. The text of the rule in force governs, and the inspectors of the state decide.';

const RULES: Readonly<Record<Law, readonly Source[]>> = {
  washington: [sources.washingtonRecordRule, sources.washingtonCaRule],
  'new-york': [sources.newYorkCaLaw, sources.newYorkCaRule],
};

const REMINDERS: Readonly<Record<Law, readonly string[]>> = {
  washington: [
    'The rule also wants where the file is kept, and notice to the department before the room is opened and before its fruit is packed.',
    'Carbon dioxide, oxygen and temperature are to be read at least daily, each with its time.',
  ],
  'new-york': [
    'The record of the room is kept beside it from sealing to opening, and open to review for one year.',
  ],
};

/** The records of all fills of rooms with a law that have begun by a day; of one room if asked. */
export function caRecordReport(
  season: ComputedSeason,
  readings: ReadonlyMap<string, RoomReadings>,
  until: Day,
  {
    units: system,
    room,
  }: { readonly units?: UnitSystem | undefined; readonly room?: string | undefined } = {},
): CaRecordReport {
  const units = displayUnits(season.plan, system);
  const records = [...season.filled.values()].flatMap((filled) => {
    const { law, id } = filled.room;
    const begins = (filled.fill.planned ?? filled.fill).firstBin?.value ?? filled.fill.firstBin?.value;
    if (law === 'none' || (room !== undefined && id !== room) || !filled.fill.sealed) return [];
    if (begins === undefined || begins > until) return [];
    const progress = season.plan.progress.get(filled.fill.id);
    const next = nextFill(season, filled);
    return [recordJson(caRecord(filled, law, progress, readings.get(id), until, next), units)];
  });
  return {
    format: 'lotwright-ca-record-report',
    version: 1,
    plan: planPart(season.plan),
    units: units.system,
    aid: AID,
    records,
    caution,
  };
}

/** The first day of the room's next fill. */
function nextFill({ filled }: ComputedSeason, { fill, room }: FilledRoom): Day | undefined {
  const own = fill.firstBin?.value;
  const days = [...filled.values()].flatMap((other) =>
    other.room.id === room.id && other.fill.id !== fill.id ? (other.fill.firstBin?.value ?? []) : [],
  );
  const later = days.filter((day) => own !== undefined && day > own);
  return later.length === 0 ? undefined : Math.min(...later);
}

function recordJson(record: CaRecord, units: DisplayUnits): CaRecordJson {
  const { law, dates } = record;
  const sealed = dates.sealed?.day;
  return present({
    room: record.room,
    fill: record.fill,
    law,
    rules: RULES[law].map(({ citation, known }) => ({ citation, known })),
    until: formatDay(record.until),
    varieties: [...record.varieties],
    dates: present({
      firstBin: dateJson(dates['first-bin']),
      lastBin: dateJson(dates['last-bin']),
      sealed: dateJson(dates.sealed),
      fivePerCent: dateJson(dates['five-per-cent']),
      opened: dateJson(dates.opened),
      emptied: dateJson(dates.emptied),
    }),
    fivePerCentDue: sealed === undefined ? undefined : formatDay(fivePercentDue(sealed)),
    claims: record.claims.map(({ variety, period, from }) =>
      present({
        variety,
        days: period?.kind === 'days' ? period.days : undefined,
        rule: period?.kind === 'days' ? period.rule : undefined,
        from: from === undefined ? undefined : formatDay(from),
        why: period?.kind === 'no claim' ? period.why : undefined,
      }),
    ),
    lacks: record.lacks.map(({ what, days }) =>
      present({ what, from: days && formatDay(days[0]), to: days && formatDay(days[1]) }),
    ),
    reminders: [...REMINDERS[law]],
    days: record.days.map(({ day, readings }) =>
      present({
        day: formatDay(day),
        oxygen: readingJson(readings.oxygen, '%', units),
        carbonDioxide: readingJson(readings['carbon-dioxide'], '%', units),
        temperature: readingJson(readings.temperature, 'degC', units),
      }),
    ),
  });
}

function dateJson(date: CaDateOf | undefined) {
  return date && { day: formatDay(date.day), by: date.by };
}

function readingJson(reading: CaReading | undefined, unit: Unit, units: DisplayUnits) {
  if (!reading) return undefined;
  const shown = (value: number) => measure(Number(value.toFixed(3)), unit, units) ?? { value, unit: '' };
  return {
    time: timeText(reading.time).slice(11),
    value: shown(reading.value),
    lowest: shown(reading.lowest),
    highest: shown(reading.highest),
    count: reading.count,
  };
}
