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

/** Problems are plain data: they are the same where all of it is. Stops at the first difference. */
export function sameProblem(a: ReleaseProblem, b: ReleaseProblem): boolean {
  return sameData(a, b);
}

/** What JSON would say of both is the same: what is undefined counts as absent. */
function sameData(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null)
    return Number.isNaN(a) && Number.isNaN(b);
  if (Array.isArray(a)) {
    if (!Array.isArray(b) || a.length !== b.length) return false;
    for (let index = 0; index < a.length; index++) if (!sameData(a[index], b[index])) return false;
    return true;
  }
  const [one, other] = [a as Readonly<Record<string, unknown>>, b as Readonly<Record<string, unknown>>];
  for (const key in one) if (!sameData(one[key], other[key])) return false;
  for (const key in other) if (!(key in one) && other[key] !== undefined) return false;
  return true;
}
