import { compute, type Figure } from '../plan/figure';
import { formulaKeys } from './figures';
import type { VarietyInRoom } from './types';
import { transpirationCoefficient } from './weight-loss';

/**
 * Water that the fruit of a room gives off, nanograms for each kilogram, second and pascal: the planner's own value of
 * each variety by its mass, the tables' average of apples for a variety that has none.
 */
export function transpirationOf(varieties: readonly VarietyInRoom[]): Figure<'1'> {
  const own = varieties.filter(({ variety }) => variety.transpiration);
  if (own.length === 0) return transpirationCoefficient;
  const [only] = varieties;
  if (varieties.length === 1 && only?.variety.transpiration) return only.variety.transpiration;
  const names = varieties.map(({ variety }) => variety.name);
  const masses = formulaKeys('fruit', names);
  const coefficients = formulaKeys('transpiration', names);
  const inputs: Record<string, Figure> = {};
  varieties.forEach(({ variety, fruit }, index) => {
    inputs[masses[index] ?? ''] = fruit;
    inputs[coefficients[index] ?? ''] = variety.transpiration ?? transpirationCoefficient;
  });
  const weighted = masses.map((mass, index) => `${mass} * ${coefficients[index]}`).join(' + ');
  return compute(
    'transpiration coefficient, mean of the varieties, ng/(kg s Pa)',
    '1',
    `(${weighted}) / (${masses.join(' + ')})`,
    inputs,
    (values) => {
      const of = (key: string | undefined) => values[key ?? ''] ?? 0;
      const total = masses.reduce((sum, mass) => sum + of(mass), 0);
      return masses.reduce((sum, mass, index) => sum + of(mass) * of(coefficients[index]), 0) / total;
    },
  );
}
