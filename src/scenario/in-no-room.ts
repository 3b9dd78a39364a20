import type { Plan } from '../plan/model';

/** Bins of the plan's lots that are in no fill. */
export interface InNoRoom {
  /** Of lots that the plan has packed at harvest with what no fill takes. */
  readonly packedAtHarvest: number;
  /** Of the others: the plan does not say where they go, so that nothing is reckoned for them. */
  readonly leftOver: number;
}

export function inNoRoom({ lots, fills }: Plan): InNoRoom {
  const placed = new Map<string, number>();
  for (const fill of fills.values())
    for (const { lot, bins } of fill.lots) placed.set(lot.value, (placed.get(lot.value) ?? 0) + bins.value);
  const sum = { packedAtHarvest: 0, leftOver: 0 };
  for (const { id, receivedBins, expectedBins, packedAtHarvest } of lots.values()) {
    const left = Math.max(0, ((receivedBins ?? expectedBins)?.value ?? 0) - (placed.get(id) ?? 0));
    sum[packedAtHarvest ? 'packedAtHarvest' : 'leftOver'] += left;
  }
  return sum;
}
