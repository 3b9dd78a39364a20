import type { Plan } from '../plan/model';
import { isReadingError } from '../plan/reading-codes';
import type { Span } from '../plan/span';

/** Whether an error of reading stands in the plan, so that not all that it says is known. */
export function hasUnread(plan: Plan): boolean {
  return plan.problems.some(isReadingError);
}

/**
 * Tells whether an error of reading stands within a fill or a regime, or below it before the next one: what it has not
 * may be written there. What has none, or is built in, has no such place.
 */
export function partlyUnread(plan: Plan): (entry: { readonly at: Span } | undefined) => boolean {
  const errors = plan.problems.filter(isReadingError);
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
