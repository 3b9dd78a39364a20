import { compute, type Figure, type Unit } from '../plan/figure';
import { formulaKeys } from './figures';
import type { VarietyInRoom } from './types';

/**
 * Mean of a value of a room's varieties, each by its mass. Undefined of none; where all have the same value it is that
 * very figure, so that a value stated as it would be taken anyway changes no digit.
 */
export function meanOfVarieties<U extends Unit>(
  name: string,
  unit: U,
  kind: string,
  varieties: readonly VarietyInRoom[],
  figureOf: (one: VarietyInRoom['variety']) => Figure<U>,
): Figure<U> | undefined {
  const [first] = varieties;
  if (!first) return undefined;
  const own = figureOf(first.variety);
  if (varieties.every(({ variety }) => figureOf(variety).value === own.value)) return own;
  const names = varieties.map(({ variety }) => variety.name);
  const masses = formulaKeys('fruit', names);
  const values = formulaKeys(kind, names);
  const inputs: Record<string, Figure> = {};
  varieties.forEach(({ variety, fruit }, index) => {
    inputs[masses[index] ?? ''] = fruit;
    inputs[values[index] ?? ''] = figureOf(variety);
  });
  const weighted = masses.map((mass, index) => `${mass} * ${values[index]}`).join(' + ');
  return compute(name, unit, `(${weighted}) / (${masses.join(' + ')})`, inputs, (given) => {
    const of = (key: string | undefined) => given[key ?? ''] ?? 0;
    const total = masses.reduce((sum, mass) => sum + of(mass), 0);
    return masses.reduce((sum, mass, index) => sum + of(mass) * of(values[index]), 0) / total;
  });
}
