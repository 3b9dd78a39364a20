import { type ChunkPlace, spanAt } from '../build/places';
import type { Problem } from '../problem';
import type { Span } from '../span';

/** A problem found in a chunk, at the chunk's place in its file. */
export function placedProblem(problem: Problem, place: ChunkPlace): Problem {
  const moved = (span: Span): Span => spanAt(place, span);
  return {
    ...problem,
    at: moved(problem.at),
    ...(problem.related ? { related: problem.related.map((one) => ({ ...one, at: moved(one.at) })) } : {}),
    ...(problem.fixes
      ? {
          fixes: problem.fixes.map((fix) => ({
            ...fix,
            edits: fix.edits.map((edit) => ({ ...edit, at: moved(edit.at) })),
          })),
        }
      : {}),
  };
}
