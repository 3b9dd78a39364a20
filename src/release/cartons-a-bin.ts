import { firstDayOfWeek, type Week } from '../plan/dates';
import type { Lot, Packing } from '../plan/model';
import type { ReleaseProblem } from './types';

/** A twelfth of the mean Gregorian year, as wherever the plan speaks of months. */
const DAYS_A_MONTH = 365.2425 / 12;

/** A lot, and the kilograms of its fruit. */
export interface FruitToPack {
  readonly lot: Lot;
  readonly fruit: { readonly value: number };
}

/**
 * Cartons of each product from one bin of the room, by week of packing: `[week][product]`. A room is packed in the mix
 * it was filled with, so a bin stands for all its lots in proportion:
 * sum over lots of fruit / bins x share x (1 - loss a month x months since picking) / carton. `productOf` tells which
 * product a lot packs into in a class.
 */
export function cartonsABin(
  lots: readonly FruitToPack[],
  bins: number,
  packing: Packing,
  products: ReleaseProblem['products'],
  productOf: (lot: string, packClass: string) => number | undefined,
  cartonMass: number,
  season: { readonly firstWeek: Week; readonly weeks: number },
): number[][] {
  const given = lots.flatMap((lot) =>
    [...(packing.packout.get(lot.lot.variety?.value ?? '')?.shares.keys() ?? [])].flatMap((packClass) => {
      const product = productOf(lot.lot.id, packClass);
      return product === undefined ? [] : [{ lot, packClass, product }];
    }),
  );
  return Array.from({ length: season.weeks }, (_, week) => {
    const monday = firstDayOfWeek(season.firstWeek + week);
    const kilograms = products.map(() => 0);
    for (const { lot, packClass, product } of given)
      kilograms[product] =
        (kilograms[product] ?? 0) + lot.fruit.value * packedShare(lot, packing, packClass, monday);
    return kilograms.map((one) => Math.max(0, one / bins / cartonMass));
  });
}

/** Share of a lot's fruit that packs into the class on a day; what is lost grows with each month since picking. */
export function packedShare(
  lot: Pick<FruitToPack, 'lot'>,
  packing: Packing,
  packClass: string,
  day: number,
): number {
  const packout = packing.packout.get(lot.lot.variety?.value ?? '');
  const share = (lot.lot.ownPackout?.get(packClass) ?? packout?.shares.get(packClass))?.value ?? 0;
  const picked = lot.lot.picked?.value.last ?? day;
  const months = Math.max(0, (day - picked) / DAYS_A_MONTH);
  const kept = Math.max(0, 1 - ((packout?.lossAMonth.value ?? 0) / 100) * months);
  return (share / 100) * kept;
}
