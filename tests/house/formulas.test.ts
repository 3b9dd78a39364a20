import { all, create } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import type { Figure } from '../../src/plan/figure';
import { readPlan } from '../../src/plan/read';
import { thingsOf } from '../../src/report/things';
import { sampleFiles } from '../samples/sample';

/**
 * A figure's formula is text for the planner; its value comes from code. Here a general mathematics library evaluates
 * the text of every figure of the sample plans and must come to the same value, so the two cannot drift apart.
 */
const math = create(all ?? {});

function isFigure(value: object): value is Figure {
  return 'origin' in value && 'unit' in value && 'value' in value;
}

/** Every figure that can be reached from a value, inputs of inputs included, each once. */
function figuresIn(root: unknown): Set<Figure> {
  const found = new Set<Figure>();
  const seen = new Set<object>();
  const queue: unknown[] = [root];
  while (queue.length > 0) {
    const value = queue.pop();
    if (typeof value !== 'object' || value === null || seen.has(value)) continue;
    seen.add(value);
    if (isFigure(value)) {
      found.add(value);
      // Some are made only when they are asked for.
      if (value.origin.kind === 'computed') queue.push(value.origin.inputs);
    }
    queue.push(...(value instanceof Map ? value.values() : Object.values(value)));
  }
  return found;
}

function evaluate(formula: string, inputs: Readonly<Record<string, Figure>>): number {
  const scope = Object.fromEntries(Object.entries(inputs).map(([key, { value }]) => [key, value]));
  return Number(math.evaluate(formula, scope));
}

describe('the formulas shown to the planner', () => {
  for (const sample of ['first-season', 'full-season', 'us-units']) {
    it(`give the values computed for ${sample}`, () => {
      const whole = computeSeason(readPlan(sampleFiles(sample)), { release: 'none', courses: true });
      const { plan: _, fruit: __, ...season } = whole;
      const explained = thingsOf(whole).map(({ figures }) => figures);
      const computed = [...figuresIn([season, explained])].filter(({ origin }) => origin.kind === 'computed');
      expect(computed.length).toBeGreaterThan(50);
      const compiled = new Map<string, string>();
      for (const figure of computed) {
        if (figure.origin.kind !== 'computed') continue;
        const { formula, inputs } = figure.origin;
        compiled.set(formula, figure.name);
        const again = evaluate(formula, inputs);
        const allowed = 1e-9 * Math.max(1, Math.abs(figure.value));
        expect(
          Math.abs(again - figure.value),
          `${figure.name}: ${formula} gives ${again}, not ${figure.value}`,
        ).toBeLessThanOrEqual(allowed);
      }
      expect(compiled.size).toBeGreaterThan(10);
    });
  }
});
