/**
 * What a write of several files leaves behind where the program that made it ended half way: a journal in the plan's folder,
 * with the texts from before and after. Command line and editor undo it by the same rules.
 */
export const JOURNAL = '.lotwright-writing.json';

/** A file of a journal, with its texts. */
export interface Kept {
  readonly file: string;
  readonly before: string;
  readonly after: string;
}

/** The files of a journal; undefined for a text that is none. */
export function filesOfJournal(text: string): readonly Kept[] | undefined {
  let journal: unknown;
  try {
    journal = JSON.parse(text);
  } catch {
    return undefined;
  }
  const files =
    typeof journal === 'object' && journal !== null && 'files' in journal ? journal.files : undefined;
  return Array.isArray(files) && files.every(isKept) ? files : undefined;
}

function isKept(one: unknown): one is Kept {
  return (
    typeof one === 'object' &&
    one !== null &&
    ['file', 'before', 'after'].every((key) => typeof (one as Record<string, unknown>)[key] === 'string')
  );
}

/** What undoing comes to. Where somebody has changed a file since, nothing may be touched. */
export interface Undoing {
  readonly written: readonly Kept[];
  readonly changedSince: readonly string[];
}

/** Which files the write had reached; `now` has the text of each as it is, undefined of one that is not there. */
export function undoingOf(files: readonly Kept[], now: ReadonlyMap<string, string | undefined>): Undoing {
  const changedSince = files
    .filter(({ file, before, after }) => now.get(file) !== before && now.get(file) !== after)
    .map(({ file }) => file);
  return {
    written: changedSince.length > 0 ? [] : files.filter(({ file, before }) => now.get(file) !== before),
    changedSince,
  };
}

/** Where a file lies from the folder of its journal, `../lots/a.lotplan.yaml`: the journal lies beside its first file. */
export function fromJournal(files: readonly Kept[], file: string): string {
  const parts = (full: string) => full.split(/[\\/]/);
  const [folder, path] = [parts(files[0]?.file ?? '').slice(0, -1), parts(file)];
  const shared = folder.findIndex((name, index) => name !== path[index]);
  const common = shared < 0 ? folder.length : shared;
  return [...folder.slice(common).map(() => '..'), ...path.slice(common)].join('/');
}
