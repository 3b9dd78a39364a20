import { binsOfPlan, STATED_DEVIATIONS } from './assumptions';
import type { Interval } from './types';

/** What came of some bins of a lot, by class: shares of their fruit, 0 to 1, with what store had lost added back. */
export interface PackedPart {
  readonly bins: number;
  readonly shares: ReadonlyMap<string, number>;
}

export interface FittedPackout {
  /** Share of the fruit by class, 0 to 1, before what is lost in store. */
  readonly shares: ReadonlyMap<string, Interval>;
  readonly bins: number;
}

/**
 * A lot's packout corrected by what was packed of it. The plan's shares count as much as some bins would (a Dirichlet
 * prior of that weight), each bin packed as one more: fruit of a bin come from a few trees and are alike, so a bin is
 * one witness and not three thousand. Classes of which nothing was packed have their part of none.
 */
export function fitPackout(
  plan: ReadonlyMap<string, number>,
  packed: readonly PackedPart[],
): FittedPackout | undefined {
  const bins = packed.reduce((sum, part) => sum + part.bins, 0);
  if (!(bins > 0)) return undefined;
  const weight = binsOfPlan.value + bins;
  const shares = [...plan].map(([packClass, planned]) => {
    const found = packed.reduce((sum, part) => sum + part.bins * (part.shares.get(packClass) ?? 0), 0);
    const share = Math.min(1, (binsOfPlan.value * planned + found) / weight);
    const deviation = Math.sqrt((share * (1 - share)) / (weight + 1));
    return [
      packClass,
      {
        value: share,
        low: Math.max(0, share - STATED_DEVIATIONS * deviation),
        high: Math.min(1, share + STATED_DEVIATIONS * deviation),
      },
    ] as const;
  });
  return { shares: new Map(shares), bins };
}
