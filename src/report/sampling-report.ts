import type { ComputedSeason } from '../findings/types';
import type { SampleWorth } from '../keeping/next-sample';
import { type Day, firstDayOfWeek, formatDay, formatWeek, weekOfDay } from '../plan/dates';
import { type DisplayUnits, fixed, measure, measureLabel, type UnitSystem } from '../plan/display';
import { caution, cautionInShort } from '../room/caution';
import { displayUnits } from './explain';
import { byName } from './papers/by-name';
import { csvLines } from './papers/csv';
import { roomAccount } from './papers/room-account';
import { hatchRule } from './papers/sampling';
import { planPart, present } from './parts';
import { type PlannedSample, roomSamples, stillToDo } from './sampling-plan';
import type { SamplingReport } from './schemas';
import { type Column, PAGE_WIDTH, table, wrap } from './table';

type SampleJson = SamplingReport['samples'][number];

/** What to sample from a day on, by week; of one room if asked, and up to so many weeks ahead. */
export function samplingReport(
  season: ComputedSeason,
  stand: Day | undefined,
  {
    units: system,
    room: only,
    weeks,
  }: {
    readonly units?: UnitSystem | undefined;
    readonly room?: string | undefined;
    readonly weeks?: number | undefined;
  } = {},
): SamplingReport {
  const units = displayUnits(season.plan, system);
  const planned = [...season.filled.values()].flatMap((filled) => {
    if (only !== undefined && filled.room.id !== only) return [];
    const samples = roomSamples(season, filled, roomAccount(season, filled, units));
    const latest = season.keeping.get(filled.fill.id)?.window?.latest.week;
    return stillToDo(season, filled, samples, stand).map((sample) => ({ sample, latest }));
  });
  const begins = stand ?? Math.min(...planned.map(({ sample }) => sample.first));
  const ends = weeks === undefined ? Number.POSITIVE_INFINITY : firstDayOfWeek(weekOfDay(begins) + weeks);
  return present({
    format: 'lotwright-sampling-report' as const,
    version: 1 as const,
    plan: planPart(season.plan),
    units: units.system,
    from: stand === undefined ? undefined : formatDay(stand),
    samples: planned
      .filter(({ sample }) => sample.first < ends)
      .sort(
        ({ sample: a }, { sample: b }) =>
          a.first - b.first || byName(a.room, b.room) || byName(a.which, b.which),
      )
      .map(({ sample, latest }) => sampleJson(sample, latest, units)),
    hatchRule,
    caution,
  });
}

function sampleJson(sample: PlannedSample, latest: number | undefined, units: DisplayUnits): SampleJson {
  return present({
    week: formatWeek(weekOfDay(sample.first)),
    first: formatDay(sample.first),
    last: formatDay(sample.last),
    room: sample.room,
    fill: sample.fill,
    which: sample.which,
    what: sample.what,
    of: [...sample.of],
    fruitEach: sample.fruitEach,
    tests: sample.tests,
    source: sample.source,
    overdue: sample.isOverdue,
    latest: latest === undefined ? undefined : formatWeek(latest),
    worth: sample.worth.map((one) => worthJson(one, units)),
  });
}

function worthJson(one: SampleWorth, units: DisplayUnits): SampleJson['worth'][number] {
  const newtons = (value: number) => measure(value, 'N', units) ?? { value, unit: 'N' };
  return {
    lot: one.lot,
    expected: newtons(one.expected),
    spread: newtons(one.spread),
    sampleSpread: newtons(one.sampleSpread),
    ifLow: formatWeek(one.ifLow),
    ifExpected: formatWeek(one.ifExpected),
    ifHigh: formatWeek(one.ifHigh),
    binWeeks: Math.round(one.binWeeks),
  };
}

const COLUMNS: readonly Column[] = [
  { title: 'Week' },
  { title: 'Day' },
  { title: 'Room' },
  { title: 'What', breaks: true },
  { title: 'Of each of', breaks: true },
  { title: 'Fruit', align: 'right' },
];

const WORTH_COLUMNS: readonly Column[] = [
  { title: 'Room' },
  { title: 'Lot' },
  { title: 'Test on' },
  { title: 'Firmness', align: 'right' },
  { title: 'Known to', align: 'right' },
  { title: 'Latest now' },
  { title: 'If low' },
  { title: 'As expected' },
  { title: 'If high' },
  { title: 'Worth', unit: 'bin-weeks', align: 'right' },
];

/** For people: what to take by week, then what the next test of each lot could change, the most worth first. */
export function samplingText({ samples, from, ...report }: SamplingReport): string {
  const rows = samples.map((one) => [
    one.week,
    one.overdue ? `${one.first} overdue` : one.first,
    one.room,
    one.what,
    one.of.join('; '),
    `${one.fruitEach}`,
  ]);
  return [
    from === undefined ? 'What to sample when:' : `What to sample when, from ${from} on:`,
    '',
    ...(rows.length === 0 ? ['Nothing.'] : table(COLUMNS, rows, { keys: 3 })),
    '',
    ...worthText(samples).flatMap((line, index, all) => (index === all.length - 1 ? [line, ''] : [line])),
    ...wrap(report.hatchRule, PAGE_WIDTH),
    '',
    ...wrap(report.caution, PAGE_WIDTH),
  ].join('\n');
}

/** Of each lot the next test. */
function nextTests(samples: readonly SampleJson[]) {
  const lots = new Map<string, { sample: SampleJson; worth: SampleJson['worth'][number] }>();
  for (const sample of samples)
    for (const worth of sample.worth) {
      const key = `${sample.fill}\n${worth.lot}`;
      if (!lots.has(key)) lots.set(key, { sample, worth });
    }
  return [...lots.values()];
}

function worthText(samples: readonly SampleJson[]): string[] {
  const tests = nextTests(samples);
  const moving = tests
    .filter(({ worth }) => worth.binWeeks > 0)
    .sort((a, b) => b.worth.binWeeks - a.worth.binWeeks);
  const rows = moving.map(({ sample, worth }) => [
    sample.room,
    worth.lot,
    sample.first,
    `${fixed(worth.expected.value, 1)} ${measureLabel(worth.expected.unit)}`,
    `± ${fixed(worth.spread.value, 1)}`,
    sample.latest ?? '',
    worth.ifLow,
    worth.ifExpected,
    worth.ifHigh,
    fixed(worth.binWeeks, 0),
  ]);
  const others = tests.length - moving.length;
  return [
    ...(rows.length > 0
      ? [
          ...wrap(
            'What the next test could change: the latest week to open, if firmness comes in a standard deviation low, as expected, or high.',
            PAGE_WIDTH,
          ),
          '',
          ...table(WORTH_COLUMNS, rows, { keys: 2 }),
          '',
        ]
      : []),
    ...(others > 0
      ? wrap(
          `The next test of ${others === 1 ? 'one' : others}${rows.length > 0 ? ' more' : ''} ${others === 1 ? 'lot moves' : 'lots moves'} no room's latest week by a whole week: storage life, the season or another lot sets it. Test them all the same: by test, not by calendar.`,
          PAGE_WIDTH,
        )
      : []),
  ];
}

/** A line a sample and lot or orchard, with the caution in each, since rows are sorted and copied away. */
export function samplingCsv({ samples, hatchRule: rule }: SamplingReport): string {
  const unit = samples.flatMap(({ worth }) => worth)[0]?.expected.unit ?? 'N';
  const heading = ['Week', 'From', 'To', 'Room', 'Fill', 'What', 'Of', 'Fruit', 'Look at', 'Overdue'];
  const more = [
    `Firmness expected (${unit})`,
    `Known to (${unit})`,
    'Latest now',
    'If low',
    'As expected',
    'If high',
  ];
  const rows = samples.flatMap((one) =>
    one.of.map((of) => {
      const worth = one.worth.find(({ lot }) => lot === of);
      return [
        one.week,
        one.first,
        one.last,
        one.room,
        one.fill,
        one.what,
        of,
        String(one.fruitEach),
        one.tests,
        one.overdue ? 'yes' : '',
        ...(worth
          ? [
              worth.expected.value.toFixed(1),
              worth.spread.value.toFixed(1),
              one.latest ?? '',
              worth.ifLow,
              worth.ifExpected,
              worth.ifHigh,
              String(worth.binWeeks),
            ]
          : ['', '', '', '', '', '', '']),
        `${rule} ${cautionInShort}`,
      ];
    }),
  );
  return csvLines([[...heading, ...more, 'Worth (bin-weeks)', 'Caution'], ...rows]);
}
