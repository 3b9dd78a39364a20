/** A source of numbers in [0, 1). */
export type Random = () => number;

/**
 * A small seeded generator, so that a search repeats exactly: the algorithm known as mulberry32 (T. Ettinger, public
 * domain), 32 bits of state, a period of 2^32. Good enough to shuffle moves; not for secrets.
 */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
