/**
 * The normal distribution: chance of a value at or below `z` standard deviations from the mean.
 * Hart 1968, Computer Approximations, algorithm 5666, as set out by West 2005, Better approximations to cumulative
 * normal functions, Wilmott Magazine; good to about 15 digits.
 */
export function normalChance(z: number): number {
  const x = Math.abs(z);
  if (x > 37) return z > 0 ? 1 : 0;
  const beyond = x < 7.07106781186547 ? nearTail(x) : farTail(x);
  return z > 0 ? 1 - beyond : beyond;
}

/**
 * How many standard deviations from the mean a chance lies: the inverse of `normalChance`, at most nine either way. A
 * first guess good to two digits (Abramowitz and Stegun 26.2.22), then Halley's steps, each of which triples the digits.
 */
export function normalQuantile(chance: number): number {
  const tail = Math.min(chance, 1 - chance);
  let z = tail > 0 ? Math.max(-MOST_DEVIATIONS, guessOfTail(tail)) : -MOST_DEVIATIONS;
  for (let step = 0; tail > 0 && step < 4; step++) {
    const off = ((normalChance(z) - tail) * ROOT_OF_TWO_PI) / Math.exp((-z * z) / 2);
    z = Math.max(-MOST_DEVIATIONS, z - off / (1 + (z * off) / 2));
    if (Math.abs(off) < 1e-6) break;
  }
  return chance > 0.5 ? -z : z;
}

const MOST_DEVIATIONS = 9;
export const ROOT_OF_TWO_PI = Math.sqrt(2 * Math.PI);

function guessOfTail(tail: number): number {
  const t = Math.sqrt(-2 * Math.log(tail));
  return (2.30753 + 0.27061 * t) / (1 + t * (0.99229 + 0.04481 * t)) - t;
}

const ABOVE = [
  3.52624965998911e-2, 0.700383064443688, 6.37396220353165, 33.912866078383, 112.079291497871,
  221.213596169931, 220.206867912376,
];
const BELOW = [
  8.83883476483184e-2, 1.75566716318264, 16.064177579207, 86.7807322029461, 296.564248779674,
  637.333633378831, 793.826512519948, 440.413735824752,
];

function nearTail(x: number): number {
  return (Math.exp((-x * x) / 2) * polynomial(x, ABOVE)) / polynomial(x, BELOW);
}

/** A continued fraction, for what lies beyond seven standard deviations. */
function farTail(x: number): number {
  const fraction = [4, 3, 2, 1].reduce((inner, step) => x + step / inner, x + 0.65);
  return Math.exp((-x * x) / 2) / fraction / 2.506628274631;
}

function polynomial(x: number, coefficients: readonly number[]): number {
  let sum = 0;
  for (const coefficient of coefficients) sum = sum * x + coefficient;
  return sum;
}
