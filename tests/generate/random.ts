/** Random numbers that repeat: the same seed gives the same season on every machine. */
export interface RandomNumbers {
  /** At least 0 and less than 1. */
  next(): number;
  between(low: number, high: number): number;
  /** A whole number, both ends included. */
  whole(low: number, high: number): number;
  pick<T>(list: readonly T[]): T;
  /** Roughly normal: the sum of four uniform numbers, so never more than 3.5 standard deviations out. */
  normal(mean: number, deviation: number): number;
  chance(share: number): boolean;
}

/** The mulberry32 generator, in the public domain: 32 bits of state are plenty for sample data. */
export function randomNumbers(seed: number): RandomNumbers {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  const between = (low: number, high: number) => low + (high - low) * next();
  return {
    next,
    between,
    whole: (low, high) => Math.floor(between(low, high + 1)),
    pick: (list) => list[Math.floor(next() * list.length)] as (typeof list)[number],
    normal: (mean, deviation) => mean + deviation * Math.sqrt(3) * (next() + next() + next() + next() - 2),
    chance: (share) => next() < share,
  };
}
