import { formatDay, formatWeek } from '../../plan/dates';
import { fixed } from '../../plan/display';
import type { PaperCell, PaperColumn } from './paper';

/** A column's heading, its unit in brackets. */
export function heading({ title, unit }: PaperColumn): string {
  return unit === undefined || unit === '' ? title : `${title} (${unit})`;
}

/** A cell as a program reads it: numbers without commas, names with semicolons between them. */
export function plainCell(column: PaperColumn, cell: PaperCell): string {
  if (typeof cell === 'number' && column.kind === 'number') return cell.toFixed(column.decimals ?? 0);
  return cellWords(column, cell, '; ');
}

/** A cell as people read it; empty where the plan does not tell. */
export function cellText(column: PaperColumn, cell: PaperCell): string {
  if (typeof cell === 'number' && column.kind === 'number') return fixed(cell, column.decimals ?? 0);
  return cellWords(column, cell, ', ');
}

function cellWords(column: PaperColumn, cell: PaperCell, between: string): string {
  if (cell === null) return '';
  if (typeof cell === 'string') return cell;
  if (typeof cell === 'number') return column.kind === 'day' ? formatDay(cell) : formatWeek(cell);
  return cell.join(between);
}
