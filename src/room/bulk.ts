import { specificHeats, usualDensity } from '../fruit/varieties/bulk';
import type { Figure } from '../plan/figure';
import type { BinType } from '../plan/model';
import { specificHeatOfMaterial } from './cooling';
import { meanOfVarieties } from './mean-of-varieties';
import type { VarietyInRoom } from './types';

/** Heat and space of what stands in a room: the planner's own values, else the handbooks'. */

/** Of the room's fruit, each variety by its mass; of apples where no variety is known. */
export function specificHeatOfFruit(varieties: readonly VarietyInRoom[]): Figure<'kJ/kgK'> {
  const mean = meanOfVarieties(
    'specific heat of the fruit, mean of the varieties',
    'kJ/kgK',
    'heat',
    varieties,
    ({ specificHeat }) => specificHeat,
  );
  return mean ?? specificHeats.apple;
}

/** Of the room's fruit itself: what a tonne takes up is the mean of what each variety does. */
export function densityOfFruit(varieties: readonly VarietyInRoom[]): Figure<'kg/m3'> {
  const mean = meanOfVarieties(
    'true density of fruit, mean of the varieties',
    'kg/m3',
    'density',
    varieties,
    ({ density }) => density,
  );
  return mean ?? usualDensity;
}

/** Of the material of a room's bins; undefined where neither it nor a value is known. */
export function specificHeatOfBin(binType: BinType | undefined): Figure<'kJ/kgK'> | undefined {
  const { specificHeat, material } = binType ?? {};
  return specificHeat ?? (material && specificHeatOfMaterial[material]);
}
