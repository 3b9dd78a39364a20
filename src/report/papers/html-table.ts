import { cellText, heading } from './cell-text';
import type { PaperCell, PaperColumn, PaperTable } from './paper';
import { xmlText } from './xml';

/** More names than these are counted: the pages that follow, and the other forms of the paper, have each. */
const MOST_NAMES = 5;

export function htmlTable({ columns, rows }: Pick<PaperTable, 'columns' | 'rows'>): string {
  const head = columns.map((column) => `<th scope="col"${classOf(column)}>${xmlText(heading(column))}</th>`);
  const body = rows.map((row) => {
    const cells = columns.map(
      (column, index) => `<td${classOf(column)}>${shown(column, row[index] ?? null)}</td>`,
    );
    return `<tr>${cells.join('')}</tr>`;
  });
  return `<table>\n<thead><tr>${head.join('')}</tr></thead>\n<tbody>\n${body.join('\n')}\n</tbody>\n</table>`;
}

function shown(column: PaperColumn, cell: PaperCell): string {
  if (Array.isArray(cell) && cell.length > MOST_NAMES) return `${cell.length} rooms`;
  // Zeros in a long list hide what there is.
  return cell === 0 && column.kind === 'number' ? '' : xmlText(cellText(column, cell));
}

function classOf({ key, kind }: PaperColumn): string {
  if (key === 'days') return ' class="day"';
  return kind === 'number' || kind === 'day' || kind === 'week' ? ` class="${kind}"` : '';
}
