import { measureLabel, showMeasure } from '../plan/display';
import { counted } from '../plan/wording';
import type { ExpectationRow } from './expect-report';
import { noPaint, type Paint } from './paint';
import { seasonBefore } from './parts';
import type { ExpectReport } from './schemas';
import { PAGE_WIDTH, table, wrap } from './table';

/** The promises as text: broken ones first, each with its place and what would cure it; then those that hold. */
export function expectText(report: ExpectReport, paint: Paint = noPaint): string {
  const { expectations: rows } = report;
  if (rows.length === 0)
    return 'The plan promises nothing. Write promises under `expect`; lotwright expect --help shows how.';
  const broken = rows.filter(({ state }) => state === 'broken');
  const unjudged = rows.filter(({ state }) => state === 'not judged');
  const kept = rows.filter(({ state }) => state === 'kept');
  return [
    ...wrap(headline(report), PAGE_WIDTH).map(paint.bold),
    ...broken.flatMap((row) => ['', ...rowText(row, paint.error('broken'), paint)]),
    ...unjudged.flatMap((row) => ['', ...rowText(row, paint.warning('not judged'), paint)]),
    ...(kept.length > 0 ? ['', ...keptTable(kept)] : []),
    ...(report.caution === undefined ? [] : ['', ...wrap(report.caution, PAGE_WIDTH)]),
  ].join('\n');
}

/** `Orrowby Vale: 4 of 6 promises kept, 1 broken, 1 not judged (quick schedule)`. */
export function headline({ plan, counts, expectations, schedule }: ExpectReport): string {
  const season = seasonBefore(plan);
  const parts = [
    `${counts.kept} of ${counted(expectations.length, 'promise')} kept`,
    ...(counts.broken > 0 ? [`${counts.broken} broken`] : []),
    ...(counts.notJudged > 0 ? [`${counts.notJudged} not judged`] : []),
  ];
  return `${season}${parts.join(', ')}${schedule === 'quick' ? ' (quick schedule)' : ''}`;
}

function rowText(row: ExpectationRow, state: string, paint: Paint): string[] {
  const { place, id, claim, because, why, cures } = row;
  const amounts = row.promised && row.measured && amountsText(row);
  const below = (text: string) => wrap(`  ${text}`, PAGE_WIDTH, '  ');
  return [
    `${place.file}:${place.line}:${place.column} ${state} ${paint.bold(id)}`,
    ...below(
      `${claim.charAt(0).toUpperCase()}${claim.slice(1)}${because === undefined ? '' : `, because: ${because}`}`,
    ),
    ...(amounts ? below(amounts) : []),
    ...below(why),
    ...cures.flatMap(({ text }) => wrap(`  cure: ${text}`, PAGE_WIDTH, '        ')),
  ];
}

/** What was promised beside what came out. */
export function amountsText(row: ExpectationRow): string {
  return `promised ${toldText(row.promised)}, came out ${toldText(row.measured)}`;
}

export function toldText(told: ExpectationRow['promised']): string {
  if (!told) return '-';
  if ('week' in told) return told.week ?? 'at no time';
  const label = measureLabel(told.unit);
  const isPlain = told.unit === '%' || told.unit === '1';
  const value = isPlain ? String(Number(told.value.toFixed(2))) : showMeasure(told);
  return label === '' ? value : `${value} ${label}`;
}

function keptTable(rows: readonly ExpectationRow[]): string[] {
  return table(
    [
      { title: 'Kept' },
      { title: 'Promise', breaks: true },
      { title: 'Promised', align: 'right' as const },
      { title: 'Came out', align: 'right' as const },
    ],
    rows.map((row) => [row.id, row.claim, toldText(row.promised), toldText(row.measured)]),
  );
}
