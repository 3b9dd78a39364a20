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
 * Tells whether an error of reading stands within a fill or a regime, or below it before the next one: what it has not
 * may be written there. What has none, or is built in, has no such place.
 */
export function partlyUnread(plan: Plan): (entry: { readonly at: Span } | undefined) => boolean {
  const errors = plan.problems.filter(isError);
  if (errors.length === 0) return () => false;
  // A key that has lost its indent is read as an entry; an error stands at its name.
  const wrong = new Set(errors.map(({ at }) => placed(at)));
  const entries = [...plan.fills.values(), ...plan.regimes.values()].filter(
    ({ at }) => !wrong.has(placed(at)),
  );
  return (entry) => {
    if (!entry) return false;
    const { file, start } = entry.at;
    // Places move with what is written above them, which changes no entry: whoever asks for them looks at the file.
    plan.files.get(file);
    const starts = entries.flatMap(({ at }) => (at.file === file && at.start > start ? at.start : []));
    const end = starts.reduce((least, one) => Math.min(least, one), Number.POSITIVE_INFINITY);
    return errors.some(({ at }) => at.file === file && at.start >= start && at.start < end);
  };
}

function placed({ file, start }: Span): string {
  return `${start} ${file}`;
}

function isError({ code, severity = 'error' }: Problem): boolean {
  return severity === 'error' && ERRORS.has(code);
}
