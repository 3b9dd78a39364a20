import type { ChunkPlace } from '../build/places';
import type { Problem } from '../problem';
import type { Span } from '../span';

/** A problem found in a chunk, at the chunk's place in its file. */
export function placedProblem(problem: Problem, { file, offset }: ChunkPlace): Problem {
  const moved = ({ start, end }: Span): Span => ({ file, start: start + offset, end: end + offset });
  return {
    ...problem,
    at: moved(problem.at),
    ...(problem.related
      ? { related: problem.related.map((place) => ({ ...place, at: moved(place.at) })) }
      : {}),
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
