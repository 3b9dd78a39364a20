import { filesOfJournal, JOURNAL, type Kept, undoingOf } from '../plan/broken-write';

/** The few things that writing does to a disk. Each throws where it fails. */
export interface Disk {
  read(file: string): string;
  /** A new file, with the permissions of the one it is to take the place of; fails where there is one of its name. */
  create(file: string, text: string, like?: string): void;
  /** At one stroke, over a file that is there. */
  rename(from: string, to: string): void;
  /** Nothing where it is not there. */
  remove(file: string): void;
}

export { JOURNAL };

/** Thrown where writing failed; all files are as they were but for those in `left`. */
export class WriteFailed extends Error {
  constructor(
    readonly file: string,
    readonly left: readonly string[],
    override readonly cause: unknown,
  ) {
    super(`${file} could not be written`);
  }
}

/**
 * Writes all files or none. First every new text is written beside its file; only when all of them are there do they take
 * the files' places. Several files have a journal meanwhile, with their texts from before: `restore` takes back what a
 * program that ended half way left. Throws `WriteFailed`.
 */
export function writeAll(disk: Disk, texts: ReadonlyMap<string, string>, journal: string): void {
  const files = [...texts].map(([file, after]): Kept => ({ file, before: readFor(disk, file), after }));
  const beside: string[] = [];
  const isJournaled = files.length > 1;
  try {
    for (const { file, after } of files)
      attemptFor(file, () => {
        disk.create(besideOf(file), after, file);
        beside.push(besideOf(file));
      });
    if (isJournaled) attemptFor(journal, () => makeJournal(disk, journal, files));
  } catch (error) {
    for (const one of beside) tidy(disk, one);
    throw error;
  }
  const done: Kept[] = [];
  try {
    for (const kept of files)
      attemptFor(kept.file, () => {
        disk.rename(besideOf(kept.file), kept.file);
        done.push(kept);
      });
  } catch (error) {
    const { file, cause } = error as WriteFailed;
    for (const one of beside) tidy(disk, one);
    const left = done.filter((kept) => !putBack(disk, kept)).map((kept) => kept.file);
    if (left.length === 0 && isJournaled) tidy(disk, journal);
    throw new WriteFailed(file, left, cause);
  }
  if (isJournaled) tidy(disk, journal);
}

/** What undoing a broken-off write came to: the files that were put back, or those that somebody has changed since. */
export interface Restored {
  readonly putBack: readonly string[];
  readonly changedSince: readonly string[];
}

/**
 * Puts the files of a journal back as they were before a write that never ended. Where somebody has changed one of them
 * since, nothing is touched. Throws where the journal or a file cannot be read or written.
 */
export function restore(disk: Disk, journal: string): Restored {
  const files = filesOfJournal(disk.read(journal));
  if (!files) throw new Error('its journal is damaged');
  const { written, changedSince } = undoingOf(
    files,
    new Map(files.map(({ file }) => [file, disk.read(file)])),
  );
  if (changedSince.length > 0) return { putBack: [], changedSince };
  for (const { file, before } of written) {
    disk.remove(besideOf(file));
    disk.create(besideOf(file), before, file);
    disk.rename(besideOf(file), file);
  }
  for (const { file } of files) disk.remove(besideOf(file));
  disk.remove(journal);
  return { putBack: written.map(({ file }) => file), changedSince: [] };
}

function besideOf(file: string): string {
  return `${file}.new`;
}

/** Whole or not at all, as the files themselves: half a journal would be taken for one. */
function makeJournal(disk: Disk, journal: string, files: readonly Kept[]): void {
  const beside = besideOf(journal);
  disk.remove(beside);
  disk.create(beside, JSON.stringify({ files }));
  disk.rename(beside, journal);
}

function putBack(disk: Disk, { file, before }: Kept): boolean {
  try {
    disk.create(besideOf(file), before, file);
    disk.rename(besideOf(file), file);
    return true;
  } catch {
    return false;
  }
}

function readFor(disk: Disk, file: string): string {
  let text = '';
  attemptFor(file, () => {
    text = disk.read(file);
  });
  return text;
}

function attemptFor(file: string, work: () => void): void {
  try {
    work();
  } catch (cause) {
    throw new WriteFailed(file, [], cause);
  }
}

/** What cannot be removed is left: nothing is lost by it. */
function tidy(disk: Disk, file: string): void {
  try {
    disk.remove(file);
  } catch {
    // The next write says that it stands there.
  }
}
