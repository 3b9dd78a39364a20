import type { ComputedSeason } from '../findings/types';
import { formatDay } from '../plan/dates';
import { type DisplayUnits, fixed, type Measure, measure, measureOf, type UnitSystem } from '../plan/display';
import type { Unit } from '../plan/figure';
import { counted } from '../plan/wording';
import { type QuantitySummary, summaryOfRunning } from '../readings/summary';
import { timeText } from '../readings/time-text';
import type { FileReadings, ReadQuantity } from '../readings/types';
import { caution } from '../room/caution';
import { watchLimits } from '../watching/limits';
import type { RoomRecord } from '../watching/record';
import { displayUnits } from './explain';
import { noPaint, type Paint } from './paint';
import { planPart, present } from './parts';
import { expectedAt, fillAt, isOpenedAt, setPointOf } from './readings-beside';
import type { ReadingsReport } from './schemas';
import { sightingsText } from './sightings-text';
import { type Column, PAGE_WIDTH, table, wrap } from './table';
import { expectedOf, sightingsJson } from './watching';

/** One file of readings as it was read. */
export interface ReadFile {
  readonly readings: string;
  readonly file: string;
  readonly read: Pick<FileReadings, 'rows' | 'repeated' | 'notTaken' | 'faults'>;
  /** Rows that were read this time, where the others are known from a time before. */
  readonly newRows?: number | undefined;
}

type QuantityJson = ReadingsReport['rooms'][number]['quantities'][number];

const MINUTES_A_DAY = 1440;
const UNITS: Readonly<Record<ReadQuantity, Unit>> = {
  oxygen: '%',
  'carbon-dioxide': '%',
  temperature: 'degC',
  humidity: '%',
};

/** What the files hold of each room, beside what the plan expects of it, and what was seen in it; of one room if asked. */
export function readingsReport(
  season: ComputedSeason,
  files: readonly ReadFile[],
  records: ReadonlyMap<string, RoomRecord>,
  {
    units: system,
    room,
  }: { readonly units?: UnitSystem | undefined; readonly room?: string | undefined } = {},
): ReadingsReport {
  const units = displayUnits(season.plan, system);
  const sightings = sightingsJson(season, expectedOf(season), records, units);
  return {
    format: 'lotwright-readings-report',
    version: 1,
    plan: planPart(season.plan),
    units: units.system,
    files: files.map(({ readings, file, read, newRows }) => ({
      readings,
      file,
      rows: read.rows,
      repeated: read.repeated,
      notTaken: read.notTaken,
      ...(newRows === undefined ? {} : { newRows }),
      faults: read.faults.map(({ line, reason }) => ({ line, reason })),
    })),
    rooms: [...records]
      .filter(([id]) => room === undefined || id === room)
      .map(([id, record]) => roomPart(season, id, record, units)),
    sightings: sightings.filter((one) => room === undefined || one.room === room),
    limits: watchLimits().map((limit) => ({
      name: limit.name,
      value: measureOf(limit, units) ?? { value: limit.value, unit: limit.unit },
      source:
        limit.origin.kind === 'reference' ? limit.origin.source : { citation: '', known: 'common practice' },
    })),
    caution,
  };
}

function roomPart(
  season: ComputedSeason,
  room: string,
  { running, watch }: RoomRecord,
  units: DisplayUnits,
): ReadingsReport['rooms'][number] {
  const last = watch.last ?? 0;
  const filled = fillAt(season, room, Math.floor(last / MINUTES_A_DAY));
  const { latest, reference } = watch.breathing;
  const rise = (rate: number | null) => (rate === null ? undefined : Number((24 * rate).toFixed(4)));
  return present({
    room,
    fill: filled?.fill.id,
    quantities: summaryOfRunning(running).map((summary) => quantityPart(season, filled, summary, units)),
    rise: present({ latest: rise(latest), reference: rise(reference) }),
  });
}

function quantityPart(
  season: ComputedSeason,
  filled: ReturnType<typeof fillAt>,
  summary: QuantitySummary,
  units: DisplayUnits,
): QuantityJson {
  const { quantity, last, longestGap } = summary;
  const isOver = filled !== undefined && quantity !== 'temperature' && isOpenedAt(filled, last);
  // Readings are kept in single precision: what is beyond their digits is no part of them.
  const shown = (value: number | undefined): Measure | undefined =>
    value === undefined ? undefined : measure(Number(value.toFixed(4)), UNITS[quantity], units);
  const read = (value: number): Measure => shown(value) ?? { value, unit: '' };
  return present({
    quantity,
    count: summary.count,
    from: timeText(summary.first),
    to: timeText(last),
    latest: read(summary.latest),
    lowest: read(summary.lowest),
    mean: read(summary.mean),
    highest: read(summary.highest),
    setPoint: shown(filled && !isOver ? setPointOf(filled, quantity) : undefined),
    computed: shown(filled && expectedAt(season, filled, quantity, last)),
    longestGap: longestGap && { hours: longestGap.hours, from: timeText(longestGap.from) },
    daysWithout: summary.daysWithout.map(formatDay),
  });
}

const SHORT: Readonly<Record<ReadQuantity, string>> = {
  oxygen: 'O2',
  'carbon-dioxide': 'CO2',
  temperature: 'air',
  humidity: 'humidity',
};

const COLUMNS: readonly Column[] = [
  { title: 'Room' },
  { title: 'Quantity' },
  { title: 'Latest', align: 'right' },
  { title: 'at' },
  { title: 'Expected', align: 'right' },
  { title: 'Set-point', align: 'right' },
  { title: 'Lowest', align: 'right' },
  { title: 'Mean', align: 'right' },
  { title: 'Highest', align: 'right' },
  { title: 'Gap', unit: 'h', align: 'right' },
  { title: 'Without', unit: 'days', align: 'right' },
];

/** The report for people: a line a room and quantity, then the rows that are not taken. */
export function readingsText(report: ReadingsReport, paint: Paint = noPaint): string {
  const rows = report.rooms.flatMap(({ room, quantities }) =>
    quantities.map((one, index) => [index === 0 ? room : '', ...cells(one)]),
  );
  const lines = rows.length === 0 ? [] : [...table(COLUMNS, rows, { keys: 2 }), ''];
  return [
    ...lines,
    ...sightingsText(report.sightings, paint),
    ...faultsText(report, paint),
    ...report.files.map(fileText),
    '',
    ...wrap(caution, PAGE_WIDTH),
  ].join('\n');
}

function cells({
  quantity,
  latest,
  to,
  computed,
  setPoint,
  lowest,
  mean,
  highest,
  longestGap,
  daysWithout,
}: QuantityJson) {
  const shown = (value: Measure | undefined) => (value ? fixed(value.value, 2) : '');
  return [
    `${SHORT[quantity]}, ${latest.unit}`,
    shown(latest),
    to,
    shown(computed),
    shown(setPoint),
    fixed(lowest.value, 2),
    fixed(mean.value, 2),
    fixed(highest.value, 2),
    longestGap ? fixed(longestGap.hours, 1) : '',
    daysWithout.length === 0 ? '' : String(daysWithout.length),
  ];
}

function faultsText({ files }: ReadingsReport, paint: Paint): string[] {
  const lines = files.flatMap(({ file, faults, notTaken }) => [
    ...faults.flatMap(({ line, reason }) =>
      wrap(`${paint.warning(`${file}:${line}`)} ${reason}`, PAGE_WIDTH, '  '),
    ),
    ...(notTaken > faults.length
      ? [`${file}: ${counted(notTaken - faults.length, 'more row')} not taken.`]
      : []),
  ]);
  return lines.length === 0 ? [] : [...lines, ''];
}

function fileText({
  readings,
  file,
  rows,
  newRows,
  notTaken,
  repeated,
}: ReadingsReport['files'][number]): string {
  const more = [
    ...(newRows !== undefined ? [`${counted(newRows, 'row')} of them now`] : []),
    ...(notTaken > 0 ? [`${counted(notTaken, 'row')} not taken`] : []),
    ...(repeated > 0 ? [`${counted(repeated, 'row')} of a time that was there before`] : []),
  ];
  return `${readings} (${file}): ${[`${counted(rows, 'row')} read`, ...more].join(', ')}.`;
}
