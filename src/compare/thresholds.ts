import type { Policy } from '../plan/model';
import type { Thresholds } from './types';

/**
 * What holds where the plan sets nothing: a week is the least by which a room can move; fewer than 25 cartons are half
 * a pallet; five bins a forkload or two; a point of load and a tenth of a per cent of value are less than any of them
 * is known to. All are common practice for telling a difference, not facts of the trade.
 */
export const usualThresholds: Thresholds = { weeks: 1, cartons: 25, bins: 5, load: 1, value: 0.1 };

/** The lower of what the two plans ask, so that it does not matter which is the old one. */
export function thresholdsOf(old: Policy, now: Policy): Thresholds {
  const [a, b] = [thresholdsIn(old), thresholdsIn(now)];
  const least = (key: keyof Thresholds) => Math.min(a[key], b[key]);
  return {
    weeks: least('weeks'),
    cartons: least('cartons'),
    bins: least('bins'),
    load: least('load'),
    value: least('value'),
  };
}

function thresholdsIn({ compare }: Policy): Thresholds {
  const usual = usualThresholds;
  return {
    weeks: compare?.weeks?.value ?? usual.weeks,
    cartons: compare?.cartons?.value ?? usual.cartons,
    bins: compare?.bins?.value ?? usual.bins,
    load: compare?.load?.value ?? usual.load,
    value: compare?.value?.value ?? usual.value,
  };
}
