import type { Side } from './side';
import type { MeasureKind, SeasonTotals } from './types';

/** A side in a few figures. */
export function totalsOf({ season, measures, findings }: Side): SeasonTotals {
  const all = [...measures.values()];
  const sum = (kind: MeasureKind) =>
    all.reduce((total, one) => total + (one.kind === kind ? (one.value ?? 0) : 0), 0);
  const count = (severity: string) =>
    [...findings.values()].filter(({ finding }) => finding.severity === severity).length;
  return {
    errors: count('error'),
    warnings: count('warning'),
    fills: season.filled.size,
    binsStored: sum('bins-stored'),
    ...(season.release && {
      schedule: {
        cartonsSold: sum('cartons-sold'),
        cartonsShort: sum('cartons-short'),
        cartonsSurplus: sum('cartons-surplus'),
        value: sum('value'),
      },
    }),
  };
}
