import path from 'node:path';
import { markOf, withoutMark } from '../plan/byte-order-mark';
import { applyEdits } from '../plan/edits';
import type { Plan } from '../plan/model';
import { counted } from '../plan/wording';
import type { WeekEdit } from '../release/week-edits';
import { CannotRun, type Io } from './io';

/**
 * Writes the weeks into the plan's files. Throws `CannotRun`, with nothing written, where a file is no longer as it was
 * when the plan was read: somebody's work would be lost, and the schedule may not hold for what is there now. All files
 * are written, or none.
 */
export function writeWeeks(io: Io, plan: Plan, weeks: readonly Pick<WeekEdit, 'file' | 'edits'>[]): void {
  const files = [...new Set(weeks.map(({ file }) => file))];
  const now = new Map(files.map((file) => [file, io.files.read(path.resolve(io.cwd, file))]));
  const changed = files.filter((file) => {
    const text = now.get(file);
    return typeof text !== 'string' || withoutMark(text) !== plan.files.get(file)?.text;
  });
  if (changed.length > 0)
    throw new CannotRun(
      `Nothing is written: ${counted(changed.length, 'file has', 'files have')} changed since the plan was read. Run it again.\n  ${changed.join('\n  ')}`,
    );
  const lost = files.filter((file) => String(now.get(file)).includes('\uFFFD'));
  if (lost.length > 0)
    throw new CannotRun(
      `Nothing is written: letters would be lost, since ${counted(lost.length, 'file is', 'files are')} not saved as UTF-8. Save as UTF-8 and run it again.\n  ${lost.join('\n  ')}`,
    );
  const texts = new Map(
    files.map((file) => {
      const before = String(now.get(file));
      const edits = weeks.filter((one) => one.file === file).flatMap((one) => one.edits);
      return [path.resolve(io.cwd, file), markOf(before) + applyEdits(withoutMark(before), edits)] as const;
    }),
  );
  const failed = io.files.writeAll(texts);
  if (!failed) return;
  const shown = (file: string) => files.find((one) => path.resolve(io.cwd, one) === file) ?? file;
  const already =
    failed.left.length === 0
      ? 'Nothing is written'
      : `Written: ${failed.left.map(shown).join(', ')}; not written`;
  throw new CannotRun(`${already}: ${shown(failed.file)}: ${failed.failure}.`);
}
