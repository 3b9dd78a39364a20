import type { Steps } from '../plan/steps';

/** Milliseconds of work at a time: what is asked or typed meanwhile waits no longer. */
const SLICE = 15;

/** All of the work, with room for other requests between its slices. */
export async function letting<T>(steps: Steps<T>): Promise<T> {
  for (;;) {
    const done = slice(steps);
    if (done) return done.value;
    await pause();
  }
}

/**
 * The same, unless `isUnwanted` said between two slices that nobody wants it any more: then undefined.
 */
export async function inSlices<T>(steps: Steps<T>, isUnwanted: () => boolean): Promise<T | undefined> {
  for (;;) {
    const done = slice(steps);
    if (done) return done.value;
    await pause();
    if (isUnwanted()) return undefined;
  }
}

function slice<T>(steps: Steps<T>): { readonly value: T } | undefined {
  const until = performance.now() + SLICE;
  while (performance.now() < until) {
    const { done, value } = steps.next();
    if (done) return { value };
  }
  return undefined;
}

function pause(): Promise<void> {
  return new Promise((resume) => setTimeout(resume, 0));
}
