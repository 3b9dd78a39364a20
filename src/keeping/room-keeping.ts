import type { Regime } from '../fruit/types';
import type { Fill, Plan } from '../plan/model';
import type { FilledRoom } from '../room/types';
import { AlikeLots } from './alike';
import { type Wanted, wantedChance } from './chance';
import { earliestEdge } from './earliest';
import { latestEdgeFor } from './latest';
import { type LotTime, lotTimeFor } from './lot-keeping';
import type { OpeningWindow, RoomKeeping } from './types';

/**
 * How long each lot of a filled room keeps, and when the room may be opened. A room whose regime is not known keeps
 * nothing. Where the fruit does not last until the room may be opened, both edges stand as they are.
 */
export function roomKeeping(plan: Plan, filled: FilledRoom): RoomKeeping {
  const { regime, fill } = filled;
  if (!regime) return { filled, lots: [] };
  const confidence = confidenceOf(plan);
  const wanted = wantedChance(confidence);
  const lots = lotTimesOf(filled, regime, wanted);
  const earliest = earliestEdge(plan, filled, regime);
  const window = earliest && openingWindow(plan, fill, lots, earliest, wanted);
  return { filled, lots: lots.map(({ keeping }) => keeping), ...(window && { window }) };
}

/** The lots of a room that have a day to count from. */
export function lotTimesOf(filled: FilledRoom, regime: Regime, wanted: Wanted): LotTime[] {
  const alike = new AlikeLots(filled.fill, regime);
  const lots: LotTime[] = [];
  for (const inRoom of filled.lots) {
    const lot = lotTimeFor(inRoom, alike, wanted);
    if (lot) lots.push(lot);
  }
  return lots;
}

/**
 * `bestBefore` is the latest week at a confidence halfway between the plan's and certainty: half the risk that the
 * planner accepts.
 */
function openingWindow(
  plan: Plan,
  fill: Fill,
  lots: readonly LotTime[],
  earliest: OpeningWindow['earliest'],
  wanted: Wanted,
): OpeningWindow | undefined {
  const latest = latestEdgeFor(plan, fill, lots, wanted);
  const halfTheRisk = wantedChance(1 - (1 - wanted.confidence) / 2);
  const bestBefore = latestEdgeFor(plan, fill, lots, halfTheRisk);
  return latest && bestBefore && { earliest, bestBefore, latest };
}

/** The plan's confidence as a share; certainty either way has no place on a normal distribution. */
export function confidenceOf({ policy }: Plan): number {
  const percent = policy.confidence.value;
  return Math.min(0.999, Math.max(0.01, Number.isFinite(percent) ? percent / 100 : 0.9));
}
