import type { FruitData, Variety } from '../fruit/types';
import { compute, type Figure } from '../plan/figure';
import type { BinType, Fill, Lot, Plan } from '../plan/model';
import { figureLater, formulaKeys, sumById } from './figures';
import type { LotInRoom, VarietyInRoom } from './types';

/** What stands in a filled room, counted from its fill. */

/** All bins of the fill, of lots that are not defined too: they take up places all the same. */
export function binsOf(fill: Fill): Figure<'bins'> {
  return sumById(
    'bins in the room',
    'bins',
    'lot',
    fill.lots.map(({ lot, bins }) => [lot.value, bins] as const),
  );
}

export function fruitOf(bins: Figure<'bins'>, netFruit: Figure<'kg'>): Figure<'t'> {
  return compute(
    'fruit in the room',
    't',
    'bins * fruitInBin / 1000',
    { bins, fruitInBin: netFruit },
    (v) => (v.bins * v.fruitInBin) / 1000,
  );
}

/** The lots of a fill whose variety is known. Lots and varieties that are not defined are left out. */
export function lotsInRoom(
  plan: Plan,
  fruit: FruitData,
  fill: Fill,
  binType: BinType | undefined,
): LotInRoom[] {
  const netFruit = binType?.netFruit;
  if (!netFruit) return [];
  return fill.lots.flatMap(({ lot: named, bins }) => {
    const lot = plan.lots.get(named.value);
    const variety = lot?.variety && fruit.variety(lot.variety.value);
    if (!lot || !variety || variety.respiration.length === 0) return [];
    const own = fill.respiration ? breathing(variety, fill.respiration) : variety;
    return [{ lot, variety: own, bins, fruit: fruitOfLot(lot, bins, netFruit) }];
  });
}

/** The variety as this filling's fruit breathes in its gas: the share that stays in store, times what was fitted. */
function breathing(variety: Variety, fitted: Figure<'1'>): Variety {
  const { low, expected, high } = variety.respirationInStore;
  const times = (share: Figure<'1'>) =>
    compute(share.name, '1', 'share * fitted', { share, fitted }, (v) => v.share * v.fitted);
  return {
    ...variety,
    respirationInStore: { low: times(low), expected: times(expected), high: times(high) },
  };
}

function fruitOfLot(lot: Lot, bins: Figure<'bins'>, netFruit: Figure<'kg'>): Figure<'kg'> {
  return compute(
    `fruit of ${lot.id}`,
    'kg',
    'bins * fruitInBin',
    { bins, fruitInBin: netFruit },
    (v) => v.bins * v.fruitInBin,
  );
}

/** The lots added up by variety, in the order in which the varieties first appear. */
export function varietiesInRoom(lots: readonly LotInRoom[]): VarietyInRoom[] {
  const byName = new Map<string, LotInRoom[]>();
  for (const lot of lots) {
    const same = byName.get(lot.variety.name);
    if (same) same.push(lot);
    else byName.set(lot.variety.name, [lot]);
  }
  return [...byName.values()].flatMap((same) => {
    const [first] = same;
    if (!first) return [];
    const parts = same.map(({ lot, fruit }) => [lot.id, fruit] as const);
    return [
      { variety: first.variety, fruit: sumById(`${first.variety.name} in the room`, 'kg', 'lot', parts) },
    ];
  });
}

/** Temperature on arrival, each lot by its mass. */
export function meanFieldTemperature(lots: readonly LotInRoom[]): Figure<'degC'> | undefined {
  if (lots.length === 0) return undefined;
  let [total, weighted] = [0, 0];
  for (const { lot, fruit } of lots) {
    total += fruit.value;
    weighted += fruit.value * lot.fieldTemperature.value;
  }
  const value = weighted / total;
  return figureLater('mean field temperature', 'degC', value, () => meanByMass(lots, value));
}

function meanByMass(lots: readonly LotInRoom[], value: number): Figure<'degC'> {
  const ids = lots.map(({ lot }) => lot.id);
  const masses = formulaKeys('fruit', ids);
  const temperatures = formulaKeys('temperature', ids);
  const inputs: Record<string, Figure> = {};
  lots.forEach(({ lot, fruit }, index) => {
    inputs[masses[index] ?? ''] = fruit;
    inputs[temperatures[index] ?? ''] = lot.fieldTemperature;
  });
  const weighted = masses.map((mass, index) => `${mass} * ${temperatures[index]}`).join(' + ');
  const formula = `(${weighted}) / (${masses.join(' + ')})`;
  return compute('mean field temperature', 'degC', formula, inputs, () => value);
}
