import type { UnitSystem } from '../plan/display';
import type { Plan } from '../plan/model';
import { counted } from '../plan/wording';
import { caution } from '../room/caution';
import type { TableChange, TableLayout, TakenIn } from '../take-in/types';
import { noPaint, type Paint } from './paint';
import { planPart, present } from './parts';
import type { TakeInReport } from './schemas';
import { PAGE_WIDTH, table, wrap } from './table';

/** What taking in a file changes, as published JSON. */
export function takeInReport(
  plan: Plan,
  layout: TableLayout,
  taken: TakenIn,
  about: { readonly source: string; readonly written: boolean; readonly units: UnitSystem },
): TakeInReport {
  const opening =
    taken.changes.some(tellsOfOpening) || taken.faults.some(({ reason }) => OPENING.test(reason));
  return {
    format: 'lotwright-take-in-report',
    version: 1,
    plan: planPart(plan),
    units: about.units,
    table: layout.id,
    holds: layout.holds,
    source: about.source,
    rows: taken.rows,
    alreadyThere: taken.alreadyThere,
    written: about.written,
    changes: taken.changes.map(({ file, entry, key, before, after, lines }) =>
      present({ file, entry, key, before, after, lines: [...lines] }),
    ),
    faults: taken.faults.map(({ line, reason }) => ({ line, reason })),
    ...(opening && { caution }),
  };
}

/** Words of rows about rooms that are, or are said to be, open. */
const OPENING = /\b(opened|opening|emptied)\b/;

function tellsOfOpening({ key, after }: TableChange): boolean {
  return OPENING.test(key) || (key === 'new' && OPENING.test(after));
}

/** The same for people: what changes, entry by entry, then the rows that are not taken. */
export function takeInText(report: TakeInReport, paint: Paint = noPaint): string {
  const cautions = report.caution === undefined ? [] : [...wrap(report.caution, PAGE_WIDTH), ''];
  return [...changesText(report), ...faultsText(report, paint), ...cautions, summary(report, paint)].join(
    '\n',
  );
}

const COLUMNS = ['Entry', 'Key', 'Before', 'After', 'Lines'].map((title) => ({
  title,
  breaks: title === 'Lines' || title === 'After',
}));

function changesText({ changes }: TakeInReport): string[] {
  if (changes.length === 0) return [];
  const rows = changes.map(({ entry, key, before, after, lines }) => [
    entry,
    key,
    before ?? '-',
    after,
    lines.length > 4 ? `${lines.slice(0, 3).join(', ')} and ${lines.length - 3} more` : lines.join(', '),
  ]);
  return [...table(COLUMNS, rows, { keys: 2 }), ''];
}

function faultsText({ faults, source }: TakeInReport, paint: Paint): string[] {
  if (faults.length === 0) return [];
  return [
    ...faults.flatMap(({ line, reason }) =>
      wrap(`${paint.warning(`${source}:${line}`)} ${reason}`, PAGE_WIDTH, '  '),
    ),
    '',
  ];
}

function summary({ rows, changes, faults, alreadyThere, written }: TakeInReport, paint: Paint): string {
  // A file that does not fit its layout has faults, and no rows that could be told from one another.
  if (rows === 0 && faults.length > 0)
    return paint.warning('No row could be read, so that nothing is taken. There is nothing to write.');
  const parts = [
    `${counted(rows, 'row')} read`,
    counted(changes.length, 'change'),
    ...(alreadyThere > 0 ? [`${counted(alreadyThere, 'value')} there already`] : []),
    ...(faults.length > 0 ? [`${counted(faults.length, 'row or entry', 'rows or entries')} not taken`] : []),
  ];
  const done = written
    ? 'The changes are in the plan.'
    : changes.length > 0
      ? 'Nothing is written yet: add --write.'
      : 'There is nothing to write.';
  const line = `${parts.join(', ')}. ${done}`;
  return faults.length > 0 ? paint.warning(line) : paint.good(line);
}
