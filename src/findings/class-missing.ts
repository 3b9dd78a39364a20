import type { Demand } from '../plan/model';
import type { ComputedSeason } from './types';

/** The packout of an order's variety where it has no share of the class, `none` where the variety has none at all. */
export function classMissing({ plan, fruit }: ComputedSeason, { variety, packClass }: Demand) {
  if (!variety || !packClass || !plan.packing) return undefined;
  const name = fruit.variety(variety.value)?.name;
  const packout = [...plan.packing.packout.values()].find(
    ({ id }) => id === variety.value || (name !== undefined && fruit.variety(id)?.name === name),
  );
  if (packout?.shares.has(packClass.value)) return undefined;
  return packout ?? 'none';
}
