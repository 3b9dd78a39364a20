import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { ofLotAlone, partsOfCrop, STATED_DEVIATIONS } from './assumptions';
import type { Interval } from './types';

/** A lot as far as its estimate goes. */
export interface CropLot {
  readonly lot: string;
  readonly block: string | undefined;
  readonly variety: string | undefined;
  readonly grower: string | undefined;
  readonly estimated: number;
  /** Undefined of a lot to come. */
  readonly received: number | undefined;
}

/** What a lot to come is expected to give, as a share of its estimate. */
export interface FittedCrop {
  readonly lot: string;
  readonly share: Interval;
  /** Lots received that share its block, and its grower or variety. */
  readonly ofBlock: number;
  readonly ofOthers: number;
}

/**
 * Estimates of lots to come, corrected by what was received of others. By how much a lot comes out other than it was
 * estimated (the logarithm of received over estimated) is put together of parts: the season's, its variety's, its
 * grower's, its block's and its own, each normal about nothing. Lots that have parts in common tell of each other; how
 * far apart seasons come out is `cropSpread` (standard deviation of the logarithm), shared evenly between the parts.
 * What is known of the lots received gives what to expect of those to come, with its doubt, all at once.
 */
export function fitCrop(lots: readonly CropLot[], cropSpread: number): FittedCrop[] {
  const known = lots.filter(({ received, estimated }) => (received ?? 0) > 0 && estimated > 0);
  const coming = lots.filter(({ received, estimated }) => received === undefined && estimated > 0);
  if (known.length === 0 || coming.length === 0) return [];
  const partVariance = cropSpread ** 2 / partsOfCrop.value;
  const ownVariance = ofLotAlone.value ** 2;
  const covariance = Matrix.zeros(known.length, known.length);
  known.forEach((one, row) => {
    known.forEach((other, column) => {
      covariance.set(row, column, partVariance * inCommon(one, other) + (row === column ? ownVariance : 0));
    });
  });
  const logs = Matrix.columnVector(
    known.map(({ received = 0, estimated }) => Math.log(received / estimated)),
  );
  const solved = new CholeskyDecomposition(covariance);
  const weights = solved.solve(logs);
  return coming.map((lot) => {
    const shared = Matrix.columnVector(known.map((one) => partVariance * inCommon(lot, one)));
    const mean = shared.transpose().mmul(weights).get(0, 0);
    const explained = shared.transpose().mmul(solved.solve(shared)).get(0, 0);
    const deviation = Math.sqrt(Math.max(0, partVariance * inCommon(lot, lot) + ownVariance - explained));
    return {
      lot: lot.lot,
      share: {
        value: Math.exp(mean),
        low: Math.exp(mean - STATED_DEVIATIONS * deviation),
        high: Math.exp(mean + STATED_DEVIATIONS * deviation),
      },
      ofBlock: known.filter((one) => same(one.block, lot.block)).length,
      ofOthers: known.filter((one) => same(one.variety, lot.variety) || same(one.grower, lot.grower)).length,
    };
  });
}

/** Parts that two lots have in common: the season, and whichever of variety, grower and block are the same. */
function inCommon(one: CropLot, other: CropLot): number {
  if (one === other) return partsOfCrop.value;
  const shared = [
    same(one.variety, other.variety),
    same(one.grower, other.grower),
    same(one.block, other.block),
  ];
  return 1 + shared.filter(Boolean).length;
}

function same(one: string | undefined, other: string | undefined): boolean {
  return one !== undefined && one === other;
}
