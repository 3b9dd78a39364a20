/**
 * How many standard errors either side of an estimate hold the truth with a chance (a share), by Student's t with so
 * many degrees of freedom; without any, no number does. By bisection of the chance.
 */
export function studentT(chance: number, degrees: number): number {
  const whole = Math.floor(degrees);
  if (whole < 1) return Number.POSITIVE_INFINITY;
  let [low, high] = [0, 1000];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (chanceWithin(middle, whole) < chance) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Chance of lying within `t` either side: Abramowitz and Stegun (1964), 26.7.3 and 26.7.4, for whole degrees. */
function chanceWithin(t: number, degrees: number): number {
  const angle = Math.atan(t / Math.sqrt(degrees));
  const [sine, cosine] = [Math.sin(angle), Math.cos(angle)];
  const isOdd = degrees % 2 === 1;
  let [term, sum] = isOdd ? [cosine, degrees > 1 ? cosine : 0] : [1, 1];
  for (let power = isOdd ? 3 : 2; power <= degrees - 2; power += 2) {
    term *= ((power - 1) / power) * cosine * cosine;
    sum += term;
  }
  return isOdd ? (2 / Math.PI) * (angle + sine * sum) : sine * sum;
}
