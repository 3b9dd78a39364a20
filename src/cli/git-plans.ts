import path from 'node:path';
import { withoutMark } from '../plan/byte-order-mark';
import type { PlanFile } from '../plan/read';
import { commitPrefix, SHOWN_OF_COMMIT } from '../report/compare-links';
import { CannotRun, type Io, type RunGit } from './io';
import { PLAN_FILE_ENDING } from './plan-files';

/**
 * A plan's files as a revision has them. Each path is git's: the revision, and the path from the repository's root. So
 * none is taken for one on disk.
 */
export interface PlanAtRevision {
  /** As it is shown: `main (1a2b3c4d5e):plans/2026`. */
  readonly name: string;
  readonly files: readonly PlanFile[];
}

/** A folder of a revision. */
export interface RevisionFolder {
  readonly revision: string;
  /** As git names it behind the colon: from the repository's root, or with `./` and `../` from the current folder. */
  readonly named: string;
  /** The revision as it is shown, where that is not its own name. */
  readonly called?: string;
}

/** The plan in a folder as a revision has it. Throws `CannotRun` where there is none. */
export function planAtRevision(
  io: Io,
  { revision, named, called = revision }: RevisionFolder,
): PlanAtRevision {
  const { git, top } = repositoryOf(io);
  const commit = commitOf(git, revision);
  const inside = insideOf(top, diskFolder(io, top, named), named);
  const shown = commitPrefix(commit);
  const entries = listed(git, commit, inside);
  const texts = contents(git, entries);
  const files = entries.map(({ file }, index) => ({
    path: `${shown}${file}`,
    text: withoutMark(texts[index] ?? ''),
  }));
  if (files.length === 0) {
    const fromRoot =
      isFromHere(named) || path.relative(top, io.cwd) === ''
        ? ''
        : ` Its path begins at the repository's root; ${revision}:./${named} begins in the current folder.`;
    throw new CannotRun(
      `There is no plan in ${named || 'the repository'} at ${revision}: no file in it or below it ends in ${PLAN_FILE_ENDING}.${fromRoot}`,
    );
  }
  return { name: `${called} (${commit.slice(0, SHOWN_OF_COMMIT)}):${named}`, files };
}

/** True of a name that git reads from the current folder on. */
function isFromHere(named: string): boolean {
  return /^\.\.?(\/|$)/.test(named);
}

function diskFolder(io: Io, top: string, named: string): string {
  return path.resolve(isFromHere(named) ? io.cwd : top, named);
}

/** Where the folder that git names so lies on disk, seen from the current folder. */
export function folderOnDisk(io: Io, named: string): string {
  const { top } = repositoryOf(io);
  return (
    path
      .relative(io.cwd, diskFolder(io, top, named))
      .split(path.sep)
      .join('/') || '.'
  );
}

/** How git names a folder on disk. Throws `CannotRun` for one outside the repository. */
export function nameInGit(io: Io, folder: string): string {
  return isFromHere(folder) ? folder : insideOf(repositoryOf(io).top, path.resolve(io.cwd, folder), folder);
}

/** Branches that a change may have come from, the likeliest first. */
const BASES = ['@{upstream}', 'origin/HEAD', 'origin/main', 'origin/master', 'main', 'master'];

/** The commit at which the work at hand left its base. Throws `CannotRun` where there is none to be found. */
export function mergeBase(
  io: Io,
  base: string | undefined,
): { readonly commit: string; readonly of: string } {
  const { git } = repositoryOf(io);
  const candidates = base === undefined ? BASES : [base];
  const known = candidates.filter(
    (name) => 'out' in git(['rev-parse', '--verify', '--quiet', '--end-of-options', `${name}^{commit}`]),
  );
  const [found] = known;
  if (found === undefined)
    throw new CannotRun(
      base === undefined
        ? 'There is no branch to compare with: neither one that the current branch tracks, nor main or master. Name one with --base, or give both plans.'
        : `git knows no revision ${base}.`,
    );
  const common = text(git(['merge-base', 'HEAD', found]));
  if (common === undefined)
    throw new CannotRun(
      `This clone does not hold where the work at hand left ${found}. Fetch more of its history (git fetch --unshallow), or give both plans.`,
    );
  return { commit: common.trim(), of: found };
}

/** How git is run, and the folder that holds the repository's files. Throws `CannotRun` where there is none. */
function repositoryOf({ git, cwd, files }: Io): { readonly git: RunGit; readonly top: string } {
  if (!git) throw new CannotRun('git cannot be run here. Give two folders.');
  const answer = git(['rev-parse', '--show-toplevel']);
  if (!('out' in answer))
    throw new CannotRun(
      answer.failure.includes('not a git repository')
        ? 'This is no git repository. Give two folders.'
        : `git cannot be used here. Give two folders. It says: ${answer.failure}`,
    );
  // The current folder with its links followed, as git follows them.
  const real = files.realPath(cwd);
  const top = new TextDecoder().decode(answer.out).replace(/\r?\n$/, '');
  return { git, top: path.resolve(cwd, path.relative(real, top)) };
}

function commitOf(git: RunGit, revision: string): string {
  const commit = text(git(['rev-parse', '--verify', '--quiet', '--end-of-options', `${revision}^{commit}`]));
  if (commit === undefined) throw new CannotRun(`git knows no revision ${revision} here.`);
  // A git that does not know --end-of-options prints it first.
  return commit.trim().split('\n').at(-1) ?? '';
}

/** The folder as the repository names it, without a slash at its end; empty for the whole of it. */
function insideOf(top: string, folder: string, given: string): string {
  const inside = path.relative(top, folder).split(path.sep).join('/');
  if (inside === '..' || inside.startsWith('../') || path.isAbsolute(inside))
    throw new CannotRun(`${given} is not in this repository.`);
  return inside;
}

interface TreeEntry {
  readonly file: string;
  readonly object: string;
}

/** Plan files of a commit in a folder, in the order of their paths; dot-folders and node_modules are left out. */
function listed(git: RunGit, commit: string, inside: string): TreeEntry[] {
  const where = inside === '' ? [] : ['--', inside];
  const tree = text(git(['ls-tree', '-r', '-z', '--full-tree', commit, ...where]));
  if (tree === undefined)
    throw new CannotRun(`git could not list the files of ${commit.slice(0, SHOWN_OF_COMMIT)}.`);
  return tree.split('\0').flatMap((line) => {
    const [, type, object, file] = /^\d+ (\w+) ([0-9a-f]+)\t(.*)$/s.exec(line) ?? [];
    if (type !== 'blob' || object === undefined || !file?.endsWith(PLAN_FILE_ENDING)) return [];
    const below = file.slice(inside.length).split('/').slice(0, -1);
    return below.some((name) => name === 'node_modules' || name.startsWith('.')) ? [] : [{ file, object }];
  });
}

/** The texts of files, in one run of git. */
function contents(git: RunGit, entries: readonly TreeEntry[]): string[] {
  if (entries.length === 0) return [];
  const answer = git(['cat-file', '--batch'], `${entries.map(({ object }) => object).join('\n')}\n`);
  if (!('out' in answer)) throw new CannotRun(`git could not read the plan's files: ${answer.failure}`);
  const { out } = answer;
  const decoder = new TextDecoder();
  let at = 0;
  return entries.map(({ file }) => {
    const end = out.indexOf(NEWLINE, at);
    const [, type, size] = decoder.decode(out.subarray(at, end)).split(' ');
    if (end < 0 || type !== 'blob')
      throw new CannotRun(`git does not hold ${file} here. Fetch it, or give two folders.`);
    const start = end + 1;
    at = start + Number(size) + 1;
    return decoder.decode(out.subarray(start, start + Number(size)));
  });
}

const NEWLINE = 10;

function text(answer: ReturnType<RunGit>): string | undefined {
  return 'out' in answer ? new TextDecoder().decode(answer.out) : undefined;
}
