import { type Day, formatDay } from '../plan/dates';
import type { Plan } from '../plan/model';
import { nearest } from '../plan/nearest';
import { type ProgressKey, progressSteps } from '../plan/progress-steps';
import type { Progress } from '../plan/record-model';
import { type RecordedStep, type RecordedSteps, stepsInOrder } from '../plan/record-order';
import { counted } from '../plan/wording';
import { BadCell, type RowCells } from './cells';
import { PROGRESS_STEPS } from './fields';
import { lotNamed } from './lots';
import { fillNamed } from './named';
import { type RecordRow, type RecordValue, takeRecords } from './records';
import { rowByRow } from './row-by-row';
import type { TableLayout, TableRow, TakenIn } from './types';

/**
 * What has happened to fills: a row has a fill (or its room) and a day for one step or several, or bins of a lot that
 * went in. Rows of one fill are put together. A row whose day cannot be, as one recorded in the plan or another row has
 * it otherwise, is not taken.
 */
export function takeProgress(plan: Plan, rows: readonly TableRow[], layout: TableLayout): TakenIn {
  const { taken, faults } = rowByRow(rows, layout, (cells, line) => progressOf(plan, cells, line));
  const records = takeRecords(plan, taken, { section: 'progress', noun: 'progress of' }, [
    (row, all) => outOfOrder(row, all, plan.progress.get(row.id)),
    (row, all) => openedUnsealed(plan, row, all) ?? openedAfterPacking(plan, row),
  ]);
  return { ...records, rows: rows.length, faults: [...faults, ...records.faults] };
}

function progressOf(plan: Plan, cells: RowCells, line: number): RecordRow {
  const fill = fillNamed(plan, cells.text('fill'));
  const entry = plan.progress.get(fill.id);
  const values = [...namedStep(cells, entry), ...stepColumns(cells, entry), ...binsOfLot(plan, cells, entry)];
  if (values.length === 0)
    throw new BadCell('The row says of no step when it happened, and of no lot how many bins went in.');
  return { key: fill.id, id: fill.id, entry, values, lines: [line] };
}

/** The columns `step` and `day`. */
function namedStep(cells: RowCells, entry: Progress | undefined): RecordValue[] {
  const word = cells.text('step');
  if (word === '') return [];
  const step = PROGRESS_STEPS.find((one) => one === word);
  if (step) return [dayValue(step, cells.day('day'), entry)];
  const meant = nearest(word, PROGRESS_STEPS);
  throw new BadCell(
    `\`${word}\` is no step of a fill. ${meant ? `Is \`${meant}\` meant?` : `There are ${PROGRESS_STEPS.join(', ')}.`} Names that differ are put side by side under \`names\`.`,
  );
}

/** A column for each step. */
function stepColumns(cells: RowCells, entry: Progress | undefined): RecordValue[] {
  return PROGRESS_STEPS.flatMap((step) =>
    cells.text(step) === '' ? [] : [dayValue(step, cells.day(step), entry)],
  );
}

/** A day of a step, and the line of the file that has it; undefined for one that the plan has already. */
interface DayOfStep {
  readonly day: Day;
  readonly line: number | undefined;
}

/** A day of the row that comes before one which must be earlier, or after one which must be later. */
function outOfOrder(
  row: RecordRow,
  all: readonly RecordRow[],
  entry: Progress | undefined,
): string | undefined {
  for (const [first, later] of stepsInOrder(daysOf(all, entry))) {
    const days = later.on.day - first.on.day;
    const isOfRow = [first, later].some(({ on }) => on.line !== undefined && row.lines.includes(on.line));
    if (days >= 0 || !isOfRow) continue;
    return `${row.id} would be ${said(later, row)}, ${counted(-days, 'day')} before ${said(first, row)}. One of the two days is wrong, so the row is not taken: correct it in the file, or in the plan.`;
  }
  return undefined;
}

function said({ name, on }: RecordedStep<DayOfStep>, { lines }: RecordRow): string {
  const day = `${name} on ${formatDay(on.day)}`;
  if (on.line === undefined) return `${day} (in the plan)`;
  return lines.includes(on.line) ? day : `${day} (line ${on.line})`;
}

function daysOf(rows: readonly RecordRow[], entry: Progress | undefined): RecordedSteps<DayOfStep> {
  const days: { -readonly [Key in keyof RecordedSteps<DayOfStep>]: DayOfStep } = {};
  for (const [key, step] of progressSteps) {
    const known = entry?.[step]?.value;
    const row = rows.find(({ values }) => values.some(({ path }) => path[0] === key));
    const value = row?.values.find(({ path }) => path[0] === key)?.value;
    if (known !== undefined) days[step] = { day: known, line: undefined };
    else if (typeof value === 'number') days[step] = { day: value, line: row?.lines[0] };
  }
  return days;
}

/** An opening before the day on which the plan has the room sealed, where no sealing is recorded. */
function openedUnsealed(plan: Plan, row: RecordRow, all: readonly RecordRow[]): string | undefined {
  const opened = openingIn(row);
  const sealed = plan.fills.get(row.id)?.sealed?.value;
  if (opened === undefined || sealed === undefined || opened >= sealed) return undefined;
  if (daysOf(all, plan.progress.get(row.id)).sealed) return undefined;
  return `${row.id} would be opened on ${formatDay(opened)}, ${counted(sealed - opened, 'day')} before the plan has it sealed (${formatDay(sealed)}), and no sealing is recorded. The row is not taken: correct its day, or record the day of sealing first.`;
}

/** The day of an opening that the plan has not yet. */
function openingIn({ values }: RecordRow): Day | undefined {
  const opened = values.find(({ path, known }) => path[0] === 'opened' && known === undefined)?.value;
  return typeof opened === 'number' ? opened : undefined;
}

/** An opening after a day on which bins of the fill are recorded as packed. */
function openedAfterPacking(plan: Plan, row: RecordRow): string | undefined {
  const opened = openingIn(row);
  if (opened === undefined) return undefined;
  const packed = [...plan.packed.values()].filter(({ fill }) => fill?.value === row.id);
  const first = Math.min(...packed.flatMap(({ day }) => day?.value ?? []));
  if (first >= opened) return undefined;
  return `${row.id} would be opened on ${formatDay(opened)}, ${counted(opened - first, 'day')} after bins of it are recorded as packed (${formatDay(first)}). One of the two days is wrong, so the row is not taken: correct it in the file, or in the plan.`;
}

function dayValue(key: ProgressKey, day: Day, entry: Progress | undefined): RecordValue {
  const step = progressSteps.find(([one]) => one === key)?.[1];
  return { path: [key], value: day, written: formatDay(day), known: step && entry?.[step]?.value };
}

function binsOfLot(plan: Plan, cells: RowCells, entry: Progress | undefined): RecordValue[] {
  const name = cells.text('lot');
  if (name === '') return [];
  const lot = lotNamed(plan, name);
  const bins = cells.count('bins', 'bins');
  const known = entry?.lots.find((one) => one.lot.value === lot.id)?.bins.value;
  return [{ path: ['lots', lot.id], value: bins, written: String(bins), known }];
}
