import { formatWeek, type Week } from '../plan/dates';
import { plainText } from '../plan/edits';
import type { Plan } from '../plan/model';
import { BadCell, type RowCells } from './cells';
import { classNamed, marketNamed, varietyNamed } from './named';
import { type RecordRow, type RecordValue, takeRecords } from './records';
import { rowByRow } from './row-by-row';
import type { TableLayout, TableRow, TakenIn } from './types';

interface Invoice {
  readonly market: string;
  readonly variety: string;
  readonly packClass: string;
  readonly week: Week;
  readonly cartons: number;
  readonly price: number | undefined;
  readonly line: number;
}

/**
 * Cartons that have left: rows of one market, variety, class and week are added up, their price is the mean by cartons.
 * A week is taken once: a file of a week that is not over yet would have to be changed by the next.
 */
export function takeSales(plan: Plan, rows: readonly TableRow[], layout: TableLayout): TakenIn {
  const { taken, faults } = rowByRow(rows, layout, (cells, line) => invoiceOf(plan, cells, line));
  const byKey = new Map<string, Invoice[]>();
  for (const one of taken) {
    const key = JSON.stringify([one.market, one.variety, one.packClass, one.week]);
    byKey.set(key, [...(byKey.get(key) ?? []), one]);
  }
  const sales = [...byKey].map(([key, invoices]) => saleOf(plan, key, invoices));
  const records = takeRecords(plan, sales, { section: 'sales', noun: 'sale' });
  return { ...records, rows: rows.length, faults: [...faults, ...records.faults] };
}

function invoiceOf(plan: Plan, cells: RowCells, line: number): Invoice {
  const price = cells.number('price');
  if (price !== undefined && price < 0) throw new BadCell('A price cannot be below 0.');
  return {
    market: marketNamed(plan, cells.text('market')),
    variety: varietyNamed(plan, cells.text('variety')),
    packClass: classNamed(plan, cells.text('class')),
    week: cells.week('week'),
    cartons: cells.count('cartons', 'cartons'),
    price,
    line,
  };
}

function saleOf(plan: Plan, key: string, invoices: readonly Invoice[]): RecordRow {
  const { market, variety, packClass, week } = invoices[0] as Invoice;
  const entry = [...plan.sales.values()].find(
    (one) =>
      one.market?.value === market &&
      one.variety?.value === variety &&
      one.packClass?.value === packClass &&
      one.week?.value === week,
  );
  const cartons = invoices.reduce((sum, one) => sum + one.cartons, 0);
  const price = meanPrice(invoices);
  const values: RecordValue[] = [
    { path: ['market'], value: market, written: plainText(market), known: entry?.market?.value },
    { path: ['variety'], value: variety, written: plainText(variety), known: entry?.variety?.value },
    { path: ['class'], value: packClass, written: plainText(packClass), known: entry?.packClass?.value },
    { path: ['week'], value: week, written: formatWeek(week), known: entry?.week?.value },
    { path: ['cartons'], value: cartons, written: String(cartons), known: entry?.cartons?.value },
    ...(price === undefined
      ? []
      : [{ path: ['price'] as const, value: price, written: String(price), known: entry?.price?.value }]),
  ];
  return {
    key,
    id: `${market}-${variety}-${packClass}-${formatWeek(week)}`,
    entry,
    values,
    lines: invoices.map(({ line }) => line),
  };
}

/** By cartons, to the hundredth, of the rows that have one. */
function meanPrice(invoices: readonly Invoice[]): number | undefined {
  const priced = invoices.filter(({ price, cartons }) => price !== undefined && cartons > 0);
  const cartons = priced.reduce((sum, one) => sum + one.cartons, 0);
  if (cartons === 0) return undefined;
  const mean = priced.reduce((sum, one) => sum + one.cartons * (one.price ?? 0), 0) / cartons;
  return Math.round(mean * 100) / 100;
}
