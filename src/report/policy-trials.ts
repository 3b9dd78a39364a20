import { entriesMade, keepingIn } from '../findings/compute';
import type { ComputedSeason } from '../findings/types';
import { figureWith } from '../plan/figure';
import type { Packing, Plan } from '../plan/model';
import type { TriedPolicy } from '../release/policy-cures';
import { releaseProblem } from '../release/problem';
import type { ReleaseProblem } from '../release/types';

/** Days more that are tried: cartons wait in whole weeks, and a room is emptied in weeks. */
const DAYS_MORE = [7, 14];

/**
 * The season with packed cartons that wait longer, and with rooms that are emptied in more days, the nearest first; none
 * of a plan without a packhouse. Days to empty a room move its latest week, so how its fruit keeps is computed again.
 */
export function* policyTrials(season: ComputedSeason, problem: ReleaseProblem): Iterable<TriedPolicy> {
  const { plan, keeping, filled } = season;
  const { packing } = plan;
  if (!packing) return;
  const published = new Map(
    problem.rooms.flatMap(({ fill, published: one }) =>
      one ? [[fill, problem.firstWeek + one.week] as const] : [],
    ),
  );
  const options = published.size > 0 ? { published } : {};
  for (const more of DAYS_MORE) {
    const packedWait = moreDays(packing.packedWait, more);
    const tried = releaseProblem(withPacking(plan, { ...packing, packedWait }), keeping, options);
    if (tried)
      yield { key: 'packed-wait', days: packedWait.value, now: packing.packedWait.value, problem: tried };
  }
  for (const more of DAYS_MORE) {
    const daysToEmpty = moreDays(packing.daysToEmpty, more);
    const longer = withPacking(plan, { ...packing, daysToEmpty });
    const kept = entriesMade(filled.keys(), (id) => keepingIn(longer, filled, id));
    const tried = releaseProblem(longer, kept, options);
    if (tried)
      yield { key: 'days-to-empty', days: daysToEmpty.value, now: packing.daysToEmpty.value, problem: tried };
  }
}

function moreDays(days: Packing['packedWait'], more: number): Packing['packedWait'] {
  return figureWith(days, { value: days.value + more });
}

function withPacking(plan: Plan, packing: Packing): Plan {
  return { ...plan, packing };
}
