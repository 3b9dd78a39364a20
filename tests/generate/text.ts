/** Small helpers for writing plan text the way a planner does: one entry a line, columns aligned. */

/** `{ a: 1, b: 2 }`; what is undefined is left out. */
export function flow(values: Readonly<Record<string, string | number | undefined>>): string {
  const parts = Object.entries(values).filter(([, value]) => value !== undefined);
  return `{ ${parts.map(([key, value]) => `${key}: ${value}`).join(', ')} }`;
}

/** Lines of cells as columns, each as wide as its widest cell. The last cell of a line is not padded. */
export function columns(rows: readonly (readonly string[])[]): string[] {
  const widths: number[] = [];
  for (const row of rows) {
    for (const [index, cell] of row.entries()) widths[index] = Math.max(widths[index] ?? 0, cell.length);
  }
  return rows.map((row) =>
    row
      .map((cell, index) => (index === row.length - 1 ? cell : cell.padEnd(widths[index] ?? 0)))
      .join(' ')
      .trimEnd(),
  );
}

/** Items over lines of at most `width` characters, joined by commas. */
export function wrapped(items: readonly string[], width: number): string[] {
  const lines: string[] = [];
  for (const item of items) {
    const joined = `${lines.at(-1)}, ${item}`;
    if (lines.length > 0 && joined.length <= width) lines[lines.length - 1] = joined;
    else lines.push(item);
  }
  return lines;
}

/** A flow map over several lines, the later ones set under the first. `opening` is all that stands before them. */
export function flowLines(opening: string, lines: readonly string[]): string {
  return `${opening}${lines.join(`,\n${' '.repeat(opening.length)}`)} }`;
}

export function groupBy<T, K>(items: readonly T[], keyOf: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group) group.push(item);
    else groups.set(keyOf(item), [item]);
  }
  return groups;
}
