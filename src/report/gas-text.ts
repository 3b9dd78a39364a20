import { fixed, type Measure, measureLabel, showMeasure, showSetPoint } from '../plan/display';
import { counted } from '../plan/wording';
import { cautionInShort } from '../room/caution';
import { noPaint, type Paint } from './paint';
import { seasonBefore } from './parts';
import { countedRooms, namedRows } from './room-names';
import type { GasReport } from './schemas';
import { type Column, PAGE_WIDTH, table, wrap } from './table';
import { cell, columnUnit } from './text-cells';

type Row = GasReport['rooms'][number];

/** The gas report as text: rooms, then a line for each week that has load. */
export function gasText(computed: GasReport, paint: Paint = noPaint): string {
  const report = { ...computed, rooms: namedRows(computed.rooms) };
  const season = seasonBefore(report.plan);
  return [
    paint.bold(`${season}gas of ${countedRooms(computed.rooms, 'filled room')}`),
    '',
    ...roomLines(report),
    ...shortfallLines(report),
    ...courseLines(report, paint),
    ...capacityLines(report, paint),
    ...weekLines(report, paint),
    '',
    ...wrap(
      'CO2 at filling is what the fruit gives off at field temperature in air with every bin in; in store, at the regime, with the range of the sources. N2 takes the room from air to its oxygen, not counting what the fruit uses: by its course (--room) less is fed. Leak is the oxygen that leaks in against what the fruit uses. A room loads its scrubber until it opens: by its pin, else by a quick schedule.',
      PAGE_WIDTH,
    ),
  ].join('\n');
}

function roomLines({ rooms }: GasReport): string[] {
  const unit = (key: keyof Row) => columnUnit(rooms.map((row) => row[key]));
  const columns: Column[] = [
    { title: 'Room' },
    { title: 'Variety', breaks: true },
    { title: 'Temp', unit: unit('temperature'), align: 'right' },
    { title: 'O2', unit: '%', align: 'right' },
    { title: 'CO2', unit: '%', align: 'right' },
    { title: 'CO2 fill', unit: unit('carbonDioxideAtFilling'), align: 'right' },
    { title: 'In store', unit: unit('carbonDioxideInStore'), align: 'right' },
    { title: 'Range', align: 'right' },
    { title: 'Scrubber', breaks: true },
    { title: 'N2', unit: unit('nitrogenVolume'), align: 'right' },
    { title: 'N2', unit: 'h', align: 'right' },
    { title: 'Leak', unit: '%', align: 'right' },
  ];
  return table(
    columns,
    rooms.map((row) => [
      row.room,
      row.varieties.join(', '),
      row.temperature ? showSetPoint(row.temperature) : '-',
      row.oxygen ? showSetPoint(row.oxygen) : 'air',
      showSetPoint(row.carbonDioxide),
      cell(row.carbonDioxideAtFilling),
      cell(row.carbonDioxideInStore),
      range(row.carbonDioxideInStoreLow, row.carbonDioxideInStoreHigh),
      row.scrubber ?? '-',
      cell(row.nitrogenVolume),
      cell(row.nitrogenHours),
      cell(row.leakShareOfFruitUse),
    ]),
  );
}

function range(low: Measure | undefined, high: Measure | undefined): string {
  if (!low || !high) return '-';
  return low.value === high.value ? '' : `${showMeasure(low)}-${showMeasure(high)}`;
}

function shortfallLines({ rooms }: GasReport): string[] {
  const lines = rooms.flatMap(({ room, nitrogenShortfall }) =>
    nitrogenShortfall === undefined ? [] : wrap(`${room}: ${nitrogenShortfall}`, PAGE_WIDTH, '  '),
  );
  return lines.length > 0 ? ['', ...lines] : [];
}

/** What each sealed room's course comes to, with the range of the sources where they differ. */
function courseLines({ rooms }: GasReport, paint: Paint): string[] {
  const rows = rooms.filter(({ course }) => course?.expected);
  if (rows.length === 0) return [];
  const columns: Column[] = [
    { title: 'Room' },
    { title: 'Cold', unit: 'days', align: 'right' },
    { title: 'To 5 % O2', unit: 'h', align: 'right' },
    { title: 'To set-point', unit: 'h', align: 'right' },
    { title: 'Range', align: 'right' },
    { title: 'Least O2', unit: '%', align: 'right' },
    { title: 'Most CO2', unit: '%', align: 'right' },
    { title: 'Range', align: 'right' },
    { title: 'O2 rise', unit: 'points', align: 'right' },
    { title: 'Range', align: 'right' },
    { title: 'Loss', unit: '%', align: 'right' },
  ];
  const lines = table(
    columns,
    rows.map(({ room, course }) => {
      const { low, expected, high } = course ?? {};
      const ends = (key: 'hoursToSetPoint' | 'highestCarbonDioxide' | 'oxygenRise', decimals: number) =>
        caseRange(low?.[key], high?.[key], decimals);
      return [
        room,
        cell(course?.daysToStorage ?? course?.daysToCold, 1),
        cell(expected?.hoursToFivePercent, 0),
        cell(expected?.hoursToSetPoint, 0),
        ends('hoursToSetPoint', 0),
        cell(expected?.lowestOxygen, 2),
        cell(expected?.highestCarbonDioxide, 2),
        ends('highestCarbonDioxide', 2),
        cell(expected?.oxygenRise, 2),
        ends('oxygenRise', 2),
        cell(expected?.weightLost, 1),
      ];
    }),
  );
  return [
    '',
    paint.bold('Each sealed room from sealing to opening'),
    '',
    ...lines,
    '',
    ...wrap(cautionInShort, PAGE_WIDTH),
  ];
}

/** From the lesser to the greater of two cases; nothing where they read the same. */
function caseRange(low: Measure | undefined, high: Measure | undefined, decimals: number): string {
  if (!low || !high) return '';
  const [least, most] = [Math.min(low.value, high.value), Math.max(low.value, high.value)];
  const [from, to] = [fixed(least, decimals), fixed(most, decimals)];
  return from === to ? '' : `${from}-${to}`;
}

function capacityLines({ scrubbers }: GasReport, paint: Paint): string[] {
  const lines = scrubbers.flatMap((scrubber) => {
    const { capacity, peak, settlesAt } = scrubber;
    const parts = [
      capacity ? `removes ${shown(capacity)} at the levels its rooms hold` : 'capacity not known',
      ...(peak?.load ? [`heaviest week ${peak.week}: ${shown(peak.load)}${percent(peak.share)}`] : []),
      ...(settlesAt
        ? [`running all day it could hold its rooms down to ${shown(settlesAt)} CO2 in that week`]
        : []),
    ];
    return wrap(
      `${paint.bold(scrubber.scrubber)} (${counted(scrubber.rooms.length, 'room')}) ${parts.join('; ')}.`,
      PAGE_WIDTH,
      '  ',
    );
  });
  return lines.length > 0 ? ['', ...lines] : [];
}

function shown(value: Measure): string {
  return `${showMeasure(value)} ${measureLabel(value.unit)}`;
}

function percent(share: Measure | undefined): string {
  return share ? ` (${fixed(share.value, 0)} % of capacity)` : '';
}

/** A line a week and two columns for each scrubber and nitrogen source; weeks without any load are left out. */
function weekLines(report: GasReport, paint: Paint): string[] {
  const series = [
    ...report.scrubbers.map(({ scrubber, weeks }) => ({
      name: scrubber,
      weeks: new Map(weeks.map((entry) => [entry.week, [entry.load, entry.share]])),
    })),
    ...report.nitrogen.map(({ source, weeks }) => ({
      name: source,
      weeks: new Map(weeks.map((entry) => [entry.week, [entry.hours, entry.share]])),
    })),
  ];
  const weeks = [...new Set(series.flatMap((one) => [...one.weeks.keys()]))].sort();
  const rows = weeks
    .map((week) => [
      week,
      ...series.flatMap((one) => {
        const [amount, share] = one.weeks.get(week) ?? [];
        return amount && amount.value > 0 ? [cell(amount), cell(share, 0)] : ['', ''];
      }),
    ])
    .filter((row) => row.some((text, at) => at > 0 && text !== ''));
  if (rows.length === 0) return [];
  const columns: Column[] = [
    { title: 'Week' },
    ...series.flatMap((one): Column[] => [
      {
        title: one.name,
        unit: columnUnit([...one.weeks.values()].map(([amount]) => amount)),
        align: 'right',
      },
      { title: '', unit: '%', align: 'right' },
    ]),
  ];
  const carried = wrap(
    'Of nitrogen: the hours it runs, and what is asked of it in per cent of the week. What a week does not come to is asked for again in the next.',
    PAGE_WIDTH,
  );
  return [
    '',
    paint.bold('Scrubber load and nitrogen hours by week'),
    ...(report.nitrogen.length > 0 ? carried : []),
    '',
    ...table(columns, rows),
  ];
}
