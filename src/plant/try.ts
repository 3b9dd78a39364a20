import { finish, type Steps } from '../plan/steps';

/**
 * The least whole number above `fails`, at most `most`, that does, found by halving: what does must do all the more when
 * it is larger. Undefined where even `most` does not, or where it is not `below` what is had already.
 */
export function leastWhole(
  fails: number,
  most: number,
  does: (value: number) => boolean,
  below = Number.POSITIVE_INFINITY,
): number | undefined {
  // biome-ignore lint/correctness/useYield: each trial is one step
  const inOneStep = function* (value: number): Steps<boolean> {
    return does(value);
  };
  return finish(leastWholeSteps(fails, most, inOneStep, below));
}

/** The same where a trial is made in steps. */
export function* leastWholeSteps(
  fails: number,
  most: number,
  does: (value: number) => Steps<boolean>,
  below = Number.POSITIVE_INFINITY,
): Steps<number | undefined> {
  if (fails + 1 >= below || !(yield* does(most))) return undefined;
  let [low, high] = [fails, most];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (yield* does(middle)) high = middle;
    else low = middle;
    if (low + 1 >= below) return undefined;
  }
  return high < below ? high : undefined;
}
