import { addFills, type NewFill } from '../plan/add-fills';
import { applyEdits } from '../plan/edits';
import type { Plan } from '../plan/model';
import type { TextEdit } from '../plan/problem';
import { readPlan } from '../plan/read';
import { CannotRun, type Io } from './io';
import { writeWeeks } from './write-weeks';

/**
 * Writes fills into the plan's files; says which went into which. Throws `CannotRun`, with nothing written, where the
 * text written would not read as the plan with these fills: a section in a form that cannot be added to.
 */
export function writeFills(io: Io, plan: Plan, fills: readonly NewFill[]): { fill: string; file: string }[] {
  const edits = addFills(plan, fills);
  const [file] = edits.map(({ at }) => at.file);
  if (file === undefined) return [];
  if (!readsWell(plan, edits, fills))
    throw new CannotRun(
      `Nothing is written: fills cannot be added to ${file} as it stands. Write its section as \`fills:\` with an entry on lines of its own, and run it again.`,
    );
  writeWeeks(io, plan, [{ file, edits }]);
  return fills.map(({ id }) => ({ fill: id, file }));
}

function readsWell(plan: Plan, edits: readonly TextEdit[], fills: readonly NewFill[]): boolean {
  const after = readPlan(
    [...plan.files.values()].map(({ path, text }) => ({
      path,
      text: applyEdits(
        text,
        edits.filter(({ at }) => at.file === path),
      ),
    })),
  );
  const all = fills.every(({ id, lots }) => after.fills.get(id)?.lots.length === lots.length);
  return (
    all &&
    after.fills.size === plan.fills.size + fills.length &&
    after.problems.length <= plan.problems.length
  );
}
