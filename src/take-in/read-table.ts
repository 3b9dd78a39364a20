import { type CsvError, parse } from 'csv-parse/sync';
import { headingFaults, SEPARATORS } from '../table/headings';
import { type FieldRule, fieldsOf } from './fields';
import type { RowFault, TableLayout, TableRow } from './types';

interface RawRow {
  readonly record: readonly string[];
  readonly info: { readonly lines: number };
}

/**
 * The rows of a file by the layout's fields. A row with too many or too few cells, and one without a value that is
 * needed, is a fault; a heading that the layout names and the file has not is one fault of the first line, and no row
 * is read then: rows would be taken without a value that was meant to count. `read` counts the rows below a heading that
 * fits.
 */
export function readTable(
  text: string,
  layout: TableLayout,
): { rows: TableRow[]; faults: RowFault[]; read: number } {
  const raw = rawRows(text, layout);
  if ('fault' in raw) return { rows: [], faults: [raw.fault], read: 0 };
  const [heading, ...below] = raw.rows;
  if (!heading) return { rows: [], faults: [{ line: 1, reason: 'The file is empty.' }], read: 0 };
  const headings = heading.record.map((cell) => cell.trim());
  const missing = missingColumns(headings, layout);
  if (missing.length > 0) return { rows: [], faults: missing, read: 0 };
  const faults: RowFault[] = [];
  const rows = below.flatMap(({ record, info }, index) => {
    // The parser tells the line a record ends in: a quoted cell may run over several.
    const line = (raw.rows[index]?.info.lines ?? 0) + 1;
    if (record.length !== headings.length) {
      faults.push({
        line,
        reason: `The row has ${record.length} cells, and the heading ${headings.length}. Is a separator missing, or a quote open? (It is read with ${layout.separator} between cells, to line ${info.lines}.)`,
      });
      return [];
    }
    const fields = fieldTexts(record, headings, layout);
    const lacking = neededFields(layout).filter((field) => (fields.get(field.name) ?? '') === '');
    if (lacking.length === 0) return [{ line, fields }];
    faults.push({
      line,
      reason: `No ${lacking.map(({ name }) => `\`${name}\``).join(' and no ')} in column ${lacking.map(({ name }) => `"${layout.columns.get(name)}"`).join(', ')}.`,
    });
    return [];
  });
  return { rows, faults, read: below.length };
}

function rawRows(text: string, layout: TableLayout): { rows: RawRow[] } | { fault: RowFault } {
  try {
    // The types of the library know rows of cells only; with `info` each stands beside what is known of it.
    const rows = parse(text, {
      bom: true,
      delimiter: SEPARATORS[layout.separator],
      info: true,
      relax_column_count: true,
      skip_empty_lines: true,
    }) as unknown as RawRow[];
    return { rows };
  } catch (error) {
    const { message, lines } = error as CsvError & { readonly lines?: number };
    return {
      fault: { line: lines ?? 1, reason: `The file cannot be read as a table from here on: ${message}.` },
    };
  }
}

function neededFields(layout: TableLayout): FieldRule[] {
  return fieldsOf(layout.holds).filter(({ isNeeded }) => isNeeded);
}

function missingColumns(headings: readonly string[], layout: TableLayout): RowFault[] {
  const needed = neededFields(layout).map(({ name }) => name);
  return headingFaults(headings, layout, needed).map(({ reason }) => ({ line: 1, reason }));
}

function fieldTexts(
  record: readonly string[],
  headings: readonly string[],
  layout: TableLayout,
): Map<string, string> {
  const fields = new Map<string, string>();
  for (const [field, column] of layout.columns) {
    const cell = (record[headings.indexOf(column)] ?? '').trim();
    fields.set(field, layout.names.get(field)?.get(cell) ?? cell);
  }
  return fields;
}
