import fc from 'fast-check';
import { expect } from 'vitest';
import { MovingSpan } from '../../src/plan/text/moving-span';

// The same examples on every run and machine, so that a red build says something of the change it is red on.
// PROPERTY_SEED=<number> tries others.
fc.configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 2026) });

/** A span that moves with its chunk is compared by where it stands, as a plain one is. */
expect.addEqualityTesters([
  (a: unknown, b: unknown) =>
    a instanceof MovingSpan || b instanceof MovingSpan
      ? samePlace(a as MovingSpan, b as MovingSpan)
      : undefined,
]);

function samePlace(a: MovingSpan | undefined, b: MovingSpan | undefined): boolean {
  return a?.file === b?.file && a?.start === b?.start && a?.end === b?.end;
}
