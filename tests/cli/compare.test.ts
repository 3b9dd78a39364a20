import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { visibleWidth } from '../../src/report/table';
import { lotwright, root } from './in-process';
import { errorsAgainst } from './schemas';

/** A folder whose name needs quoting everywhere. */
const FOLDER = 'pläne 2026';
let repository = '';

function git(...words: string[]): string {
  return execFileSync('git', words, { cwd: repository, encoding: 'utf8', stdio: 'pipe' });
}

function edit(file: string, from: string, to: string): void {
  const at = path.join(repository, FOLDER, file);
  const text = fs.readFileSync(at, 'utf8');
  expect(text).toContain(from);
  fs.writeFileSync(at, text.replace(from, to));
}

function commit(message: string): void {
  git('add', '--all');
  git('-c', 'user.name=Planner', '-c', 'user.email=planner@example.org', 'commit', '-qm', message);
}

const compare = (...words: string[]) => lotwright(['compare', ...words], { cwd: repository });

beforeAll(() => {
  repository = fs.realpathSync(fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright compare ')));
  fs.cpSync(path.join(root, 'sample-plans/first-season'), path.join(repository, FOLDER), { recursive: true });
  git('init', '-q', '-b', 'main');
  commit('The season as planned');
  git('checkout', '-qb', 'harvest');
  edit('fruit.lotplan.yaml', 'G5: 81', 'G5: 60');
  commit('Fewer bins of G5');
  git('mv', `${FOLDER}/fruit.lotplan.yaml`, `${FOLDER}/harvest.lotplan.yaml`);
  edit('orrowby.lotplan.yaml', 'cartons: 110', 'cartons: 111');
});

afterAll(() => fs.rmSync(repository, { recursive: true, force: true }));

describe('lotwright compare', () => {
  test('takes the commit at which the work left its base, and the folder as it stands', async () => {
    const { out, err, code } = await compare(FOLDER);
    expect(err).toBe('');
    expect(code).toBe(0);
    const lines = out.split('\n');
    expect(lines[0]).toMatch(/^Worse: 139 more cartons of Gala first short \(0 → 139\)/);
    expect(lines[1]).toBe('Because of: lot G5 in R2-gala: 81 → 60 bins');
    expect(out).toMatch(/From main \([0-9a-f]{10}\):pläne 2026 to pläne 2026: 2 changes/);
    expect(out).toContain('Before anyone goes in, read oxygen and carbon dioxide,');
    expect(Math.max(...lines.map(visibleWidth))).toBeLessThanOrEqual(100);
  });

  test('in the folder of the plan needs no words at all', async () => {
    const inside = await lotwright(['compare'], { cwd: path.join(repository, FOLDER) });
    expect(inside.out).toContain('Because of: lot G5 in R2-gala: 81 → 60 bins');
  });

  test('takes revisions on either side, files moved or not', async () => {
    const { out } = await compare(`main:${FOLDER}`, `harvest:${FOLDER}`);
    expect(out).toContain('Because of: lot G5 in R2-gala: 81 → 60 bins');
    const moved = await compare(`HEAD:${FOLDER}`);
    expect(moved.out).toMatch(/^Nothing follows for rooms|^Nothing that follows/);
    expect(moved.out).toContain('demand golden-second: 770 → 777 cartons');
    const turned = await compare(FOLDER, `main:${FOLDER}`);
    expect(turned.out).toContain('Better: 139 fewer cartons of Gala first short (139 → 0)');
  });

  test('fails for what is as grave as asked', async () => {
    const code = async (failOn: string) => (await compare(FOLDER, '--fail-on', failOn)).code;
    expect(await code('error')).toBe(0);
    expect(await code('short')).toBe(1);
    expect(await code('warning')).toBe(1);
    expect(await code('never')).toBe(0);
  });

  test('prints JSON that fits its published schema', async () => {
    for (const units of ['metric', 'us']) {
      const { out } = await compare(FOLDER, '--format', 'json', '--units', units);
      const report = JSON.parse(out);
      expect(errorsAgainst('compare-report', report)).toEqual([]);
      expect(report.changes[0]).toMatchObject({ kind: 'bins-changed', before: { value: 81, unit: 'bins' } });
      expect(report.consequences[0].causes).toEqual({
        parts: [{ edits: [0], part: expect.closeTo(139.39, 1) }],
        together: expect.closeTo(0, 6),
        onlyTogether: false,
      });
    }
  });

  test('prints a comment with links, and nothing where nothing has changed', async () => {
    const { out } = await compare(FOLDER, '--format', 'markdown', '--link-base', 'https://forge.example/x/');
    expect(out.split('\n')[0]).toBe('<!-- lotwright compare pläne 2026 -->');
    expect(out).toContain('(https://forge.example/x/pl%C3%A4ne%202026/harvest.lotplan.yaml#L76)');
    const same = await compare(FOLDER, FOLDER, '--format', 'markdown');
    expect(same).toEqual({ code: 0, out: '', err: '' });
    const text = await compare(FOLDER, FOLDER);
    expect(text.out).toBe(`Nothing has changed from ${FOLDER} to ${FOLDER}.\n`);
  });

  test.each([
    [['nowhere'], 'There is no folder nowhere.'],
    [[`mian:${FOLDER}`], 'git knows no revision mian here.'],
    [['main:elsewhere'], 'There is no plan in elsewhere at main'],
    [['main:../elsewhere', FOLDER], '../elsewhere is not in this repository.'],
    [[FOLDER, '--base', 'mian'], 'git knows no revision mian.'],
    [[FOLDER, '--base', '--all'], 'git knows no revision --all.'],
  ])('%j cannot run and says why', async (words, message) => {
    const { code, err, out } = await compare(...words);
    expect(code).toBe(2);
    expect(err).toContain(message);
    expect(out).toBe('');
  });

  test('outside a repository two folders can be compared', async () => {
    const outside = fs.realpathSync(fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright outside ')));
    try {
      fs.cpSync(path.join(root, 'sample-plans/first-season'), path.join(outside, 'a'), { recursive: true });
      fs.cpSync(path.join(repository, FOLDER), path.join(outside, 'b'), { recursive: true });
      const { out } = await lotwright(['compare', 'a', 'b'], { cwd: outside });
      expect(out).toContain('From a to b: 2 changes');
      const alone = await lotwright(['compare', 'a'], { cwd: outside });
      expect(alone.code).toBe(2);
      expect(alone.err).toContain('This is no git repository.');
      const revision = await lotwright(['compare', 'main:a', 'b'], { cwd: outside });
      expect(revision.err).toContain('This is no git repository.');
    } finally {
      fs.rmSync(outside, { recursive: true, force: true });
    }
  });

  test('prints what the README shows', async () => {
    const demo = fs.realpathSync(fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright readme ')));
    try {
      const run = (...words: string[]) => execFileSync('git', words, { cwd: demo, stdio: 'pipe' });
      const plan = path.join(demo, 'plans/2026');
      fs.cpSync(path.join(root, 'sample-plans/first-season'), plan, { recursive: true });
      run('init', '-q', '-b', 'main');
      run('add', '--all');
      run(
        '-c',
        'user.name=Planner',
        '-c',
        'user.email=planner@example.org',
        'commit',
        '-qm',
        'The season as planned',
      );
      const change = (file: string, from: string, to: string) => {
        const text = fs.readFileSync(path.join(plan, file), 'utf8');
        fs.writeFileSync(path.join(plan, file), text.replace(from, to));
      };
      change('fruit.lotplan.yaml', 'G4: 78, G5: 81, G6: 76', 'G4: 78, G6: 76');
      change('fruit.lotplan.yaml', 'lots: { G1: 54,', 'lots: { G5: 81, G1: 54,');
      change('orrowby.lotplan.yaml', 'cartons: 390', 'cartons: 420');
      const { out } = await lotwright(['compare', 'main:plans/2026'], { cwd: demo });
      const readme = fs.readFileSync(path.join(root, 'README.md'), 'utf8');
      const shown = /^\$ lotwright compare main:plans\/2026\n([\s\S]*?)\n {2}\.\.\.$/m.exec(readme)?.[1];
      // The commit's name is another one each time.
      const asAlways = (text: string | undefined) => text?.replace(/\([0-9a-f]{10}\)/, '()');
      expect(asAlways(out)?.startsWith(asAlways(shown) ?? 'nothing')).toBe(true);
    } finally {
      fs.rmSync(demo, { recursive: true, force: true });
    }
  });

  test('explains itself', async () => {
    const { out, code } = await compare('--help');
    expect(code).toBe(0);
    for (const word of ['error', 'closed', 'short', 'overload', 'warning', 'value', 'shift'])
      expect(out).toMatch(new RegExp(`^ {2}${word} {2,}`, 'm'));
    expect(out).toContain('Exit codes:');
    expect(Math.max(...out.split('\n').map(visibleWidth))).toBeLessThanOrEqual(110);
  });
});
