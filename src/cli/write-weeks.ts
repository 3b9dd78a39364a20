import path from 'node:path';
import { counted } from '../findings/say';
import { applyEdits } from '../plan/edits';
import type { Plan } from '../plan/model';
import type { WeekEdit } from '../release/week-edits';
import { CannotRun, type Io } from './io';

const BYTE_ORDER_MARK = '\uFEFF';

/**
 * Writes the weeks into the plan's files. Throws `CannotRun`, with nothing written, where a file is no longer as it was
 * when the plan was read: somebody's work would be lost, and the schedule may not hold for what is there now. Where a
 * file cannot be written, those written before it are put back as they were.
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
  const written: string[] = [];
  const putBack = () =>
    written.filter((file) => io.files.write(path.resolve(io.cwd, file), String(now.get(file))));
  for (const file of files) {
    const before = String(now.get(file));
    const edits = weeks.filter((one) => one.file === file).flatMap((one) => one.edits);
    const mark = before.startsWith(BYTE_ORDER_MARK) ? BYTE_ORDER_MARK : '';
    const failed = io.files.write(path.resolve(io.cwd, file), mark + applyEdits(withoutMark(before), edits));
    if (failed) {
      const left = putBack();
      const already = left.length === 0 ? 'Nothing is written' : `Written: ${left.join(', ')}; not written`;
      throw new CannotRun(`${already}: ${file}: ${failed.failure}.`);
    }
    written.push(file);
  }
}

function withoutMark(text: string): string {
  return text.startsWith(BYTE_ORDER_MARK) ? text.slice(1) : text;
}
