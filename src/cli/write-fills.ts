import type { NewFill } from '../plan/add-fills';
import { fillEdits } from '../plan/fill-edits';
import type { Plan } from '../plan/model';
import type { TextEdit } from '../plan/problem';
import { CannotRun, type Io } from './io';
import { writeWeeks } from './write-weeks';

/**
 * Writes fills into the plan's files; says which went into which. Throws `CannotRun`, with nothing written, where the
 * text written would not read as the plan with these fills: a section in a form that cannot be added to.
 */
export function writeFills(io: Io, plan: Plan, fills: readonly NewFill[]): { fill: string; file: string }[] {
  if (fills.length === 0) return [];
  const edits = fillEdits(plan, fills);
  if (!edits)
    throw new CannotRun(
      'Nothing is written: fills cannot be added to the plan as it stands. Write its section as `fills:` with an entry on lines of its own, and run it again.',
    );
  const byFile = new Map<string, TextEdit[]>();
  for (const edit of edits) byFile.set(edit.at.file, [...(byFile.get(edit.at.file) ?? []), edit]);
  writeWeeks(
    io,
    plan,
    [...byFile].map(([file, mine]) => ({ file, edits: mine })),
  );
  const added = edits.at(-1)?.at.file ?? '';
  return fills.map(({ id, stands }) => ({ fill: id, file: stands ? fileOf(plan, id) : added }));
}

function fileOf(plan: Plan, fill: string): string {
  return plan.fills.get(fill)?.at.file ?? '';
}
