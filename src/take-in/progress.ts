import { type Day, formatDay } from '../plan/dates';
import type { Plan } from '../plan/model';
import { nearest } from '../plan/nearest';
import type { Progress } from '../plan/record-model';
import { BadCell, type RowCells } from './cells';
import { PROGRESS_STEPS, type ProgressStep } from './fields';
import { lotNamed } from './lots';
import { fillNamed } from './named';
import { type RecordRow, type RecordValue, takeRecords } from './records';
import { rowByRow } from './row-by-row';
import type { TableLayout, TableRow, TakenIn } from './types';

/**
 * What has happened to fills: a row has a fill (or its room) and a day for one step or several, or bins of a lot that
 * went in. Rows of one fill are put together.
 */
export function takeProgress(plan: Plan, rows: readonly TableRow[], layout: TableLayout): TakenIn {
  const { taken, faults } = rowByRow(rows, layout, (cells, line) => progressOf(plan, cells, line));
  const records = takeRecords(plan, taken, { section: 'progress', noun: 'progress of' });
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

const KNOWN: Readonly<Record<ProgressStep, (entry: Progress) => { readonly value: Day } | undefined>> = {
  'first-bin': ({ firstBin }) => firstBin,
  'last-bin': ({ lastBin }) => lastBin,
  cool: ({ cool }) => cool,
  sealed: ({ sealed }) => sealed,
  'low-oxygen': ({ lowOxygen }) => lowOxygen,
  'set-point': ({ setPoint }) => setPoint,
  opened: ({ opened }) => opened,
  emptied: ({ emptied }) => emptied,
};

function dayValue(step: ProgressStep, day: Day, entry: Progress | undefined): RecordValue {
  return { path: [step], value: day, written: formatDay(day), known: entry && KNOWN[step](entry)?.value };
}

function binsOfLot(plan: Plan, cells: RowCells, entry: Progress | undefined): RecordValue[] {
  const name = cells.text('lot');
  if (name === '') return [];
  const lot = lotNamed(plan, name);
  const bins = cells.count('bins');
  const known = entry?.lots.find((one) => one.lot.value === lot.id)?.bins.value;
  return [{ path: ['lots', lot.id], value: bins, written: String(bins), known }];
}
