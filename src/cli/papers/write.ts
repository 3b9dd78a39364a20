import path from 'node:path';
import type { PreviousCalendar } from '../../report/papers/calendar-issue';
import type { PaperFile } from '../../report/papers/forms';
import { calendarBefore } from '../../report/papers/paper-files';
import { CannotRun, type Io } from '../io';

export interface Where {
  /** A file for one, a folder for several; without it one goes to the output. */
  readonly out?: string | undefined;
  /** The last issue of calendars, or the folder that holds it. */
  readonly previous?: string | undefined;
  readonly force: boolean;
}

/**
 * Writes the files of an issue. Throws `CannotRun`, with nothing written, where one of them would take the place of a
 * file that is no earlier issue of it, or a calendar's last issue is another calendar.
 */
export function writePapers(io: Io, files: readonly PaperFile[], where: Where): string[] {
  const placed = files.map((file) => ({ file, at: placeOf(io, files, file, where.out ?? '.') }));
  if (!where.force) refuseOthers(io, placed);
  const made = placed.map(({ file, at }) => ({ at, content: file.content(previousOf(io, file, where, at)) }));
  for (const { at, content } of made) {
    const failed = io.files.save(path.resolve(io.cwd, at), content);
    if (failed) throw new CannotRun(`${at} could not be written: ${failed.failure}.`);
  }
  return made.map(({ at }) => at);
}

/** The text of a single file, for the output. */
export function paperText(io: Io, file: PaperFile, where: Where): string {
  const content = file.content(previousOf(io, file, where, undefined));
  if (typeof content === 'string') return content;
  throw new CannotRun(`A workbook is not text: give the file it is to go to, as --out ${file.name}.`);
}

function placeOf(io: Io, files: readonly PaperFile[], file: PaperFile, out: string): string {
  const kind = io.files.kindOf(path.resolve(io.cwd, out));
  const isFolder = kind === 'folder' || files.length > 1 || /[\\/]$/.test(out);
  if (isFolder && kind === 'file')
    throw new CannotRun(`${out} is a file, and this makes ${files.length} files: give a folder.`);
  return isFolder ? path.join(out, file.name) : out;
}

function refuseOthers(io: Io, placed: readonly { readonly file: PaperFile; readonly at: string }[]): void {
  const others = placed.filter(({ file, at }) => {
    const full = path.resolve(io.cwd, at);
    if (io.files.kindOf(full) === 'missing') return false;
    const text = io.files.read(full);
    return typeof text !== 'string' || !file.isEarlier(text);
  });
  if (others.length === 0) return;
  const list = others.map(({ at }) => at).join('\n  ');
  throw new CannotRun(
    `Nothing is written: what stands there is no earlier issue of the same paper. Give another place, or --force to write over it.\n  ${list}`,
  );
}

/** The last issue: as given, else the calendar that is written over. */
function previousOf(
  io: Io,
  file: PaperFile,
  { previous }: Where,
  at: string | undefined,
): PreviousCalendar | undefined {
  if (file.calendarOf === undefined) return undefined;
  const from = previous === undefined ? at : previousPlace(io, previous, file.name);
  if (from === undefined) return undefined;
  const full = path.resolve(io.cwd, from);
  if (io.files.kindOf(full) === 'missing') {
    if (previous === undefined || from !== previous) return undefined;
    throw new CannotRun(`There is no calendar ${previous}. Leave out --previous for the first issue.`);
  }
  const text = io.files.read(full);
  if (typeof text !== 'string') throw new CannotRun(`${from} could not be read: ${text.failure}.`);
  const found = calendarBefore(text);
  if (found.identity === file.calendarOf) return found;
  // Only with --force is another calendar written over.
  if (previous === undefined) return undefined;
  throw new CannotRun(
    `${from} is not an earlier issue of this calendar: it is ${found.identity === '' ? 'none that lotwright papers wrote' : found.identity}. Give the last issue for the same plan and reader, or leave out --previous.`,
  );
}

function previousPlace(io: Io, previous: string, name: string): string {
  const isFolder = io.files.kindOf(path.resolve(io.cwd, previous)) === 'folder';
  return isFolder ? path.join(previous, name) : previous;
}
