import { type Day, formatDay, formatWeek, parseDay, weekOfDay } from '../../src/plan/dates';
import { sampleFiles } from '../samples/sample';
import { LOGGED, loggerRows } from './logger-records';
import {
  FIRST_READING,
  type FillRecord,
  type LotRecord,
  readingRows,
  type SeasonRecords,
  seasonRecords,
} from './season-records';

export interface StateFile {
  readonly path: string;
  readonly text: string;
}

const day = (text: string): Day => parseDay(text) ?? Number.NaN;

/** The sample season as it stood at the end of three days; the folder's name, the day, and what the next week brings. */
export const STATES = [
  { name: 'before-harvest', until: day('2026-08-28'), what: 'before harvest', nextWeek: false },
  { name: 'mid-harvest', until: day('2026-09-20'), what: 'in the middle of harvest', nextWeek: true },
  { name: 'in-march', until: day('2027-03-07'), what: 'in March', nextWeek: false },
] as const;

export type State = (typeof STATES)[number];

/** All files of a state's folder. */
export function stateFiles({ until, what, nextWeek }: State): StateFile[] {
  const records = seasonRecords();
  const rows = readingRows(until);
  const hourly = loggerRows(until);
  return [
    ...planFiles(until, what, records),
    ...(rows.length > 0
      ? [{ path: 'readings.csv', text: `Time,Room,O2,CO2,Air\n${rows.join('\n')}\n` }]
      : []),
    ...(hourly.length > 0
      ? [{ path: 'logger.csv', text: `Time,Room,O2,CO2,Air\n${hourly.join('\n')}\n` }]
      : []),
    ...(nextWeek ? weekFiles(until + 1, until + 7, records) : []),
  ];
}

/** The plan as written at the end of a day: a record made later does not stand in it. */
export function planFiles(until: Day, what = 'on a day', records = seasonRecords()): StateFile[] {
  const [fruit, vale] = sampleFiles('first-season').map(({ text }) => text) as [string, string];
  return [
    { path: 'fruit.lotplan.yaml', text: fruitText(fruit, records, until) },
    { path: 'orrowby.lotplan.yaml', text: valeText(vale, until, what) },
    { path: 'records.lotplan.yaml', text: recordsText(records, until) },
  ];
}

const PLANNED_LOTS: Readonly<Record<string, string>> = {
  'R1-gala': '{ G1: 55, G2: 50, G3: 50 }',
  'R2-gala': '{ G4: 80, G5: 80, G6: 75 }',
  'R3-golden': '{ D1: 100, D2: 95, D3: 95 }',
  'R4-braeburn': '{ B1: 100, B2: 95, B3: 95 }',
};

/** The harvest as estimated, with what had come in and been tested by then. */
function fruitText(text: string, { lots }: SeasonRecords, until: Day): string {
  let result = text
    .replace(/, received: \d+/g, '')
    .replace(/, maturity: \{[^}]*\}/g, '')
    .replace(
      '`bins` is the estimate; once `received` is written, it counts instead.',
      '`bins` is the estimate; what came in is written by day, and counts once picking is over.',
    )
    .replace('# Braeburn: nothing picked yet, estimates only', '# Braeburn');
  for (const lot of lots)
    result = result.replace(
      new RegExp(`(^ {2}${lot.lot}: \\{[^\\n]*\\n[^}\\n]*?)( \\}|, treatments)`, 'm'),
      (_, head: string, tail: string) => `${head}${known(lot, until)}${tail}`,
    );
  for (const [fill, planned] of Object.entries(PLANNED_LOTS))
    result = result.replace(
      new RegExp(`(^ {2}${fill}:\\n(?: {4}[^\\n]*\\n)*? {4}lots: )\\{[^}]*\\}`, 'm'),
      (_, head: string) => head + planned,
    );
  return result;
}

function known({ test, receipts }: LotRecord, until: Day): string {
  const came = receipts.filter((one) => one.day <= until);
  const { starch, firmness, solids } = test;
  const tested =
    test.day > until
      ? ''
      : `,\n        maturity: { tested: ${formatDay(test.day)}, starch: ${starch.toFixed(1)}, firmness: ${firmness} N, soluble-solids: ${solids.toFixed(1)} % }`;
  const byDay = came.map((one) => `${formatDay(one.day)}: ${one.bins}`).join(', ');
  return tested + (came.length === 0 ? '' : `,\n        received-by-day: { ${byDay} }`);
}

function valeText(text: string, until: Day, what: string): string {
  const head = text.replace(
    '# A small plan to learn from: four rooms, twelve lots, three varieties.',
    `# The first season's plan as it stood ${what}, at the end of ${formatDay(until)}: four rooms, twelve lots, three varieties.`,
  );
  const files =
    'this one has the buildings\n# and the market, fruit.lotplan.yaml has the harvest, records.lotplan.yaml has what has happened.';
  const split = head.replace(
    /this one has the buildings\n# and the market, fruit\.lotplan\.yaml has the harvest\./,
    files,
  );
  if (until < FIRST_READING) return split.replace(/\n# What was read in the rooms[\s\S]*$/, '');
  return until < FIRST_LOGGED ? split : split + LOGGER;
}

const FIRST_LOGGED = Math.min(...LOGGED.map(({ first }) => first));

const LOGGER = `  logger: # some weeks of R2 and of R4, every hour, with rests of the scrubber: lotwright learn tells what they teach
    file: logger.csv
    columns: { time: Time, room: Room, oxygen: O2, carbon-dioxide: CO2, temperature: Air }
`;

const TABLES = `# How the files are laid out that are taken in: lotwright take-in weighbridge <file> --write
tables:
  weighbridge: { holds: receipts, columns: { lot: Lot, day: Day, bins: Bins, field-temperature: Pulp } }
  cold-store-log:
    holds: progress
    columns: { fill: Room, step: What, day: Day, lot: Lot, bins: Bins }
    names: { step: { first bin: first-bin, last bin: last-bin, five per cent: low-oxygen, set-point: set-point } }
  packing-line: { holds: packed, columns: { lot: Lot, fill: Room, day: Day, bins: Bins, cartons-first: Class I, cartons-second: Class II } }
  invoices: { holds: sales, columns: { market: Buyer, variety: Variety, class: Class, week: Sent, cartons: Cartons, price: Price } }
  laboratory: { holds: samples, columns: { lot: Lot, fill: Room, taken: Day, fruit: Fruit, firmness: Firmness, soluble-solids: Brix, rot: Rot } }
`;

function recordsText(records: SeasonRecords, until: Day): string {
  return [
    `# What has happened, as it was recorded. Days that are not written have not come yet. Everything here is invented.`,
    'lotwright: 1',
    '',
    TABLES.trimEnd(),
    ...section(
      'progress',
      records.fills.flatMap((fill) => progressLines(fill, until)),
    ),
    ...section(
      'samples',
      records.samples
        .filter(({ taken }) => taken <= until)
        .map(
          ({ id, lot, fill, taken, firmness, solids, rot }) =>
            `  ${id}: { lot: ${lot}, fill: ${fill}, taken: ${formatDay(taken)}, fruit: 20, firmness: ${firmness.toFixed(1)} N, soluble-solids: ${solids.toFixed(1)} %, disorders: { rot: ${rot} % } }`,
        ),
    ),
    ...section(
      'packed',
      records.packed
        .filter((run) => run.day <= until)
        .map(
          ({ id, lot, fill, day: on, bins, first, second }) =>
            `  ${id}: { lot: ${lot}, fill: ${fill}, day: ${formatDay(on)}, bins: ${bins}, cartons: { first: ${first}, second: ${second} } }`,
        ),
    ),
    ...section(
      'sales',
      records.sales
        .filter(({ week }) => week <= lastWeekOver(until))
        .map(
          ({ id, market, variety, packClass, week, cartons, price }) =>
            `  ${id}: { market: ${market}, variety: ${variety}, class: ${packClass}, week: ${formatWeek(week)}, cartons: ${cartons}, price: ${price.toFixed(2)} }`,
        ),
    ),
    '',
  ].join('\n');
}

/** The last week whose Sunday is not after the day. */
function lastWeekOver(until: Day): number {
  return weekOfDay(until + 1) - 1;
}

function section(name: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : ['', `${name}:`, ...lines];
}

function progressLines({ fill, lots, days }: FillRecord, until: Day): string[] {
  const lines = days
    .filter(([, on]) => on <= until)
    .flatMap(([step, on]) => [
      `    ${step}: ${formatDay(on)}`,
      ...(step === 'last-bin'
        ? [`    lots: { ${lots.map(({ lot, bins }) => `${lot}: ${bins}`).join(', ')} }`]
        : []),
    ]);
  return lines.length === 0 ? [] : [`  ${fill}:`, ...lines];
}

/** What weighbridge, cold store, packing line and office write down in a week, to be taken in. */
function weekFiles(from: Day, to: Day, records: SeasonRecords): StateFile[] {
  const within = (on: Day) => from <= on && on <= to;
  const csv = (path: string, head: string, rows: readonly string[]) => ({
    path: `in/${path}.csv`,
    text: `${[head, ...rows].join('\n')}\n`,
  });
  return [
    csv(
      'weighbridge',
      'Lot,Day,Bins,Pulp',
      records.lots
        .flatMap(({ lot, receipts }) =>
          receipts.filter((one) => within(one.day)).map((one) => ({ lot, ...one })),
        )
        .sort((a, b) => a.day - b.day)
        .map(({ lot, day: on, bins }) => `${lot},${formatDay(on)},${bins},16`),
    ),
    csv(
      'cold-store-log',
      'Room,What,Day,Lot,Bins',
      records.fills.flatMap(({ room, lots, days }) =>
        days
          .filter(([, on]) => within(on))
          .flatMap(([step, on]) => [
            `${room},${step === 'last-bin' ? 'last bin' : step},${formatDay(on)},,`,
            ...(step === 'last-bin' ? lots.map(({ lot, bins }) => `${room},,,${lot},${bins}`) : []),
          ]),
      ),
    ),
    csv(
      'packing-line',
      'Lot,Room,Day,Bins,Class I,Class II',
      records.packed
        .filter((run) => within(run.day))
        .map((run) => `${run.lot},${run.fill},${formatDay(run.day)},${run.bins},${run.first},${run.second}`),
    ),
    csv(
      'invoices',
      'Buyer,Variety,Class,Sent,Cartons,Price',
      records.sales
        .filter(({ week }) => week === weekOfDay(from))
        .map((one) =>
          [one.market, one.variety, one.packClass, formatWeek(one.week), one.cartons, one.price].join(','),
        ),
    ),
  ];
}
