import type { LinearModel } from './linear-model';
import type { ReleaseModel } from './model';
import type { Choice } from './proof-tree';

/** Each room's opening columns, by week, as a choice; `place` gives a column's place in the model, -1 for none. */
export function choicesOf(
  model: ReleaseModel,
  linear: LinearModel,
  place: Int32Array,
): { readonly choices: readonly Choice[]; readonly rooms: readonly number[] } {
  const byRoom = new Map<number, number[]>();
  for (const { room, column } of model.openings) {
    const at = place[column] ?? -1;
    if (at >= 0) byRoom.set(room, [...(byRoom.get(room) ?? []), at]);
  }
  const rowOf = sumRows(linear);
  const rooms = [...byRoom.keys()];
  const choices = [...byRoom.values()].map((columns) => ({
    columns,
    row: columns.length === 1 ? null : (rowOf.get(columns.join()) ?? null),
  }));
  return { choices, rooms };
}

/** Rows that are the plain sum of some whole columns and at most 1, by their columns. */
function sumRows(linear: LinearModel): Map<string, number> {
  const rows = new Map<string, number>();
  for (let row = 0; row < linear.numRows; row++) {
    if (linear.rowUpper[row] !== 1) continue;
    const [from, to] = [linear.starts[row] ?? 0, linear.starts[row + 1] ?? 0];
    const columns = linear.indices.subarray(from, to);
    if (columns.every((column, at) => linear.whole[column] === 1 && linear.values[from + at] === 1))
      rows.set(columns.join(), row);
  }
  return rows;
}
