import type { Highs } from 'highs';
import { withRelease } from '../../findings/compute';
import type { ComputedSeason } from '../../findings/types';
import { withPackingPlan } from '../../release/packing-plan';

/**
 * The season as papers tell it: with the packing that `release` reports for the same opening weeks. Command line and
 * editor both make papers of this, so that the same plan gives the same document. `loadSolver` is called only where
 * there is a schedule to pack.
 */
export async function packedSeason(
  season: ComputedSeason,
  loadSolver: () => Promise<Highs>,
): Promise<ComputedSeason> {
  const { release } = season;
  if (!release) return season;
  const { problem, result } = release;
  return withRelease(season, { problem, result: withPackingPlan(await loadSolver(), problem, result) });
}
