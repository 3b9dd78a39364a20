import { counted } from '../findings/say';
import type { ComputedSeason } from '../findings/types';
import { formatDay } from '../plan/dates';
import { type DisplayUnits, fixed, type Measure, measure, type UnitSystem } from '../plan/display';
import type { Unit } from '../plan/figure';
import { type QuantitySummary, summaryOf } from '../readings/summary';
import type { FileReadings, Minute, ReadQuantity, RoomReadings } from '../readings/types';
import { caution } from '../room/caution';
import { displayUnits } from './explain';
import { noPaint, type Paint } from './paint';
import { planPart, present } from './parts';
import { expectedAt, fillAt, setPointOf } from './readings-beside';
import type { ReadingsReport } from './schemas';
import { type Column, PAGE_WIDTH, table, wrap } from './table';

/** One file of readings as it was read. */
export interface ReadFile {
  readonly readings: string;
  readonly file: string;
  readonly read: FileReadings;
}

type QuantityJson = ReadingsReport['rooms'][number]['quantities'][number];

const MINUTES_A_DAY = 1440;
const UNITS: Readonly<Record<ReadQuantity, Unit>> = {
  oxygen: '%',
  'carbon-dioxide': '%',
  temperature: 'degC',
  humidity: '%',
};

/** What the files hold of each room, beside what the plan expects of it. */
export function readingsReport(
  season: ComputedSeason,
  files: readonly ReadFile[],
  rooms: ReadonlyMap<string, RoomReadings>,
  system?: UnitSystem,
): ReadingsReport {
  const units = displayUnits(season.plan, system);
  return {
    format: 'lotwright-readings-report',
    version: 1,
    plan: planPart(season.plan),
    units: units.system,
    files: files.map(({ readings, file, read }) => ({
      readings,
      file,
      rows: read.rows,
      repeated: read.repeated,
      notTaken: read.notTaken,
      faults: read.faults.map(({ line, reason }) => ({ line, reason })),
    })),
    rooms: [...rooms.values()].map((readings) => roomPart(season, readings, units)),
    caution,
  };
}

function roomPart(
  season: ComputedSeason,
  readings: RoomReadings,
  units: DisplayUnits,
): ReadingsReport['rooms'][number] {
  const last = readings.times.at(-1) ?? 0;
  const filled = fillAt(season, readings.room, Math.floor(last / MINUTES_A_DAY));
  return present({
    room: readings.room,
    fill: filled?.fill.id,
    quantities: summaryOf(readings).map((summary) => quantityPart(season, filled, summary, units)),
  });
}

function quantityPart(
  season: ComputedSeason,
  filled: ReturnType<typeof fillAt>,
  summary: QuantitySummary,
  units: DisplayUnits,
): QuantityJson {
  const { quantity, last, longestGap } = summary;
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
    setPoint: shown(filled && setPointOf(filled, quantity)),
    computed: shown(filled && expectedAt(season, filled, quantity, last)),
    longestGap: longestGap && { hours: longestGap.hours, from: timeText(longestGap.from) },
    daysWithout: summary.daysWithout.map(formatDay),
  });
}

export function timeText(minute: Minute): string {
  const inDay = ((minute % MINUTES_A_DAY) + MINUTES_A_DAY) % MINUTES_A_DAY;
  const [hour, left] = [Math.floor(inDay / 60), Math.floor(inDay % 60)];
  const two = (value: number) => String(value).padStart(2, '0');
  return `${formatDay(Math.floor(minute / MINUTES_A_DAY))} ${two(hour)}:${two(left)}`;
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

function fileText({ readings, file, rows, notTaken, repeated }: ReadingsReport['files'][number]): string {
  const more = [
    ...(notTaken > 0 ? [`${counted(notTaken, 'row')} not taken`] : []),
    ...(repeated > 0 ? [`${counted(repeated, 'row')} of a time that was there before`] : []),
  ];
  return `${readings} (${file}): ${[`${counted(rows, 'row')} read`, ...more].join(', ')}.`;
}
