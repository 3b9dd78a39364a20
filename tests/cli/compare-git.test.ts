import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lotwright, root } from './in-process';

/** Comparing with what git holds, on real repositories: branches, shallow clones, submodules, odd names. */

const SAMPLE = path.join(root, 'sample-plans/us-units/wrenlow.lotplan.yaml');
const text = fs.readFileSync(SAMPLE, 'utf8');
/** A lot with thirty bins more. */
const edited = text.replace(/bins: (\d+)/, (_, bins: string) => `bins: ${Number(bins) + 30}`);
const PLAN = 'Pläne für 2026/the west';
const FILE = 'äpfel lots.lotplan.yaml';

let folder = '';
beforeAll(() => {
  folder = fs.realpathSync(fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright-compare-')));
});
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

function git(at: string, ...words: string[]): string {
  return execFileSync(
    'git',
    [
      '-c',
      'user.name=planner',
      '-c',
      'user.email=planner@example.org',
      '-c',
      'protocol.file.allow=always',
      ...words,
    ],
    {
      cwd: at,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, GIT_CONFIG_GLOBAL: os.devNull, GIT_CONFIG_SYSTEM: os.devNull },
    },
  );
}

function write(at: string, file: string, content: string): void {
  fs.mkdirSync(path.dirname(path.join(at, file)), { recursive: true });
  fs.writeFileSync(path.join(at, file), content);
}

/** A repository with the plan on its main branch. */
function repository(name: string): string {
  const at = path.join(folder, name);
  fs.mkdirSync(at);
  git(at, 'init', '-q', '-b', 'main');
  write(at, `${PLAN}/${FILE}`, text);
  git(at, 'add', '.');
  git(at, 'commit', '-qm', 'the plan');
  return at;
}

interface Report {
  readonly changes: readonly { readonly kind: string }[];
}

async function compare(at: string, ...words: string[]) {
  const { code, out, err } = await lotwright(
    ['compare', ...words, '--format', 'json', '--fail-on', 'never'],
    {
      cwd: at,
    },
  );
  const report: Report | undefined = code === 2 ? undefined : JSON.parse(out);
  return { code, err, kinds: report?.changes.map(({ kind }) => kind) };
}

describe('compare with what git holds', () => {
  it('takes where the branch left main for the old plan, and the folder as it stands for the new', async () => {
    const at = repository('merge base');
    git(at, 'checkout', '-qb', 'more-bins');
    write(at, `${PLAN}/${FILE}`, edited);
    expect((await compare(at, PLAN)).kinds).toEqual(['bins-changed']);
    git(at, 'commit', '-qam', 'thirty more');
    expect((await compare(at, PLAN)).kinds).toEqual(['bins-changed']);
    // What came to main since is no change of this branch.
    git(at, 'checkout', '-q', 'main');
    write(at, `${PLAN}/${FILE}`, text.replace(/price: (\d+)/, 'price: 1$1'));
    git(at, 'commit', '-qam', 'prices');
    git(at, 'checkout', '-q', 'more-bins');
    expect((await compare(at, PLAN)).kinds).toEqual(['bins-changed']);
    expect((await compare(at, PLAN, '--base', 'HEAD')).kinds).toEqual([]);
  });

  it('says nothing of files that were renamed, moved or cut in two', async () => {
    const at = repository('renamed');
    git(at, 'checkout', '-qb', 'tidy');
    git(at, 'mv', `${PLAN}/${FILE}`, `${PLAN}/lots.lotplan.yaml`);
    git(at, 'commit', '-qm', 'renamed');
    expect((await compare(at, PLAN)).kinds).toEqual([]);
    const cut = text.indexOf('\nlots:') + 1;
    write(at, `${PLAN}/lots.lotplan.yaml`, text.slice(0, cut));
    write(at, `${PLAN}/below/fruit.lotplan.yaml`, text.slice(cut));
    expect((await compare(at, PLAN)).kinds).toEqual([]);
  });

  it('works from a folder inside the repository, and with two revisions', async () => {
    const at = repository('inside');
    write(at, `${PLAN}/${FILE}`, edited);
    git(at, 'commit', '-qam', 'thirty more');
    expect((await compare(path.join(at, PLAN), 'HEAD~1:.', '.')).kinds).toEqual(['bins-changed']);
    expect((await compare(at, `HEAD~1:${PLAN}`, `HEAD:${PLAN}`)).kinds).toEqual(['bins-changed']);
    expect((await compare(at, `HEAD:${PLAN}`, `HEAD:${PLAN}`)).kinds).toEqual([]);
  });

  it("takes paths from the repository's root, with ./ and ../ from the current folder, as git does", async () => {
    const at = repository('paths');
    write(at, `${PLAN}/${FILE}`, edited);
    git(at, 'commit', '-qam', 'thirty more');
    const inside = path.join(at, path.dirname(PLAN));
    const last = path.basename(PLAN);
    for (const old of [PLAN, `./${last}`, `../${PLAN}`, '', '.', '..'])
      expect([old, (await compare(inside, `HEAD~1:${old}`, last)).kinds]).toEqual([old, ['bins-changed']]);
    // Without a second plan it is the same folder as it stands.
    for (const old of [PLAN, `./${last}`, '.'])
      expect([old, (await compare(inside, `HEAD~1:${old}`)).kinds]).toEqual([old, ['bins-changed']]);
    expect((await compare(inside, last, '--base', 'HEAD~1')).kinds).toEqual(['bins-changed']);
    const { err } = await compare(inside, `HEAD~1:${last}`, last);
    expect(err).toContain(`There is no plan in ${last} at HEAD~1`);
    expect(err).toContain(`HEAD~1:./${last} begins in the current folder.`);
  });

  it('links to lines of the new revision, whose name is no part of the path', async () => {
    const at = repository('links');
    write(at, `${PLAN}/${FILE}`, edited.replace(/^ {4}price: .*\n/m, ''));
    git(at, 'commit', '-qam', 'thirty more, one price less');
    const { out } = await lotwright(
      [
        'compare',
        `HEAD~1:${PLAN}`,
        `HEAD:${PLAN}`,
        '--format',
        'markdown',
        '--link-base',
        'https://forge.example/b/',
      ],
      { cwd: at },
    );
    const addresses = [...out.matchAll(/\]\((\S+)#L\d+\)/g)].map(([, address]) => address);
    const file = `${PLAN}/${FILE}`.split('/').map(encodeURIComponent).join('/');
    expect(new Set(addresses)).toEqual(new Set([`https://forge.example/b/${file}`]));
  });

  it("links by the path from the repository's root, whatever folder it is run in", async () => {
    const at = repository('links from below');
    write(at, `${PLAN}/${FILE}`, edited);
    const file = `${PLAN}/${FILE}`.split('/').map(encodeURIComponent).join('/');
    const [above = '', last = ''] = [path.dirname(PLAN), path.basename(PLAN)];
    for (const [folder, ...words] of [
      ['', PLAN],
      [above, last],
      [above, `HEAD:./${last}`],
      [PLAN, '.'],
      [PLAN, 'HEAD:.', '.'],
    ] as const) {
      const { out } = await lotwright(
        [
          'compare',
          ...words,
          '--format',
          'markdown',
          '--base',
          'HEAD',
          '--link-base',
          'https://forge.example/b/',
        ],
        { cwd: path.join(at, folder) },
      );
      const addresses = [...out.matchAll(/\]\((\S+)#L\d+\)/g)].map(([, address]) => address);
      expect(new Set(addresses)).toEqual(new Set([`https://forge.example/b/${file}`]));
    }
  });

  it('reads what lies before a commit in a submodule', async () => {
    const inner = repository('inner');
    const at = path.join(folder, 'outer');
    fs.mkdirSync(at);
    git(at, 'init', '-q', '-b', 'main');
    git(at, 'submodule', 'add', '-q', inner, 'plans');
    git(at, 'commit', '-qm', 'with the plans');
    const plans = path.join(at, 'plans');
    write(plans, `${PLAN}/${FILE}`, edited);
    expect((await compare(plans, PLAN, '--base', 'main')).kinds).toEqual(['bins-changed']);
  });

  it('says what to do in a shallow clone that does not reach back far enough', async () => {
    const at = repository('deep');
    git(at, 'checkout', '-qb', 'work');
    write(at, `${PLAN}/${FILE}`, edited);
    git(at, 'commit', '-qam', 'thirty more');
    git(at, 'checkout', '-q', 'main');
    write(at, 'notes.txt', 'unrelated');
    git(at, 'add', '.');
    git(at, 'commit', '-qm', 'notes');
    const shallow = path.join(folder, 'shallow');
    git(
      folder,
      'clone',
      '-q',
      '--depth',
      '1',
      '--no-single-branch',
      '--branch',
      'work',
      `file://${at}`,
      shallow,
    );
    const { code, err } = await compare(shallow, PLAN, '--base', 'origin/main');
    expect(code).toBe(2);
    expect(err).toContain('git fetch --unshallow');
  });

  it('says what is missing: a base, a revision, a plan, a repository', async () => {
    const at = repository('missing');
    expect((await compare(at, PLAN, '--base', 'nowhere')).err).toContain('git knows no revision nowhere.');
    expect((await compare(at, `nowhere:${PLAN}`, PLAN)).err).toContain('git knows no revision nowhere here.');
    expect((await compare(at, 'HEAD:other', PLAN)).err).toContain('There is no plan in other at HEAD');
    git(at, 'branch', '-qm', 'main', 'trunk');
    expect((await compare(at, PLAN)).err).toContain('Name one with --base');
    const plain = path.join(folder, 'plain');
    write(plain, FILE, text);
    const outside = await compare(plain, 'HEAD:.', '.');
    expect(outside.code).toBe(2);
    expect(outside.err).toContain('This is no git repository.');
    expect((await compare(plain)).err).toContain('This is no git repository.');
  });

  it('compares a plan in the middle of a merge: what stands between the marks is told as a finding', async () => {
    const at = repository('conflict');
    git(at, 'checkout', '-qb', 'ours');
    write(at, `${PLAN}/${FILE}`, edited);
    git(at, 'commit', '-qam', 'thirty more');
    git(at, 'checkout', '-q', 'main');
    write(at, `${PLAN}/${FILE}`, text.replace(/bins: (\d+)/, 'bins: 7'));
    git(at, 'commit', '-qam', 'seven');
    git(at, 'checkout', '-q', 'ours');
    expect(() => git(at, 'merge', '-q', 'main')).toThrow();
    const { out, code } = await lotwright(['compare', PLAN, '--base', 'main', '--fail-on', 'never'], {
      cwd: at,
    });
    expect(code).toBe(0);
    expect(out).toContain('merge-conflict');
  });
});
