/**
 * Storage life in air and in controlled atmosphere (months), atmosphere (per cent) and temperature (°C), lowest and
 * highest of the handbook's range. From memory of Watkins, Kupferman and Rosenberger, Apple, in USDA Agriculture
 * Handbook 66, 2016: the months can be relied on for planning, the gas values less.
 */
export interface HandbookRow {
  readonly air: Range;
  readonly store: Range;
  readonly carbonDioxide: Range;
  readonly oxygen: Range;
  readonly temperature: Range;
}

type Range = readonly [low: number, high: number];

export const handbook66: Readonly<Record<string, HandbookRow>> = {
  Braeburn: row([3, 4], [8, 10], [0.5, 0.5], [1.5, 2], [1, 1]),
  Cortland: row([2, 3], [4, 6], [2, 3], [2, 3], [0, 3]),
  Delicious: row([3, 3], [12, 12], [2, 2], [0.7, 2], [0, 0]),
  Empire: row([2, 3], [5, 10], [1.5, 2.5], [1.5, 2.5], [1, 2]),
  Fuji: row([4, 4], [12, 12], [0.5, 0.5], [1.5, 2], [0, 1]),
  Gala: row([2, 3], [5, 6], [2, 3], [1, 2], [0, 1]),
  'Golden Delicious': row([3, 4], [8, 10], [2, 3], [1, 2], [0, 1]),
  'Granny Smith': row([3, 4], [10, 11], [0.5, 1], [1.5, 2], [0, 1]),
  Idared: row([3, 4], [7, 9], [2, 3], [2, 3], [0, 1]),
  Jonagold: row([2, 2], [5, 7], [2, 3], [2, 3], [0, 0]),
  // Carbon dioxide after the first month; 2.5 % until then.
  McIntosh: row([2, 3], [5, 7], [4.5, 5], [2.5, 3], [2, 3]),
  Mutsu: row([3, 4], [6, 8], [2, 3], [2, 3], [0, 0]),
  Rome: row([3, 4], [7, 9], [2, 3], [2, 3], [0, 0]),
  Spartan: row([3, 4], [6, 8], [2, 3], [2, 3], [0, 0]),
  Stayman: row([2, 3], [5, 7], [2, 3], [2, 3], [0, 0]),
};

function row(air: Range, store: Range, carbonDioxide: Range, oxygen: Range, temperature: Range): HandbookRow {
  return { air, store, carbonDioxide, oxygen, temperature };
}
