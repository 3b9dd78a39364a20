import { evaluate } from 'mathjs';
import { expect } from 'vitest';
import type { Figure } from '../../src/plan/figure';

/** Every figure a figure was computed from, itself first. */
export function wholeChain(figure: Figure): Figure[] {
  if (figure.origin.kind !== 'computed') return [figure];
  return [figure, ...Object.values(figure.origin.inputs).flatMap(wholeChain)];
}

/** Holds the text of every formula in a figure's derivation against its value. */
export function expectFormulasHold(figure: Figure): void {
  for (const step of wholeChain(figure)) {
    expect(step.value, step.name).not.toBeNaN();
    if (step.origin.kind !== 'computed') continue;
    const values = Object.entries(step.origin.inputs).map(([key, input]) => [key, input.value]);
    const again = evaluate(step.origin.formula, Object.fromEntries(values)) as number;
    expect(again, `${step.name} = ${step.origin.formula}`).toBeCloseTo(step.value, 9);
  }
}
