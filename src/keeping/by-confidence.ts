import type { Regime } from '../fruit/types';
import type { Week } from '../plan/dates';
import { type Known, leastKnown } from '../plan/how-known';
import type { Plan } from '../plan/model';
import { usualDaysToEmpty } from './assumptions';
import { wantedChance } from './chance';
import { latestEdgeFor, weeksToEmpty } from './latest';
import type { LotTime } from './lot-keeping';
import { confidenceOf, lotTimesOf } from './room-keeping';
import { isSealed, lifeSpreadKnown } from './storage-life';
import type { LotLimit, RoomKeeping, WindowEdge } from './types';

/** Confidences, per cent, that a window is told at beside the plan's own, the highest first. */
export const TOLD_CONFIDENCES: readonly number[] = [95, 80, 50];

/** The latest week of a window at one confidence. */
export interface LatestAt {
  /** Per cent. */
  readonly confidence: number;
  /** It is the plan's own. */
  readonly isPlans: boolean;
  readonly edge: WindowEdge;
}

/** How well a spread is known that the chances are reckoned with; `samples` where it is fitted to the lot's own. */
export interface SpreadKnown {
  readonly of: Exclude<LotLimit, 'disorder'>;
  readonly known: Known | 'samples';
}

/**
 * A room's window at several confidences. Its first week is the same at all of them: it is reckoned from days and laws,
 * for which no spread is known.
 */
export interface WindowByConfidence {
  /** The highest confidence first; no week is later than that of a lower one. */
  readonly latest: readonly LatestAt[];
  /** Of the lots whose fruit sets a week of `latest`; empty where none does. */
  readonly spreads: readonly SpreadKnown[];
}

/**
 * The window of a room at the plan's confidence and at those of `TOLD_CONFIDENCES`, in closed form from the same spreads
 * as the plan's own window. `keeping` must be made of this plan. Undefined of a room without a window, and of one that
 * was opened: nothing is left to decide there.
 */
export function windowByConfidence(
  plan: Plan,
  { filled, window }: RoomKeeping,
): WindowByConfidence | undefined {
  const { regime, fill } = filled;
  if (!window || !regime || fill.opened) return undefined;
  // Rounded, so that 29 % is not told as 28.999999999999996.
  const own = Math.round(1e8 * confidenceOf(plan)) / 1e6;
  const lots = lotTimesOf(filled, regime, wantedChance(own / 100));
  const latest: LatestAt[] = [];
  for (const confidence of withOwn(own)) {
    const isPlans = confidence === own;
    const edge = isPlans ? window.latest : latestEdgeFor(plan, fill, lots, wantedChance(confidence / 100));
    if (edge) latest.push({ confidence, isPlans, edge });
  }
  return { latest, spreads: spreadsBehind(latest, lots, regime, isSealed(fill, regime)) };
}

/**
 * The chance that all of a room's lots are within standard in the last week of packing, were it opened in `week`: that of
 * its weakest lot, as for the window. Undefined of a room without a window, and of one that was opened.
 */
export function chanceWhenOpened(
  plan: Plan,
  { filled, lots, window }: RoomKeeping,
  week: Week,
): number | undefined {
  if (!window || lots.length === 0 || filled.fill.opened) return undefined;
  const last = week + weeksToEmpty(plan.packing?.daysToEmpty ?? usualDaysToEmpty) - 1;
  return lots.reduce((least, lot) => Math.min(least, lot.withinStandard(last)), 1);
}

/** The plan's own takes the place of one that it is equal to. */
function withOwn(own: number): number[] {
  const others = TOLD_CONFIDENCES.filter((one) => Math.abs(one - own) > 1e-9);
  return [...others, own].sort((a, b) => b - a);
}

function spreadsBehind(
  latest: readonly LatestAt[],
  lots: readonly LotTime[],
  regime: Regime,
  sealed: boolean,
): SpreadKnown[] {
  const setting = new Set(
    latest.flatMap(({ edge }) => (edge.limit === 'disorder' ? [] : (edge.lot?.id ?? []))),
  );
  const behind = lots.filter(({ keeping }) => setting.has(keeping.lot.id));
  if (behind.length === 0) return [];
  const ofLife = leastKnown(
    behind.map(({ keeping }) => lifeSpreadKnown(keeping.inRoom.variety, regime, sealed)),
  );
  const firm = behind.flatMap(({ inputs }) => (inputs.course ? [inputs.course] : []));
  if (firm.length === 0) return [{ of: 'storage life', known: ofLife }];
  // The spreads of a firmness that was not fitted are rules of thumb, `assumptions.ts`.
  const ofFirmness = firm.every(({ known }) => known) ? 'samples' : 'common practice';
  return [
    { of: 'storage life', known: ofLife },
    { of: 'firmness', known: ofFirmness },
  ];
}
