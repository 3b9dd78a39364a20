import type { LinearModel } from './linear-model';
import type { ReleaseModel } from './model';
import type { Choice } from './proof-tree';
import type { ReleaseProblem } from './types';

/** A variety's own share of the season: the rooms that give it, their weeks, and its sales. */
export interface Part {
  readonly linear: LinearModel;
  /** Each column's and row's place in the whole model. */
  readonly columns: readonly number[];
  readonly rows: readonly number[];
  readonly choices: readonly Choice[];
  /** The room of each choice. */
  readonly rooms: readonly number[];
}

/** The season taken apart. No schedule brings more than `constant` and the most that each part can bring by itself. */
export interface Parts {
  readonly constant: number;
  readonly parts: readonly Part[];
}

/**
 * Takes the season apart by variety. What varieties share is left out at a price, the multiplier of its row: the
 * packhouse, the open limit. A room of two varieties has its columns in both parts, as if it could open twice, and what
 * a column brings is shared between them so that the whole is what it was. A schedule of the season is one of each
 * part, and brings no more than the parts do; so their bounds bound the season, whatever the multipliers. With those of
 * the relaxation, the parts' relaxations together prove as much as it does, and whole weeks in each part prove more.
 */
export function takeApart(problem: ReleaseProblem, model: ReleaseModel, multipliers: Float64Array): Parts {
  const { linear } = model;
  const partsOf = partsOfColumns(problem, model);
  const inParts = rowsInParts(linear, partsOf);
  const cost = linear.cost.slice();
  let constant = linear.offset;
  inParts.forEach((parts, row) => {
    const multiplier = multipliers[row] ?? 0;
    if (parts.length > 0 || multiplier === 0) return;
    constant += multiplier * ((multiplier > 0 ? linear.rowUpper[row] : linear.rowLower[row]) ?? 0);
    addRow(linear, row, -multiplier, cost);
  });
  partsOf.forEach((parts, column) => {
    const gain = cost[column] ?? 0;
    if (parts.length === 0)
      constant += gain * ((gain > 0 ? linear.colUpper[column] : linear.colLower[column]) ?? 0);
  });
  const count = partsOf.reduce((most, parts) => Math.max(most, ...parts.map((part) => part + 1)), 0);
  const shares = Array.from({ length: count }, (_, part) =>
    shareOf(linear, partsOf, inParts, multipliers, part),
  );
  const parts = shares.map((share, part) => {
    const costs = Float64Array.from(cost, (whole, column) => {
      const [first, ...others] = partsOf[column] ?? [];
      if (first !== part) return share[column] ?? 0;
      return others.reduce((left, other) => left - (shares[other]?.[column] ?? 0), whole);
    });
    return partOf(model, partsOf, inParts, costs, part);
  });
  return { constant, parts };
}

/** The parts that each column belongs to, that of a room's larger variety first. */
function partsOfColumns(problem: ReleaseProblem, model: ReleaseModel): readonly (readonly number[])[] {
  const { linear } = model;
  const isOfRoom = new Uint8Array(linear.numCols);
  for (const { column, shares } of model.openings) for (const one of [column, ...shares]) isOfRoom[one] = 1;
  const find = joinByRows(linear, isOfRoom);
  // What is sold stands in a row with what is processed, so the columns of processing lead to all of a product.
  const leads = model.processed.map((row) => row.findLast((column) => column >= 0));
  const partOfProduct = groupProducts(
    problem,
    leads.map((column) => (column === undefined ? undefined : find(column))),
  );
  const partOfLead = new Map<number, number>();
  leads.forEach((column, product) => {
    if (column !== undefined) partOfLead.set(find(column), partOfProduct[product] ?? 0);
  });
  const parts: (readonly number[])[] = Array.from({ length: linear.numCols }, (_, column) => {
    const part = isOfRoom[column] === 1 ? undefined : partOfLead.get(find(column));
    return part === undefined ? [] : [part];
  });
  const ofRooms = problem.rooms.map((_, room) => partsOfRoom(problem, room, partOfProduct));
  for (const { room, column, shares } of model.openings)
    for (const one of [column, ...shares]) parts[one] = ofRooms[room] ?? [];
  return parts;
}

/** The part of each product: those of a variety are together, and those that `joined` gives the same number. */
function groupProducts(problem: ReleaseProblem, joined: readonly (number | undefined)[]): number[] {
  const groups: Set<string>[] = [];
  const keys = problem.products.map(({ variety }, product) => {
    const lead = joined[product];
    return [`variety ${variety}`, ...(lead === undefined ? [] : [`joined ${lead}`])];
  });
  for (const names of keys) {
    const apart = groups.filter((group) => !names.some((name) => group.has(name)));
    const together = groups.filter((group) => names.some((name) => group.has(name)));
    const merged = new Set([...together.flatMap((group) => [...group]), ...names]);
    groups.splice(0, groups.length, ...apart, merged);
  }
  return keys.map(([name = '']) => groups.findIndex((group) => group.has(name)));
}

function partsOfRoom(problem: ReleaseProblem, room: number, partOfProduct: readonly number[]): number[] {
  const given = new Map<number, number>();
  for (const week of problem.rooms[room]?.cartonsABin ?? []) {
    week.forEach((cartons, product) => {
      const part = partOfProduct[product] ?? 0;
      if (cartons > 0) given.set(part, (given.get(part) ?? 0) + cartons);
    });
  }
  return [...given].sort((a, b) => b[1] - a[1] || a[0] - b[0]).map(([part]) => part);
}

/** Columns that stand in a row together, rooms' columns aside: finds one that stands for all of them. */
function joinByRows(linear: LinearModel, isOfRoom: Uint8Array): (column: number) => number {
  const parent = Int32Array.from({ length: linear.numCols }, (_, column) => column);
  const find = (column: number): number => {
    let at = column;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at] as number] as number;
      at = parent[at] as number;
    }
    return at;
  };
  for (let row = 0; row < linear.numRows; row++) {
    let first = -1;
    for (let at = linear.starts[row] ?? 0; at < (linear.starts[row + 1] ?? 0); at++) {
      const column = linear.indices[at] as number;
      if (isOfRoom[column] === 1) continue;
      if (first < 0) first = find(column);
      else parent[find(column)] = first;
    }
  }
  return find;
}

/** The parts that have all columns of a row; none for a row that joins parts, which is left out at its price. */
function rowsInParts(linear: LinearModel, partsOf: readonly (readonly number[])[]): (readonly number[])[] {
  return Array.from({ length: linear.numRows }, (_, row) => {
    let common: readonly number[] | undefined;
    for (let at = linear.starts[row] ?? 0; at < (linear.starts[row + 1] ?? 0); at++) {
      const its = partsOf[linear.indices[at] ?? 0] ?? [];
      common = common ? common.filter((part) => its.includes(part)) : its;
    }
    return common ?? [];
  });
}

/** What a part's rows ask for the columns that it shares with a part that comes first: their costs in it. */
function shareOf(
  linear: LinearModel,
  partsOf: readonly (readonly number[])[],
  inParts: readonly (readonly number[])[],
  multipliers: Float64Array,
  part: number,
): Float64Array {
  const share = new Float64Array(linear.numCols);
  inParts.forEach((parts, row) => {
    if (parts.length === 1 && parts[0] === part) addRow(linear, row, multipliers[row] ?? 0, share);
  });
  return share.map((cost, column) => ((partsOf[column]?.indexOf(part) ?? -1) > 0 ? cost : 0));
}

function addRow(linear: LinearModel, row: number, times: number, into: Float64Array): void {
  for (let at = linear.starts[row] ?? 0; at < (linear.starts[row + 1] ?? 0); at++) {
    const column = linear.indices[at] as number;
    into[column] = (into[column] as number) + times * (linear.values[at] as number);
  }
}

function partOf(
  model: ReleaseModel,
  partsOf: readonly (readonly number[])[],
  inParts: readonly (readonly number[])[],
  costs: Float64Array,
  part: number,
): Part {
  const { linear } = model;
  const columns = partsOf.flatMap((parts, column) => (parts.includes(part) ? [column] : []));
  const rows = inParts.flatMap((parts, row) => (parts.includes(part) ? [row] : []));
  const place = new Int32Array(linear.numCols).fill(-1);
  columns.forEach((column, at) => {
    place[column] = at;
  });
  const entries = rows.map((row) => [linear.starts[row] ?? 0, linear.starts[row + 1] ?? 0] as const);
  const ends = new Int32Array(rows.length + 1);
  entries.forEach(([from, to], row) => {
    ends[row + 1] = (ends[row] ?? 0) + to - from;
  });
  const small: LinearModel = {
    numCols: columns.length,
    numRows: rows.length,
    offset: 0,
    cost: Float64Array.from(columns, (column) => costs[column] ?? 0),
    colLower: Float64Array.from(columns, (column) => linear.colLower[column] ?? 0),
    colUpper: Float64Array.from(columns, (column) => linear.colUpper[column] ?? 0),
    rowLower: Float64Array.from(rows, (row) => linear.rowLower[row] ?? 0),
    rowUpper: Float64Array.from(rows, (row) => linear.rowUpper[row] ?? 0),
    starts: ends,
    indices: Int32Array.from(
      entries.flatMap(([from, to]) =>
        [...linear.indices.subarray(from, to)].map((column) => place[column] ?? 0),
      ),
    ),
    values: Float64Array.from(entries.flatMap(([from, to]) => [...linear.values.subarray(from, to)])),
    whole: Int32Array.from(columns, (column) => linear.whole[column] ?? 0),
  };
  return { linear: small, columns, rows, ...choicesOf(model, small, place) };
}

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
