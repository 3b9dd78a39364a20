import { fixed, measureLabel, showMeasure } from '../plan/display';
import { counted } from '../plan/wording';
import { noPaint, type Paint } from './paint';
import { seasonBefore } from './parts';
import type { PlantReport } from './schemas';
import { type Column, PAGE_WIDTH, table, wrap } from './table';
import { cell, columnUnit } from './text-cells';

type Period = PlantReport['periods'][number];
type Use = Period['nitrogen'][number];

/** The plant report as text: peaks with their causes, what a larger crop asks, then the calendar. */
export function plantText(report: PlantReport, paint: Paint = noPaint): string {
  const season = seasonBefore(report.plan);
  return [
    paint.bold(`${season}the plant the rooms share`),
    '',
    ...peakLines(report),
    ...powerLines(report),
    ...cropLines(report, paint),
    ...calendarLines(report, paint),
  ].join('\n');
}

function peakLines({ peaks }: PlantReport): string[] {
  return table(
    [
      { title: 'Peak of' },
      { title: 'Machine' },
      { title: 'From' },
      { title: 'Use', align: 'right' },
      { title: 'Unit' },
      { title: 'Of 100 %', align: 'right' },
      { title: 'Most by', breaks: true },
    ],
    peaks.map(({ kind, id, from, use, share, because }) => [
      KINDS[kind],
      id,
      from,
      cell(use),
      use ? measureLabel(use.unit) : '',
      share ? fixed(share.value, 0) : '-',
      because.join(', '),
    ]),
  );
}

function powerLines({ powerKwh, cost, notInPower }: PlantReport): string[] {
  if (powerKwh === undefined) return [];
  const price = cost ? `, ${showMeasure(cost)} ${measureLabel(cost.unit)}` : '';
  return [
    '',
    ...wrap(
      `Power of refrigeration, of the rooms' fans and lights, and of nitrogen and scrubbers where their power is stated, over the season: ${fixed(powerKwh, 0)} kWh${price}.`,
      PAGE_WIDTH,
    ),
    ...(notInPower
      ? wrap(
          `The power that cools ${notInPower.join(', ')} is not in it: without a refrigeration group it is not known.`,
          PAGE_WIDTH,
        )
      : []),
  ];
}

const KINDS: Readonly<Record<PlantReport['peaks'][number]['kind'], string>> = {
  refrigeration: 'refrigeration, day',
  nitrogen: 'nitrogen, week',
  scrubbing: 'scrubbing, day',
};

const NAMES: Readonly<Record<NonNullable<PlantReport['crop']>['passes'][number]['kind'], string>> = {
  places: 'bin places of',
  cooler: 'cooler of',
  refrigeration: 'refrigeration group',
  nitrogen: 'nitrogen source',
  scrubber: 'scrubber',
};

function cropLines({ crop }: PlantReport, paint: Paint): string[] {
  if (!crop) return [];
  const size = `${crop.change > 0 ? '+' : ''}${crop.change} %`;
  const machines = crop.passes.filter(({ kind }) => kind !== 'places');
  const rooms = crop.passes.filter(({ kind }) => kind === 'places');
  const [first] = machines;
  const verdict = first
    ? `With every lot ${size} in the same rooms, the first to be asked for more than it gives is the ${NAMES[first.kind]} ${first.id}, from ${first.from} (${fixed(first.share, 0)} %, now ${fixed(first.shareNow, 0)} %).`
    : `With every lot ${size} in the same rooms, no machine is asked for more than it gives.`;
  const full =
    rooms.length > 0
      ? ` ${counted(rooms.length, 'room has', 'rooms have')} fewer places than bins then: find room for them first.`
      : '';
  return [
    '',
    paint.bold(`Crop ${size}`),
    ...wrap(verdict + full, PAGE_WIDTH),
    ...(machines.length > 0
      ? [
          '',
          ...table(
            [
              { title: 'From' },
              { title: 'What' },
              { title: 'Now', unit: '%', align: 'right' },
              { title: 'Then', unit: '%', align: 'right' },
            ],
            machines.map(({ kind, id, from, share, shareNow }) => [
              from,
              `${NAMES[kind]} ${id}`,
              fixed(shareNow, 0),
              fixed(share, 0),
            ]),
          ),
          '',
          ...wrap(WEEK_LOADS, PAGE_WIDTH),
        ]
      : []),
  ];
}

const WEEK_LOADS =
  'These are loads of a week with every room at its set-points, as findings and promises have them. The peaks above ' +
  'follow the levels of each day: a level that drifts within its limits asks for less, a pull-down for more.';

function calendarLines({ by, periods }: PlantReport, paint: Paint): string[] {
  const [first] = periods;
  if (!by || !first) return [];
  const kinds = ['refrigeration', 'nitrogen', 'scrubbing'] as const;
  const columns: Column[] = [
    { title: by === 'days' ? 'Day' : 'Week of' },
    ...kinds.flatMap((kind) =>
      first[kind].map(
        ({ id }, index): Column => ({
          title: id,
          unit: columnUnit(periods.map((period) => period[kind][index]?.use)),
          align: 'right',
        }),
      ),
    ),
    { title: 'Power', unit: 'kWh', align: 'right' },
    ...(first.cost ? [{ title: 'Cost', unit: first.cost.unit, align: 'right' as const }] : []),
  ];
  const rows = periods.map((period) => [
    period.from,
    ...kinds.flatMap((kind) => period[kind].map((use) => useCell(use))),
    period.powerKwh === undefined ? '-' : fixed(period.powerKwh, 0),
    ...(first.cost ? [cell(period.cost, 0)] : []),
  ]);
  return [
    '',
    paint.bold(by === 'days' ? 'By day, around the harvest' : 'By week'),
    '',
    ...table(columns, rows),
  ];
}

function useCell({ use }: Use): string {
  return use && use.value > 0 ? cell(use) : '';
}
