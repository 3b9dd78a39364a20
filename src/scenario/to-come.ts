import { type Week, weekOfDay } from '../plan/dates';
import { lastRecordedDay, withRecords } from '../plan/known';
import type { Plan } from '../plan/model';

/** What of a crop has come in and cannot turn out otherwise any more. */
export interface ComeIn {
  /** Bins that each lot has received; infinite for one that has come in whole. Absent: none of it. */
  readonly ofLot: ReadonlyMap<string, number>;
  /** Bins of each lot that have come in and are not recorded as gone into a room: in this or that fill's plan. */
  readonly notPlaced: ReadonlyMap<string, number>;
  /** Fills of which the bins that went in are recorded, or that are full. */
  readonly fills: ReadonlySet<string>;
}

const NOTHING: ComeIn = { ofLot: new Map(), notPlaced: new Map(), fills: new Set() };

/** Of a plan without records nothing: its receipts are estimates like the rest. */
export function comeIn(plan: Plan): ComeIn {
  const { stand, lots } = withRecords(plan);
  if (stand === undefined) return NOTHING;
  const ofLot = new Map<string, number>();
  for (const { id, receivedBins, receivedByDay } of lots.values()) {
    if (receivedBins) ofLot.set(id, Number.POSITIVE_INFINITY);
    else if (receivedByDay)
      ofLot.set(
        id,
        [...receivedByDay.values()].reduce((sum, bins) => sum + bins, 0),
      );
  }
  const notPlaced = new Map(ofLot);
  const fills = new Set<string>();
  for (const { id, lots: wentIn, lastBin, sealed, opened } of plan.progress.values()) {
    if (wentIn.length > 0 || lastBin || sealed || opened) fills.add(id);
    for (const { lot, bins } of wentIn)
      notPlaced.set(lot.value, Math.max(0, (notPlaced.get(lot.value) ?? 0) - bins.value));
  }
  return { ofLot, notPlaced, fills };
}

/**
 * The first week of which not all is past: what was wanted and done before stays as it was. Undefined where neither progress
 * nor packing is recorded, so that all of the season is still to come.
 */
export function weekToCome(plan: Plan): Week | undefined {
  const { asOf, progress, packed } = plan;
  const stand = asOf ?? lastRecordedDay(plan);
  return stand === undefined || (progress.size === 0 && packed.size === 0) ? undefined : weekOfDay(stand + 1);
}
