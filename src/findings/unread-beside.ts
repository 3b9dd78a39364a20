import type { Plan } from '../plan/model';
import type { Problem } from '../plan/problem';
import { readingCodes } from '../plan/reading-codes';
import type { Span } from '../plan/span';

const ERRORS: ReadonlySet<string> = new Set(
  readingCodes.flatMap(({ code, severity }) => (severity === 'error' ? [code] : [])),
);

/** Whether an error of reading stands in the plan, so that not all that it says is known. */
export function hasUnread(plan: Plan): boolean {
  return plan.problems.some(isError);
}

/**
 * Whether an error of reading stands within a fill or a regime, or below it before the next one: what it has not may be
 * written there. What has none, or is built in, has no such place.
 */
export function isPartlyUnread(plan: Plan, entry: { readonly at: Span } | undefined): boolean {
  const errors = plan.problems.filter((one) => isError(one) && one.at.file === entry?.at.file);
  if (!entry || errors.length === 0) return false;
  // A key that has lost its indent is read as an entry; an error stands at its name.
  const isWrong = new Set(errors.map(({ at }) => at.start));
  const { start } = entry.at;
  let end = Number.POSITIVE_INFINITY;
  for (const others of [plan.fills, plan.regimes])
    for (const { at } of others.values())
      if (at.file === entry.at.file && at.start > start && !isWrong.has(at.start))
        end = Math.min(end, at.start);
  return errors.some(({ at }) => at.start >= start && at.start < end);
}

function isError({ code, severity = 'error' }: Problem): boolean {
  return severity === 'error' && ERRORS.has(code);
}
