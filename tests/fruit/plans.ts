import { type Figure, planFigure, type Unit } from '../../src/plan/figure';
import type { RegimeOverride, VarietyOverride } from '../../src/plan/model';
import type { Given, Span } from '../../src/plan/span';

export const somewhere: Span = { file: 'plan.lotplan.yaml', start: 0, end: 1 };
const entry = (id: string) => ({ id, at: somewhere, places: { span: somewhere } });

export function given<T>(value: T): Given<T> {
  return { value, at: somewhere };
}

/** A value as if the planner had written it. */
export function written<U extends Unit>(value: number, unit: U, name = 'value'): Figure<U> {
  return planFigure(name, unit, value, somewhere, `${value} ${unit}`);
}

export function ownVariety(id: string, values: Partial<VarietyOverride>): VarietyOverride {
  return {
    ...entry(id),
    like: undefined,
    respiration: undefined,
    respirationInStore: undefined,
    storageLifeInAir: undefined,
    storageLife: undefined,
    leastTemperature: undefined,
    leastOxygen: undefined,
    mostCarbonDioxide: undefined,
    leastExitFirmness: undefined,
    softening: undefined,
    source: undefined,
    ...values,
  };
}

export function ownRegime(id: string, values: Partial<RegimeOverride>): RegimeOverride {
  return {
    ...entry(id),
    like: undefined,
    varieties: undefined,
    temperature: undefined,
    oxygen: undefined,
    carbonDioxide: undefined,
    humidity: undefined,
    storageLife: undefined,
    conditioning: undefined,
    source: undefined,
    ...values,
  };
}

/** The part of a plan that reference data depends on. */
export function planWith(
  varieties: readonly VarietyOverride[] = [],
  regimes: readonly RegimeOverride[] = [],
) {
  return {
    varieties: new Map(varieties.map((each) => [each.id, each])),
    regimes: new Map(regimes.map((each) => [each.id, each])),
  };
}

/** The value, or a failure that says what was missing: for tests that rely on it. */
export function present<T>(value: T | undefined, what = 'value'): T {
  if (value === undefined) throw new Error(`${what} is missing`);
  return value;
}
