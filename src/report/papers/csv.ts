import { cautionInShort } from '../../room/caution';
import { heading, plainCell } from './cell-text';
import type { PaperTable } from './paper';
import { hatchRule } from './sampling';

const CAUTION = 'Caution';

/**
 * A table as comma-separated values by RFC 4180: a heading, CR LF after each line, quotes where they are needed. Days
 * are ISO 8601 dates, numbers have a point and no other mark. A table that speaks of opening has a column for the
 * caution, in every row: a row may be sorted, filtered or copied away from the others.
 */
export function csvText(table: PaperTable): string {
  const words = table.key === 'samples' ? `${hatchRule} ${cautionInShort}` : cautionInShort;
  const caution = table.opens ? [words] : [];
  const rows = table.rows.map((row) => [
    ...table.columns.map((column, index) => plainCell(column, row[index] ?? null)),
    ...caution,
  ]);
  return csvLines([csvHeading(table), ...rows]);
}

export function csvHeading({ columns, opens }: PaperTable): string[] {
  return [...columns.map(heading), ...(opens ? [CAUTION] : [])];
}

export function csvLines(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => `${row.map(csvField).join(',')}\r\n`).join('');
}

/** Quoted where it holds a comma, a quote or a line's end, where spaces would get lost, and where it is empty and alone. */
function csvField(text: string, index: number, row: readonly string[]): string {
  const quoted = /[",\r\n]|^\s|\s$/.test(text) || (text === '' && row.length === 1 && index === 0);
  return quoted ? `"${text.replaceAll('"', '""')}"` : text;
}
