import { formatDay } from '../plan/dates';
import { plainText } from '../plan/edits';
import type { Plan } from '../plan/model';
import type { Sample } from '../plan/record-model';
import { BadCell, type RowCells } from './cells';
import { DISORDERS } from './fields';
import { lotNamed } from './lots';
import { fillNamed } from './named';
import { type RecordRow, type RecordValue, takeRecords } from './records';
import { rowByRow } from './row-by-row';
import type { TableLayout, TableRow, TakenIn } from './types';

/** Quality samples: a row each, told apart by its own number if the file has one, else by lot, fill and day. */
export function takeSamples(plan: Plan, rows: readonly TableRow[], layout: TableLayout): TakenIn {
  const { taken, faults } = rowByRow(rows, layout, (cells, line) => sampleOf(plan, cells, line));
  const records = takeRecords(plan, taken, { section: 'samples', noun: 'sample' });
  return { ...records, rows: rows.length, faults: [...faults, ...records.faults] };
}

function sampleOf(plan: Plan, cells: RowCells, line: number): RecordRow {
  const lot = lotNamed(plan, cells.text('lot'));
  const named = cells.text('fill');
  const fill = named === '' ? undefined : fillNamed(plan, named);
  const taken = cells.day('taken');
  const picked = lot.picked?.value.first;
  if (picked !== undefined && taken < picked)
    throw new BadCell(
      `${formatDay(taken)} is before lot ${lot.id} is picked (${formatDay(picked)}). Correct the day, or \`picked\` in the plan.`,
    );
  const number = cells.text('sample');
  const entry =
    number === ''
      ? [...plan.samples.values()].find(
          (one) => one.lot?.value === lot.id && one.fill?.value === fill?.id && one.taken?.value === taken,
        )
      : plan.samples.get(number);
  const values: RecordValue[] = [
    { path: ['lot'], value: lot.id, written: plainText(lot.id), known: entry?.lot?.value },
    ...(fill
      ? [{ path: ['fill'] as const, value: fill.id, written: plainText(fill.id), known: entry?.fill?.value }]
      : []),
    { path: ['taken'], value: taken, written: formatDay(taken), known: entry?.taken?.value },
  ];
  const results = resultsOf(cells, entry);
  if (results.every(({ path }) => path[0] === 'fruit'))
    throw new BadCell('The row has the day of a sample and no result of it.');
  return {
    key: number === '' ? JSON.stringify([lot.id, fill?.id, taken]) : number,
    id: number === '' ? `${lot.id}-${formatDay(taken)}` : number,
    entry,
    values: [...values, ...results],
    lines: [line],
  };
}

function resultsOf(cells: RowCells, entry: Sample | undefined): RecordValue[] {
  const fruit = cells.text('fruit') === '' ? undefined : cells.count('few', 'fruit');
  const measured = [
    ['firmness', entry?.firmness],
    ['firmness-spread', entry?.firmnessSpread],
    ['soluble-solids', entry?.solubleSolids],
    ['ethylene', entry?.ethylene],
  ] as const;
  return [
    ...(fruit === undefined
      ? []
      : [{ path: ['fruit'] as const, value: fruit, written: String(fruit), known: entry?.fruit?.value }]),
    ...measured.flatMap(([field, known]) => {
      const quantity = cells.quantity(field);
      return quantity
        ? [{ path: [field] as const, value: quantity.value, written: quantity.written, known: known?.value }]
        : [];
    }),
    ...DISORDERS.flatMap((disorder) => {
      const share = cells.quantity(disorder);
      const known = entry?.disorders.get(disorder)?.value;
      return share
        ? [{ path: ['disorders', disorder] as const, value: share.value, written: share.written, known }]
        : [];
    }),
  ];
}
