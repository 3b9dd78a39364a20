import { computeSeason } from '../findings/compute';
import type { ComputedSeason } from '../findings/types';
import type { Plan } from '../plan/model';

/**
 * The season as every command that reports on a plan computes it: with a quick schedule and each room's course, so
 * that they all find the same.
 */
export function wholeSeason(plan: Plan, { seed }: { readonly seed: number }): ComputedSeason {
  return computeSeason(plan, { release: 'quick', seed, courses: true });
}
