/** The width every text report keeps to. */
export const PAGE_WIDTH = 100;

const BETWEEN = '  ';

/** A column of a text table. Numbers stand at the right, words at the left. */
export interface Column {
  readonly title: string;
  /** Stands in a line of its own under the title. */
  readonly unit?: string;
  readonly align?: 'left' | 'right';
  /** The column's cells may be broken over several lines where the table would be too wide. */
  readonly breaks?: boolean;
}

export interface TableOptions {
  readonly width?: number;
  /** Rows that stand under a rule at the end. */
  readonly totals?: readonly (readonly string[])[];
  /** Columns that are repeated where a table too wide for the page is cut into several; 1 by default. */
  readonly keys?: number;
}

const LEAST_BREAKING_WIDTH = 12;
const COLOUR = new RegExp(`${String.fromCharCode(27)}\\[[0-9;]*m`, 'g');

/** Letters that take two places in a terminal. */
const WIDE = /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\uFF01-\uFF60]/gu;

/** How many places a text takes in a terminal, colour aside. */
export function visibleWidth(text: string): number {
  const plain = text.replace(COLOUR, '').replace(/\p{Mark}/gu, '');
  return [...plain.replace(WIDE, '..')].length;
}

/**
 * A table as text lines, no wider than the page: first cells that may be broken are, then the table is cut into
 * several that repeat the key columns.
 */
export function table(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  options: TableOptions = {},
): string[] {
  const width = options.width ?? PAGE_WIDTH;
  const totals = options.totals ?? [];
  const widths = columnWidths(columns, [...rows, ...totals], width);
  const groups = columnGroups(widths, options.keys ?? 1, width);
  return groups.flatMap((group, index) => [
    ...(index === 0 ? [] : ['']),
    ...oneTable(
      pick(columns, group),
      pick(widths, group),
      rows.map((row) => pick(row, group)),
      totals.map((row) => pick(row, group)),
    ),
  ]);
}

/** Breaks a text into lines of at most `width`, at spaces where it can; later lines begin with `indent`. */
export function wrap(text: string, width: number, indent = ''): string[] {
  const lines: string[] = [];
  let line = /^ */.exec(text)?.[0] ?? '';
  for (const word of text.trimStart().split(' ')) {
    const candidate = line.trim() === '' ? line + word : `${line} ${word}`;
    if (visibleWidth(candidate) <= width || line.trim() === '') {
      line = candidate;
    } else {
      lines.push(line);
      line = indent + word;
    }
    while (visibleWidth(line) > width && width > indent.length) {
      const cut = [...line];
      lines.push(cut.slice(0, width).join(''));
      line = indent + cut.slice(width).join('');
    }
  }
  return [...lines, line];
}

function columnWidths(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  page: number,
): number[] {
  const widths = columns.map((column, at) =>
    Math.max(
      visibleWidth(column.title),
      visibleWidth(column.unit ?? ''),
      ...rows.map((row) => visibleWidth(row[at] ?? '')),
    ),
  );
  let excess = totalWidth(widths) - page;
  while (excess > 0) {
    const widest = widestBreaking(columns, widths);
    if (widest === undefined) break;
    widths[widest] = (widths[widest] ?? 0) - 1;
    excess -= 1;
  }
  return widths;
}

function widestBreaking(columns: readonly Column[], widths: readonly number[]): number | undefined {
  let widest: number | undefined;
  columns.forEach((column, at) => {
    const width = widths[at] ?? 0;
    if (!column.breaks || width <= Math.max(LEAST_BREAKING_WIDTH, visibleWidth(column.title))) return;
    if (widest === undefined || width > (widths[widest] ?? 0)) widest = at;
  });
  return widest;
}

function columnGroups(widths: readonly number[], keys: number, page: number): number[][] {
  const keyColumns = widths.slice(0, keys).map((_, at) => at);
  const groups: number[][] = [];
  let group = [...keyColumns];
  for (let at = keys; at < widths.length; at += 1) {
    const wider = [...group, at];
    if (group.length > keys && totalWidth(pick(widths, wider)) > page) {
      groups.push(group);
      group = [...keyColumns, at];
    } else {
      group = wider;
    }
  }
  return [...groups, group];
}

function oneTable(
  columns: readonly Column[],
  widths: readonly number[],
  rows: readonly (readonly string[])[],
  totals: readonly (readonly string[])[],
): string[] {
  const rule = widths.map((width) => '-'.repeat(width)).join(BETWEEN);
  const line = (cells: readonly string[]) => rowLines(columns, widths, cells);
  const units = columns.some((column) => column.unit) ? line(columns.map((column) => column.unit ?? '')) : [];
  return [
    ...line(columns.map((column) => column.title)),
    ...units,
    rule,
    ...rows.flatMap(line),
    ...(totals.length > 0 ? [rule, ...totals.flatMap(line)] : []),
  ];
}

function rowLines(columns: readonly Column[], widths: readonly number[], cells: readonly string[]): string[] {
  const broken = cells.map((cell, at) => {
    const width = widths[at] ?? 0;
    return visibleWidth(cell) > width ? wrap(cell, width) : [cell];
  });
  const height = Math.max(1, ...broken.map((lines) => lines.length));
  return Array.from({ length: height }, (_, line) =>
    broken
      .map((lines, at) => pad(lines[line] ?? '', widths[at] ?? 0, columns[at]?.align ?? 'left'))
      .join(BETWEEN)
      .trimEnd(),
  );
}

function pad(text: string, width: number, align: 'left' | 'right'): string {
  const spaces = ' '.repeat(Math.max(0, width - visibleWidth(text)));
  return align === 'right' ? spaces + text : text + spaces;
}

function totalWidth(widths: readonly number[]): number {
  return widths.reduce((sum, width) => sum + width, 0) + BETWEEN.length * Math.max(0, widths.length - 1);
}

function pick<T>(list: readonly T[], at: readonly number[]): T[] {
  return at.flatMap((index) => (index < list.length ? [list[index] as T] : []));
}
