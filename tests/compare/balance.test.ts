import fc from 'fast-check';
import { expect, test } from 'vitest';
import { align } from '../../src/compare/align';
import { planChanges } from '../../src/compare/changes';
import type { PlanChange } from '../../src/compare/types';
import type { Plan } from '../../src/plan/model';
import { readPlan } from '../../src/plan/read';
import { sampleFiles } from '../samples/sample';

/** Each bin that is told as moved, put in or taken out is told once: with those of before it makes those of after. */

const files = sampleFiles('first-season');
const LOTS = ['G4', 'G5', 'G6'] as const;
const FILLS = ['R1-gala', 'R2-gala', 'R5-gala'] as const;

/** Bins of each lot in each fill; a fill without any is left out of the plan. */
type Bins = readonly (readonly number[])[];

const placed: fc.Arbitrary<Bins> = fc.array(
  fc.array(fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 60 })), {
    minLength: LOTS.length,
    maxLength: LOTS.length,
  }),
  { minLength: FILLS.length, maxLength: FILLS.length },
);

function planOf(bins: Bins): Plan {
  const fills = FILLS.flatMap((fill, row) => {
    const lots = LOTS.flatMap((lot, column) => {
      const count = bins[row]?.[column] ?? 0;
      return count === 0 ? [] : [`${lot}: ${count}`];
    });
    return lots.length === 0
      ? []
      : [`  ${fill}: { room: ${fill.slice(0, 2)}, lots: { ${lots.join(', ')} } }`];
  });
  return readPlan(
    files.map(({ path, text }) => ({
      path,
      text: text.includes('\nfills:\n')
        ? `${text.slice(0, text.indexOf('\nfills:\n'))}\n${fills.length === 0 ? '' : `fills:\n${fills.join('\n')}\n`}`
        : text,
    })),
  );
}

function binsIn(plan: Plan): Map<string, number> {
  return new Map(
    [...plan.fills.values()].map(({ id, lots }) => [id, lots.reduce((sum, { bins }) => sum + bins.value, 0)]),
  );
}

/** By how many bins a change says that each fill has become more. */
function toldOf({ kind, things, amount, before, after }: PlanChange): [fill: string, more: number][] {
  const size = Number(amount?.value);
  const [first, second, third] = things;
  switch (kind) {
    case 'lot-moved':
      return [
        [second?.id ?? '', -size],
        [third?.id ?? '', size],
      ];
    case 'bins-changed':
      return second
        ? [[second.id, amount ? size : Number(after?.value ?? 0) - Number(before?.value ?? 0)]]
        : [];
    case 'added':
    case 'removed':
      return first.kind === 'fills' ? [[first.id, kind === 'added' ? size : -size]] : [];
    default:
      return [];
  }
}

test('bins told as moved, put in and taken out balance with the fills before and after', () => {
  let moved = 0;
  let beside = 0;
  fc.assert(
    fc.property(placed, placed, (before, after) => {
      const [old, now] = [planOf(before), planOf(after)];
      const aligned = align(old, now);
      fc.pre(aligned.renames.length === 0);
      const changes = planChanges(aligned);
      const told = binsIn(old);
      for (const [fill, more] of changes.flatMap(toldOf)) told.set(fill, (told.get(fill) ?? 0) + more);
      const there = binsIn(now);
      for (const fill of FILLS) expect([fill, told.get(fill) ?? 0]).toEqual([fill, there.get(fill) ?? 0]);
      moved += changes.filter(({ kind }) => kind === 'lot-moved').length;
      beside += changes.filter(({ kind, amount }) => kind === 'bins-changed' && amount).length;
    }),
    { numRuns: 60 },
  );
  expect(moved).toBeGreaterThan(50);
  expect(beside).toBeGreaterThan(10);
});
