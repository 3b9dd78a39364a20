/**
 * Work in steps of a millisecond or a few: whoever runs it may do other things between two of them, or let the rest go.
 * Letting go is always safe, for nothing is told before all is done.
 */
export type Steps<T> = Generator<undefined, T, undefined>;

/** All of the work at once. */
export function finish<T>(steps: Steps<T>): T {
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}
