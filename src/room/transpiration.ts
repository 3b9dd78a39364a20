import type { Figure } from '../plan/figure';
import { meanOfVarieties } from './mean-of-varieties';
import type { VarietyInRoom } from './types';
import { transpirationCoefficient } from './weight-loss';

/**
 * Water that the fruit of a room gives off, nanograms for each kilogram, second and pascal: the planner's own value of
 * each variety by its mass, the tables' average of apples for a variety that has none.
 */
export function transpirationOf(varieties: readonly VarietyInRoom[]): Figure<'1'> {
  const mean = meanOfVarieties(
    'transpiration coefficient, mean of the varieties, ng/(kg s Pa)',
    '1',
    'transpiration',
    varieties,
    ({ transpiration }) => transpiration ?? transpirationCoefficient,
  );
  return mean ?? transpirationCoefficient;
}
