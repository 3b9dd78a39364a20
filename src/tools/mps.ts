import type { LinearModel } from '../release/linear-model';

/**
 * A model as a free-format MPS file to *minimise*, which every solver reads alike: some take no notice of a file that
 * says it maximises. The objective is turned around; the offset is left out.
 */
export function mpsText(model: LinearModel): string {
  const rows = Array.from({ length: model.numRows }, (_, row) => rowOf(model, row));
  const lines = [
    'NAME SEASON FREE',
    'ROWS',
    ' N COST',
    ...rows.map(({ kind }, row) => ` ${kind} R${row}`),
    'COLUMNS',
  ];
  const entries = entriesByColumn(model);
  let inWhole = false;
  entries.forEach((list, column) => {
    const whole = model.whole[column] === 1;
    if (whole !== inWhole) lines.push(` MARK${column} 'MARKER' '${whole ? 'INTORG' : 'INTEND'}'`);
    inWhole = whole;
    lines.push(` C${column} COST ${number(-(model.cost[column] ?? 0))}`);
    for (const [row, value] of list) lines.push(` C${column} R${row} ${number(value)}`);
  });
  if (inWhole) lines.push(` MARKEND 'MARKER' 'INTEND'`);
  lines.push('RHS', ...rows.map(({ side }, row) => ` RHS R${row} ${number(side)}`));
  const ranges = rows.flatMap(({ range }, row) =>
    range === undefined ? [] : [` RNG R${row} ${number(range)}`],
  );
  if (ranges.length > 0) lines.push('RANGES', ...ranges);
  lines.push('BOUNDS');
  for (let column = 0; column < model.numCols; column++) {
    lines.push(` LO BND C${column} ${number(model.colLower[column] ?? 0)}`);
    lines.push(` UP BND C${column} ${number(model.colUpper[column] ?? 0)}`);
  }
  return `${[...lines, 'ENDATA'].join('\n')}\n`;
}

interface MpsRow {
  readonly kind: 'E' | 'L' | 'G';
  readonly side: number;
  readonly range?: number;
}

function rowOf({ rowLower, rowUpper }: LinearModel, row: number): MpsRow {
  const [lower, upper] = [rowLower[row] ?? 0, rowUpper[row] ?? 0];
  if (lower === upper) return { kind: 'E', side: upper };
  if (!Number.isFinite(upper)) return { kind: 'G', side: lower };
  return { kind: 'L', side: upper, ...(Number.isFinite(lower) && { range: upper - lower }) };
}

function entriesByColumn(model: LinearModel): (readonly [row: number, value: number])[][] {
  const entries: (readonly [number, number])[][] = Array.from({ length: model.numCols }, () => []);
  for (let row = 0; row < model.numRows; row++) {
    for (let at = model.starts[row] ?? 0; at < (model.starts[row + 1] ?? 0); at++)
      entries[model.indices[at] ?? 0]?.push([row, model.values[at] ?? 0]);
  }
  return entries;
}

function number(value: number): string {
  return Object.is(value, -0) ? '0' : String(value);
}
