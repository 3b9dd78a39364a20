import { QUICK_MOVES, withCourses, withRelease } from '../../findings/compute';
import type { ComputedSeason } from '../../findings/types';
import { releaseInWeeks } from '../../release/published-weeks';
import type { PublishedWeeks } from '../../report/papers/basis';

/** The season with its rooms opened in the weeks published before; courses go with the weeks. */
export function inWeeks(
  season: ComputedSeason,
  published: PublishedWeeks | undefined,
  seed: number,
): ComputedSeason {
  const { release } = season;
  if (!release || !published) return season;
  const { problem } = release;
  const result = releaseInWeeks(problem, published, { seed, moves: QUICK_MOVES });
  return withCourses(withRelease(season, { problem, result }));
}
