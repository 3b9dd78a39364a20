import { AFTER_PICKING_DAYS } from '../plan/after-picking';
import { type Day, formatDay } from '../plan/dates';
import { setValue } from '../plan/edits';
import type { Lot, Plan } from '../plan/model';
import type { TextEdit } from '../plan/problem';
import { BadCell, type RowCells } from './cells';
import { lotNamed } from './lots';
import { rowByRow } from './row-by-row';
import type { RowFault, TableChange, TableLayout, TableRow, TakenIn } from './types';

interface Test {
  readonly lot: Lot;
  readonly tested: Day;
  /** Key of the lot's `maturity`, and the value as it is to stand there. */
  readonly values: ReadonlyMap<string, string>;
  readonly line: number;
}

/**
 * Maturity tests: of each lot the last one by its day counts, and comes in the place of one from an earlier day. Of one
 * day, what the plan has stays: a row that says something else is a fault.
 * Samples out of store are no maturity at harvest and are not taken.
 */
export function takeMaturity(plan: Plan, rows: readonly TableRow[], layout: TableLayout): TakenIn {
  const { taken, faults } = rowByRow(rows, layout, (cells, line) => testOf(plan, cells, line));
  const last = new Map<string, Test>();
  for (const test of taken) {
    const known = last.get(test.lot.id);
    if (!known || test.tested >= known.tested) last.set(test.lot.id, test);
  }
  let alreadyThere = 0;
  const contradicted = [...last.values()].flatMap((test) => contradictions(plan, test));
  const changes = [...last.values()].flatMap((test) => {
    if (contradictions(plan, test).length > 0) return [];
    const made = changesOf(plan, test);
    if (made.length === 0) alreadyThere++;
    return made;
  });
  return { rows: rows.length, changes, faults: [...faults, ...contradicted], alreadyThere };
}

function testOf(plan: Plan, cells: RowCells, line: number): Test {
  const lot = lotNamed(plan, cells.text('lot'));
  const tested = cells.day('tested');
  const lastPicked = lot.picked?.value.last;
  if (lastPicked !== undefined && tested > lastPicked + AFTER_PICKING_DAYS)
    throw new BadCell(
      `${formatDay(tested)} is more than ${AFTER_PICKING_DAYS} days after lot ${lot.id} was picked (to ${formatDay(lastPicked)}): a sample out of store does not tell the maturity at harvest.`,
    );
  const values = new Map<string, string>([['tested', formatDay(tested)]]);
  const starch = cells.number('starch');
  if (starch !== undefined) values.set('starch', String(starch));
  for (const key of ['firmness', 'soluble-solids', 'ethylene']) {
    const quantity = cells.quantity(key);
    if (quantity) values.set(key, quantity.written);
  }
  if (values.size === 1) throw new BadCell('The row has the day of a test and no result of it.');
  return { lot, tested, values, line };
}

/** What the plan has of a test of the same day, and the row otherwise. */
function contradictions(plan: Plan, { lot, tested, values, line }: Test): RowFault[] {
  if (lot.maturity?.tested?.value !== tested) return [];
  const other = [...values].find(([key, value]) => {
    const before = writtenOf(plan, lot, key);
    return before !== undefined && before !== value && !isSameQuantity(before, value);
  });
  if (!other) return [];
  return [
    {
      line,
      reason: `The plan has \`${other[0]}: ${writtenOf(plan, lot, other[0])}\` of the test of lot ${lot.id} on ${formatDay(tested)}, and the file ${other[1]}. What is recorded is never changed from a file: correct it in the plan, if the file is right.`,
    },
  ];
}

function writtenOf(plan: Plan, lot: Lot, key: string): string | undefined {
  const span = lot.places.entries?.get('maturity')?.entries?.get(key)?.span;
  return span && plan.files.get(lot.at.file)?.text.slice(span.start, span.end);
}

/** `76.5 N` and `76.50 N`. */
function isSameQuantity(one: string, other: string): boolean {
  const [a, b] = [one, other].map((text) => /^([\d.]+)\s*(.*)$/.exec(text));
  return (
    a !== null &&
    b !== null &&
    a !== undefined &&
    b !== undefined &&
    a[2] === b[2] &&
    Number(a[1]) === Number(b[1])
  );
}

function changesOf(plan: Plan, { lot, tested, values, line }: Test): TableChange[] {
  const file = plan.files.get(lot.at.file);
  const known = lot.maturity?.tested?.value;
  if (!file || (known !== undefined && known > tested)) return [];
  const places = lot.places.entries?.get('maturity');
  const before = (key: string) => writtenOf(plan, lot, key);
  // Of a test of the same day what is written otherwise is the same quantity: only what is not there is added.
  const isNews = (key: string, value: string) =>
    known === tested ? before(key) === undefined : before(key) !== value;
  const news = [...values].filter(([key, value]) => isNews(key, value));
  const whole = `{ ${news.map(([key, value]) => `${key}: ${value}`).join(', ')} }`;
  return news.map(([key, after], index) => ({
    file: file.path,
    entry: `lot ${lot.id}`,
    key: `maturity/${key}`,
    before: before(key),
    after,
    lines: [line],
    edits: editsOf(index, key, after),
  }));

  /** The first value of a lot without `maturity` makes the whole map; the others have their edit in it. */
  function editsOf(index: number, key: string, after: string): TextEdit[] {
    if (!file) return [];
    if (places) return setValue(file, lot.places, ['maturity', key], after);
    return index === 0 ? setValue(file, lot.places, ['maturity'], whole) : [];
  }
}
