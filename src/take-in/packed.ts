import { formatDay } from '../plan/dates';
import { plainText } from '../plan/edits';
import type { Plan } from '../plan/model';
import type { PackedRun } from '../plan/record-model';
import { counted } from '../plan/wording';
import { BadCell, type RowCells } from './cells';
import { CARTONS_OF } from './fields';
import { lotNamed } from './lots';
import { classNamed, fillNamed } from './named';
import { type RecordRow, type RecordValue, takeRecords } from './records';
import { rowByRow } from './row-by-row';
import type { TableLayout, TableRow, TakenIn } from './types';

/**
 * Packed runs. Either a row a run, with a column of cartons for each class (`cartons-first`): rows of one lot, fill and
 * day are added up. Or a row a class, with `class` and `cartons`, each with all bins of the run. A number of the run's
 * own (`run`) tells runs of one day apart.
 */
export function takePacked(plan: Plan, rows: readonly TableRow[], layout: TableLayout): TakenIn {
  const byClass = layout.columns.has('class');
  const classes = [...layout.columns.keys()].flatMap((field) =>
    field.startsWith(CARTONS_OF) ? [field.slice(CARTONS_OF.length)] : [],
  );
  const { taken, faults } = rowByRow(rows, layout, (cells, line) => runOf(plan, cells, line, classes));
  const runs = byClass ? taken : addedUp(taken);
  const records = takeRecords(plan, runs, { section: 'packed', noun: 'packed run' });
  return { ...records, rows: rows.length, faults: [...faults, ...records.faults] };
}

function runOf(plan: Plan, cells: RowCells, line: number, classes: readonly string[]): RecordRow {
  const lot = lotNamed(plan, cells.text('lot'));
  const named = cells.text('fill');
  const fill = named === '' ? undefined : fillNamed(plan, named);
  const day = cells.day('day');
  const opened = fill && plan.progress.get(fill.id)?.opened?.value;
  if (fill && opened !== undefined && day < opened)
    throw new BadCell(
      `Bins of ${fill.id} would be packed on ${formatDay(day)}, ${counted(opened - day, 'day')} before it is recorded as opened (${formatDay(opened)}). One of the two days is wrong, so the row is not taken: correct it in the file, or in the plan.`,
    );
  const number = cells.text('run');
  const entry =
    number === ''
      ? [...plan.packed.values()].find(
          (one) => one.lot?.value === lot.id && one.fill?.value === fill?.id && one.day?.value === day,
        )
      : plan.packed.get(number);
  const bins = cells.count('bins', 'bins');
  const values: RecordValue[] = [
    { path: ['lot'], value: lot.id, written: plainText(lot.id), known: entry?.lot?.value },
    ...(fill
      ? [{ path: ['fill'] as const, value: fill.id, written: plainText(fill.id), known: entry?.fill?.value }]
      : []),
    { path: ['day'], value: day, written: formatDay(day), known: entry?.day?.value },
    { path: ['bins'], value: bins, written: String(bins), known: entry?.bins?.value },
    ...cartonsOf(plan, cells, classes, entry),
  ];
  return {
    key: number === '' ? JSON.stringify([lot.id, fill?.id, day]) : number,
    id: number === '' ? `${lot.id}-${formatDay(day)}` : number,
    entry,
    values,
    lines: [line],
  };
}

function cartonsOf(
  plan: Plan,
  cells: RowCells,
  classes: readonly string[],
  entry: PackedRun | undefined,
): RecordValue[] {
  const word = cells.text('class');
  const own = word === '' ? [] : [{ packClass: classNamed(plan, word), field: 'cartons' }];
  const columns = classes
    .map((packClass) => ({ packClass: classNamed(plan, packClass), field: `${CARTONS_OF}${packClass}` }))
    .filter(({ field }) => cells.text(field) !== '');
  const found = [...own, ...columns];
  if (found.length === 0) throw new BadCell('The row has cartons of no class.');
  return found.map(({ packClass, field }) => {
    const cartons = cells.count('cartons', field);
    const known = entry?.cartons.get(packClass)?.value;
    return { path: ['cartons', packClass], value: cartons, written: String(cartons), known };
  });
}

/** Rows of one run as one: bins and cartons are added up, and all else is the same by its key. */
function addedUp(rows: readonly RecordRow[]): RecordRow[] {
  const byKey = new Map<string, RecordRow>();
  for (const row of rows) {
    const before = byKey.get(row.key);
    byKey.set(row.key, before ? sumOf(before, row) : row);
  }
  return [...byKey.values()];
}

function sumOf(one: RecordRow, other: RecordRow): RecordRow {
  const values = new Map(one.values.map((value) => [value.path.join('/'), value]));
  for (const value of other.values) {
    const key = value.path.join('/');
    const before = values.get(key);
    const isCounted = key === 'bins' || value.path[0] === 'cartons';
    if (!before) values.set(key, value);
    else if (isCounted && typeof before.value === 'number' && typeof value.value === 'number') {
      const total = before.value + value.value;
      values.set(key, { ...before, value: total, written: String(total) });
    }
  }
  return { ...one, values: [...values.values()], lines: [...one.lines, ...other.lines] };
}
