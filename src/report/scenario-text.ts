import { fixed, fixedApart, showMeasure } from '../plan/display';
import { counted } from '../plan/wording';
import { tidy } from './amounts';
import { noPaint, type Paint } from './paint';
import { seasonBefore } from './parts';
import { gravityRank } from './scenario-consequences';
import type { WhatIfReport } from './schemas';
import { PAGE_WIDTH, table, wrap } from './table';
import { whole } from './text-cells';

/** The base beside a scenario as text: the totals, the gravest that follows, then each thing that differs. */
export function whatIfText(report: WhatIfReport, paint: Paint = noPaint): string {
  const parts = [
    [...wrap(whatIfTitle(report), PAGE_WIDTH).map(paint.bold), weeksText(report)],
    report.notApplied.flatMap(({ message, place }) => [
      `${place.file}:${place.line}:${place.column} ${paint.warning('does not fit the plan')}`,
      ...wrap(`  ${message}`, PAGE_WIDTH, '  '),
    ]),
    totalsTable(report),
    listPart('What it does, the worst first:', gravest(report), paint),
    expectationsPart(report, paint),
    roomsTable(report),
    machinesTable(report),
    productsTable(report),
    findingsPart('New findings', report.findings.new, paint),
    findingsPart('Findings gone', report.findings.gone, paint),
    wrap(report.caution, PAGE_WIDTH),
  ];
  return parts
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n');
}

/** `Orrowby Vale: what if hail-in-august (hail takes a fifth)`. */
export function whatIfTitle({ plan, scenario, says }: WhatIfReport): string {
  const season = seasonBefore(plan);
  return `${season}what if ${scenario}${says === undefined ? '' : ` (${says})`}`;
}

export function weeksText({ weeks }: WhatIfReport): string {
  if (weeks === 'none') return 'No release schedule can be computed with it.';
  if (weeks === 'of its own')
    return 'Planned anew: with the weeks of the base it would be worth a good deal less.';
  return 'With the weeks of the base where they can be kept and still pay (quick schedule).';
}

type Totals = WhatIfReport['base'];

/** Name, base, scenario and change of each total; those that neither has are left out. */
export function totalRows({
  base,
  over,
  roomsOverfilled,
}: WhatIfReport): (readonly [string, string, string, string])[] {
  const hasAllRooms = base.binsInNoRoom === 0 && over.binsInNoRoom === 0;
  const rows: (readonly [string, (totals: Totals) => number | undefined])[] = [
    ['Rooms with fruit', ({ fills }) => fills],
    ['Bins stored', ({ binsStored }) => binsStored],
    ['Bins in no room', ({ binsInNoRoom }) => (hasAllRooms ? undefined : binsInNoRoom)],
    ['Cartons sold', ({ cartonsSold }) => cartonsSold],
    ['Cartons short', ({ cartonsShort }) => cartonsShort],
    ['Cartons to processing', ({ cartonsUnsold }) => cartonsUnsold],
    [`Value, ${base.value?.unit ?? over.value?.unit ?? 'money'}`, worthOf],
    ['Errors', ({ errors }) => errors],
    ['Warnings', ({ warnings }) => warnings],
    ['Promises broken', ({ promisesBroken }) => promisesBroken],
  ];
  return rows.flatMap(([name, of]) => {
    const [was, is] = [of(base), of(over)];
    if (was === undefined && is === undefined) return [];
    const isComparable = of !== worthOf || roomsOverfilled === 0;
    const change = was === undefined || is === undefined ? '' : signed(is - was);
    return [
      [name, ...amountsApart(was, is), isComparable ? change : notComparable(roomsOverfilled)] as const,
    ];
  });
}

function worthOf({ value }: Totals): number | undefined {
  return value?.value;
}

/** Fruit in rooms that cannot hold it is worth nothing that could be told as a gain. */
function notComparable(rooms: number): string {
  return `not comparable: ${counted(rooms, 'room')} overfilled`;
}

/** Whole amounts; where they differ by less, with as many decimals as it takes to see it. A dash for none. */
function amountsApart(was: number | undefined, is: number | undefined): readonly [string, string] {
  if (was !== undefined && is !== undefined) return fixedApart(tidy(was), tidy(is), 0);
  const told = (value: number | undefined) => (value === undefined ? '-' : whole(value));
  return [told(was), told(is)];
}

function signed(change: number): string {
  const [size] = fixedApart(Math.abs(tidy(change)), 0, 0);
  if (tidy(change) === 0) return '=';
  return `${change > 0 ? '+' : '-'}${size}`;
}

function totalsTable(report: WhatIfReport): string[] {
  return table(
    [
      { title: '' },
      { title: 'Base', align: 'right' as const },
      { title: 'Scenario', align: 'right' as const },
      { title: 'Change', align: 'right' as const },
    ],
    totalRows(report),
  );
}

const MOST_TOLD = 8;

/** The worse, errors first. Findings of a code are counted together; a part of their own tells them. */
export function gravest({ consequences, findings }: WhatIfReport, most = MOST_TOLD): string[] {
  const lines = [
    ...findingCounts(findings.new),
    ...consequences.filter(({ direction, kind }) => direction === 'worse' && kind !== 'finding'),
  ].sort((a, b) => gravityRank(a.gravity) - gravityRank(b.gravity));
  const left = lines.length - most;
  return [...lines.slice(0, most).map(({ text }) => text), ...(left > 0 ? [`and ${left} more`] : [])];
}

function findingCounts(findings: Findings): { readonly gravity: string; readonly text: string }[] {
  return [...findingsByCode(findings)].flatMap(([code, all]) => {
    const [first] = all;
    if (!first || first.severity === 'notice') return [];
    return [{ gravity: first.severity, text: `${counted(all.length, first.severity)} ${code}, told below` }];
  });
}

function listPart(title: string, lines: readonly string[], paint: Paint): string[] {
  if (lines.length === 0) return [];
  return [paint.bold(title), ...lines.flatMap((line) => wrap(`  ${line}`, PAGE_WIDTH, '    '))];
}

function expectationsPart({ expectations: { broken, mended } }: WhatIfReport, paint: Paint): string[] {
  const line = (word: string) => (one: (typeof broken)[number]) =>
    wrap(`  ${word} ${one.id}: ${one.claim}. ${one.why}`, PAGE_WIDTH, '    ');
  if (broken.length + mended.length === 0) return [];
  return [
    paint.bold('Promises:'),
    ...broken.flatMap(line(paint.error('broken'))),
    ...mended.flatMap(line(paint.good('mended'))),
  ];
}

type RoomWeeks = WhatIfReport['rooms'][number]['base'];

/** A window as first to last week; a dash without one. */
export function windowCell(weeks: RoomWeeks): string {
  return weeks?.earliest === undefined ? '-' : `${weeks.earliest}..${weeks.latest ?? ''}`;
}

export function opensCell(weeks: RoomWeeks): string {
  return weeks === undefined ? '-' : (weeks.opens ?? 'shut');
}

function roomsTable({ rooms }: WhatIfReport): string[] {
  if (rooms.length === 0) return [];
  return table(
    [
      { title: 'Room' },
      { title: 'Fill', breaks: true },
      { title: 'Window, base' },
      { title: 'with the scenario' },
      { title: 'Opens, base' },
      { title: 'then' },
    ],
    rooms.map(({ room, fill, base, over }) => [
      room,
      fill,
      windowCell(base),
      windowCell(over),
      opensCell(base),
      opensCell(over),
    ]),
  );
}

type MachineWeek = WhatIfReport['machines'][number]['base'];

/** Heaviest weeks of a machine in the base and with the scenario. */
export function loadCells(base: MachineWeek, over: MachineWeek): readonly [string, string] {
  const cell = (week: MachineWeek, share: string) => (week ? `${share} % in ${week.week}` : '-');
  const [was, is] = [base?.share.value ?? 0, over?.share.value ?? 0];
  // Another week tells them apart already.
  const isSameWeek = base?.week === over?.week;
  const [before, then] = isSameWeek ? fixedApart(tidy(was), tidy(is), 0) : [fixed(was, 0), fixed(is, 0)];
  return [cell(base, before), cell(over, then)];
}

function machinesTable({ machines }: WhatIfReport): string[] {
  if (machines.length === 0) return [];
  return table(
    [{ title: 'Equipment' }, { title: 'Heaviest week, base' }, { title: 'with the scenario' }],
    machines.map(({ kind, id, base, over }) => [`${kind} ${id}`, ...loadCells(base, over)]),
  );
}

type Amounts = WhatIfReport['products'][number]['base'];

export function changeCell(base: Amounts, over: Amounts, key: 'sold' | 'short' | 'unsold'): string {
  return amountsApart(base?.[key] ?? 0, over?.[key] ?? 0).join(' → ');
}

function productsTable({ products }: WhatIfReport): string[] {
  if (products.length === 0) return [];
  return table(
    [
      { title: 'Cartons of', breaks: true },
      { title: 'Sold', align: 'right' as const },
      { title: 'Short', align: 'right' as const },
      { title: 'To processing', align: 'right' as const },
    ],
    products.map(({ variety, packClass, base, over }) => [
      `${variety} ${packClass}`,
      changeCell(base, over, 'sold'),
      changeCell(base, over, 'short'),
      changeCell(base, over, 'unsold'),
    ]),
  );
}

type Findings = WhatIfReport['findings']['new'];

function findingsByCode(findings: Findings): Map<string, Findings> {
  const byCode = new Map<string, Findings>();
  for (const finding of findings) byCode.set(finding.code, [...(byCode.get(finding.code) ?? []), finding]);
  return byCode;
}

/** Findings of a code together: how many there are, and the first of them. */
export function findingLines(findings: Findings): string[] {
  return [...findingsByCode(findings)].flatMap(([code, all]) => {
    const [first] = all;
    if (!first) return [];
    const more = all.length === 1 ? '' : ` (${counted(all.length, 'place')})`;
    return [`${first.severity} ${code}${more}: ${firstSentence(first.message)}`];
  });
}

/** A message's first sentence; a point within a number or a name ends none. */
function firstSentence(message: string): string {
  const end = /[.!?](?=\s+[A-Z(])|[.!?]$/.exec(message)?.index ?? message.length;
  return message.slice(0, end);
}

function findingsPart(title: string, findings: Findings, paint: Paint): string[] {
  return listPart(`${title}:`, findingLines(findings), paint);
}

export function moneyCell(value: WhatIfReport['base']['value']): string {
  return value ? showMeasure(value) : '-';
}
