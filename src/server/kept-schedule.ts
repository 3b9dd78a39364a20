import { checkSchedule } from '../release/checker';
import type { ReleaseProblem, ReleaseResult } from '../release/types';

/** A schedule with the problem it answers. */
export interface Release {
  readonly problem: ReleaseProblem;
  readonly result: ReleaseResult;
}

/**
 * A schedule found before, for a problem that is the same or differs by pins alone, each to the very week the schedule
 * chose: pinning what was found must not lose it. Its bound still holds, since pins can only lower what is possible.
 * Undefined where it does not fit.
 */
export function keptFor(found: Release, problem: ReleaseProblem): Release | undefined {
  if (sameProblem(found.problem, problem)) return found;
  const { opens } = found.result.schedule;
  const rooms = found.problem.rooms.map((room, index) => {
    const pinned = problem.rooms[index]?.pinned ?? null;
    return room.pinned === null && pinned !== null && pinned === opens[index] ? { ...room, pinned } : room;
  });
  if (!sameProblem({ ...found.problem, rooms }, problem)) return undefined;
  const { result } = found;
  return checkSchedule(problem, result.schedule, result.unmet ?? []).length === 0
    ? { problem, result }
    : undefined;
}

/** Problems are plain data, made in the same order each time: equal text means an equal problem. */
export function sameProblem(a: ReleaseProblem, b: ReleaseProblem): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
