import fc from 'fast-check';
import { expect } from 'vitest';
import { WrittenFigure } from '../../src/plan/build/written-figure';
import { MovingSpan } from '../../src/plan/text/moving-span';

// The same examples on every run and machine, so that a red build says something of the change it is red on.
// PROPERTY_SEED=<number> tries others.
fc.configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 2026) });

/**
 * A span that moves with its chunk is compared by where it stands, as a plain one is, and a figure that the planner wrote
 * by all it says.
 */
expect.addEqualityTesters([
  (a: unknown, b: unknown) =>
    a instanceof MovingSpan || b instanceof MovingSpan
      ? samePlace(a as MovingSpan, b as MovingSpan)
      : undefined,
  function (a: unknown, b: unknown, testers) {
    if (!(a instanceof WrittenFigure) && !(b instanceof WrittenFigure)) return undefined;
    return this.equals(plainly(a), plainly(b), testers);
  },
]);

function plainly(figure: unknown): unknown {
  return figure instanceof WrittenFigure ? figure.toJSON() : figure;
}

function samePlace(a: MovingSpan | undefined, b: MovingSpan | undefined): boolean {
  return a?.file === b?.file && a?.start === b?.start && a?.end === b?.end;
}
