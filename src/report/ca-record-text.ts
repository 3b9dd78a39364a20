import { parseDay } from '../plan/dates';
import { fixed, measureLabel } from '../plan/display';
import { shortened } from '../plan/shortened';
import { counted } from '../plan/wording';
import { cautionInShort } from '../room/caution';
import { AID, type CaRecordJson } from './ca-record';
import { csvLines } from './papers/csv';
import { type PaperSize, printStyle } from './papers/html-style';
import { xmlText } from './papers/xml';
import type { CaRecordReport } from './schemas';
import { type Column, PAGE_WIDTH, table, wrap } from './table';

const LAWS = { washington: 'Washington', 'new-york': 'New York' } as const;
const BY = { record: 'on record', readings: 'by the readings', plan: 'planned, not on record' } as const;

const DATES: readonly (readonly [key: keyof CaRecordJson['dates'], name: string])[] = [
  ['firstBin', 'First bin in'],
  ['lastBin', 'Closed, last bin in'],
  ['sealed', 'Sealed'],
  ['fivePerCent', 'Oxygen at 5 %'],
  ['opened', 'Opened'],
  ['emptied', 'Empty'],
];

/** The facts of a record as name and value. */
function factsOf(record: CaRecordJson): (readonly [name: string, value: string])[] {
  const { dates, varieties, claims, fivePerCentDue } = record;
  return [
    ['Room', record.room],
    ['Fill', record.fill],
    ['Rule of', LAWS[record.law]],
    ...varieties.map(({ variety, bins }) => [variety, `${counted(bins, 'bin')}`] as const),
    ...DATES.map(([key, name]) => {
      const date = dates[key];
      const due = key === 'fivePerCent' && fivePerCentDue ? `; due by ${fivePerCentDue}` : '';
      return [name, `${date ? `${date.day}, ${BY[date.by]}` : 'not on record'}${due}`] as const;
    }),
    ...claims.map(
      ({ variety, days, rule, from, why }) =>
        [
          `Claim, ${variety}`,
          why
            ? `none: ${why}`
            : from
              ? `${days} days (${rule}): from ${from} on, if all else is in order and it stays so`
              : 'cannot be counted yet',
        ] as const,
    ),
  ];
}

function lackText({ what, from, to }: CaRecordJson['lacks'][number]): string {
  if (from === undefined) return what;
  if (from === to) return `${what}: ${from}`;
  const days = (parseDay(to ?? '') ?? 0) - (parseDay(from) ?? 0) + 1;
  return `${what}: ${from} to ${to}, ${days} days`;
}

const columns = (record: CaRecordJson): Column[] => [
  { title: 'Day' },
  ...['O2', 'CO2', 'Air'].flatMap((title, index): Column[] => [
    { title: 'at' },
    { title, unit: unitOf(record, index), align: 'right' },
    { title: 'low', align: 'right' },
    { title: 'high', align: 'right' },
  ]),
];

function unitOf({ days }: CaRecordJson, index: number): string {
  const some = days.find((day) => quantitiesOf(day)[index])?.[QUANTITIES[index] ?? 'oxygen'];
  return some ? measureLabel(some.value.unit) : '';
}

const QUANTITIES = ['oxygen', 'carbonDioxide', 'temperature'] as const;
const quantitiesOf = (day: CaRecordJson['days'][number]) => QUANTITIES.map((quantity) => day[quantity]);

function cells(day: CaRecordJson['days'][number]): string[] {
  return [
    day.day,
    ...quantitiesOf(day).flatMap((reading, index) => {
      if (!reading) return ['', 'none', '', ''];
      const decimals = index === 2 ? 1 : 2;
      const shown = ({ value }: { readonly value: number }) => fixed(value, decimals);
      return [reading.time, shown(reading.value), shown(reading.lowest), shown(reading.highest)];
    }),
  ];
}

/** For the terminal: what it rests on and what it lacks; every day only where asked. */
export function caRecordText(report: CaRecordReport, withDays: boolean): string {
  const parts = report.records.flatMap((record) => [
    `Room ${record.room}, ${record.fill}: record up to ${record.until}`,
    '',
    ...factsOf(record).flatMap(([name, value]) =>
      wrap(`  ${name.padEnd(24)} ${value}`, PAGE_WIDTH, ' '.repeat(27)),
    ),
    '',
    ...(record.lacks.length === 0
      ? ['  Nothing is missing that was looked for.']
      : [
          '  Missing, or against a claim:',
          ...record.lacks.flatMap((lack) => wrap(`  - ${lackText(lack)}`, PAGE_WIDTH, '    ')),
        ]),
    ...record.reminders.flatMap((reminder) => wrap(`  ${reminder}`, PAGE_WIDTH, '  ')),
    ...record.rules.flatMap(({ citation }) => wrap(`  As read in: ${citation}`, PAGE_WIDTH, '  ')),
    '',
    ...(withDays ? [...table(columns(record), record.days.map(cells)), ''] : []),
  ]);
  return [...parts, ...wrap(AID, PAGE_WIDTH), '', ...wrap(report.caution, PAGE_WIDTH)].join('\n');
}

const CSV_HEADING = ['Room', 'Fill', 'Day'];

/**
 * A line a room and day: the first reading of each quantity with its time, the lowest and highest, and what is missing.
 * What it is an aid for, and the caution, stand in every row: rows are sorted and copied away.
 */
export function caRecordCsv({ records, aid }: CaRecordReport): string {
  const [some] = records;
  const heading = ['O2', 'CO2', 'Air'].flatMap((name, index) => {
    const unit = some ? unitOf(some, index) : '';
    const named = (what: string) => `${name} ${what}${unit ? ` (${unit})` : ''}`;
    return [`${name} at`, named('read'), named('lowest'), named('highest')];
  });
  const rows = records.flatMap(({ room, fill, days }) =>
    days.map((day) => {
      const missing = ['oxygen', 'carbon dioxide', 'temperature'].filter(
        (_, index) => !quantitiesOf(day)[index],
      );
      const values = cells(day)
        .slice(1)
        .map((cell) => (cell === 'none' ? '' : cell));
      return [room, fill, day.day, ...values, missing.join('; '), aid, cautionInShort];
    }),
  );
  return csvLines([[...CSV_HEADING, ...heading, 'Missing', 'Note', 'Caution'], ...rows]);
}

/** To print: a page and its days for each record. It has no script and takes nothing from a network. */
export function caRecordHtml(report: CaRecordReport, size: PaperSize): string {
  return [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="generator" content="Written by lotwright ca-record.">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">`,
    '<meta name="viewport" content="width=device-width">',
    `<title>${xmlText(`CA record: ${titleOf(report)}`)}</title>`,
    `<style>${printStyle(size)}</style>`,
    '</head>',
    '<body>',
    ...report.records.map((record) => page(report, record)),
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

function titleOf({ plan }: CaRecordReport): string {
  return shortened(plan.season ?? 'season without a name');
}

function page(report: CaRecordReport, record: CaRecordJson): string {
  const list = (items: readonly string[]) =>
    `<ul>${items.map((item) => `<li>${xmlText(item)}</li>`).join('')}</ul>`;
  const head = columns(record).map(
    ({ title, unit, align }) =>
      `<th scope="col"${align === 'right' ? ' class="number"' : ''}>${xmlText(unit ? `${title} (${unit})` : title)}</th>`,
  );
  const rows = record.days.map(
    (day) =>
      `<tr>${cells(day)
        .map((cell, index) => `<td class="${index === 0 ? 'day' : 'number'}">${xmlText(cell)}</td>`)
        .join('')}</tr>`,
  );
  return [
    '<section class="page">',
    `<header><h1>CA record of room ${xmlText(record.room)}</h1><p>${xmlText(titleOf(report))}, up to ${record.until}</p></header>`,
    `<p class="caution">${xmlText(report.aid)}</p>`,
    `<p class="caution">${xmlText(report.caution)}</p>`,
    `<dl>${factsOf(record)
      .map(([name, value]) => `<dt>${xmlText(name)}</dt><dd>${xmlText(value)}</dd>`)
      .join('')}</dl>`,
    '<h2>Missing, or against a claim</h2>',
    record.lacks.length === 0
      ? '<p>Nothing is missing that was looked for.</p>'
      : list(record.lacks.map(lackText)),
    list([...record.reminders, ...record.rules.map(({ citation }) => `As read in: ${citation}`)]),
    '<h2>Day by day</h2>',
    `<table>\n<thead><tr>${head.join('')}</tr></thead>\n<tbody>\n${rows.join('\n')}\n</tbody>\n</table>`,
    '</section>',
  ].join('\n');
}
