import type { Place } from './place';

/** Letters of a commit's name that are shown. */
export const SHOWN_OF_COMMIT = 10;

/** What stands before the paths of a plan as a commit has it. */
export function commitPrefix(commit: string): string {
  return `${commit.slice(0, SHOWN_OF_COMMIT)}:`;
}

const PREFIX = new RegExp(`^[0-9a-f]{${SHOWN_OF_COMMIT}}:`);

/**
 * The address of a place's line in the new plan, whose files have these paths; undefined for what only an older commit
 * has, of which there is no line to link to. The commit is said by what stands before the path, so it is left out.
 * `pathOf` gives the path that stands behind the base of a file that no commit has.
 */
export function linkAddress(
  { file, line }: Place,
  newFiles: { has(file: string): boolean },
  linkBase: string,
  pathOf: (file: string) => string = (name) => name,
): string | undefined {
  if (PREFIX.test(file) && !newFiles.has(file)) return undefined;
  const named = PREFIX.test(file) ? file.replace(PREFIX, '') : pathOf(file);
  const path = named.split('/').map(encodeURIComponent).join('/');
  return `${linkBase}${path}#L${line}`.replaceAll('(', '%28').replaceAll(')', '%29');
}
