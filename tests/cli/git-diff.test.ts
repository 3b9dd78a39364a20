import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import esbuild from 'esbuild';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { outlineOf } from '../../src/plan/outline';
import { plainValue } from '../../src/plan/text/nodes';
import { parseChunk } from '../../src/plan/text/parse';
import { inMemory, lotwright, root } from './in-process';
import { errorsAgainst } from './schemas';

/** Real repositories, with the program as git calls it. */

let folder = '';
let program = '';

beforeAll(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright git ö-'));
  program = path.join(folder, 'cli.cjs');
  await esbuild.build({
    absWorkingDir: root,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    alias: { highs: path.join(root, 'node_modules/highs/build/highs.js') },
    define: { LOTWRIGHT_VERSION: '"9.8.7"' },
    logLevel: 'error',
    entryPoints: ['src/cli/main.ts'],
    outfile: program,
  });
});
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

function git(repository: string, ...words: string[]): string {
  return execFileSync('git', ['-c', 'user.name=planner', '-c', 'user.email=planner@example.org', ...words], {
    cwd: repository,
    encoding: 'utf8',
    env: { ...process.env, GIT_CONFIG_GLOBAL: os.devNull, GIT_CONFIG_SYSTEM: os.devNull },
  });
}

function repository(name: string): string {
  const at = path.join(folder, name);
  fs.mkdirSync(at);
  git(at, 'init', '-q');
  fs.writeFileSync(path.join(at, '.gitattributes'), '*.lotplan.yaml diff=lotplan\n');
  git(at, 'config', 'diff.lotplan.textconv', `"${process.execPath}" "${program}" outline`);
  return at;
}

const LOTS = `lotwright: 1
lots:
  # the river block
  L2: { variety: Gala, picked: 2026-09-07, bins: 100 }
  L10: { variety: Gala, picked: 2026-09-09, bins: 80, maturity: { firmness: 78 N } }
`;

/** Lines taken out and put in. */
function changed(diff: string): string[] {
  return diff.split('\n').filter((line) => /^[-+](?![-+])/.test(line));
}

describe('git diff on plan files', () => {
  it('reads as changes of the plan, in a folder with spaces and letters beyond ASCII', () => {
    const at = repository('Ernte für 2026');
    const file = path.join(at, 'äpfel lots.lotplan.yaml');
    fs.writeFileSync(file, LOTS);
    git(at, 'add', '.');
    git(at, 'commit', '-qm', 'first');
    fs.writeFileSync(
      file,
      `lots:
  L10:
    picked: 2026-09-09 # as the estimate of August
    variety: 'Gala'
    bins: 96
    maturity: { firmness: 78 N }
  L2: { bins: 100, variety: Gala, picked: 2026-09-07 }
lotwright: 1
`,
    );
    expect(changed(git(at, 'diff'))).toEqual(['-lots L10 bins: 80', '+lots L10 bins: 96']);
    git(at, 'commit', '-qam', 'second');
    expect(changed(git(at, 'log', '-p', '-1'))).toEqual(['-lots L10 bins: 80', '+lots L10 bins: 96']);
    expect(changed(git(at, 'diff', '--no-textconv', 'HEAD~1')).length).toBeGreaterThan(8);
  });

  it('says nothing where entries were only moved, and shows conflict marks as they stand', () => {
    const at = repository('moved');
    const file = path.join(at, 'lots.lotplan.yaml');
    fs.writeFileSync(file, LOTS);
    git(at, 'add', '.');
    git(at, 'commit', '-qm', 'first');
    const lines = LOTS.split('\n');
    fs.writeFileSync(file, [lines[0], lines[1], lines[4], '', lines[3], '# a remark', ''].join('\n'));
    expect(changed(git(at, 'diff'))).toEqual([]);
    fs.writeFileSync(file, `${LOTS}<<<<<<< ours\n  L3: { bins: 1 }\n=======\n>>>>>>> theirs\n`);
    expect(git(at, 'diff')).toContain('+<<<<<<< ours');
  });
});

describe('the outline of a file', () => {
  it('has a line for each value, in the order of the numbers in names', () => {
    expect(outlineOf(LOTS).split('\n')).toEqual([
      'lots L2 bins: 100',
      'lots L2 picked: 2026-09-07',
      'lots L2 variety: Gala',
      'lots L10 bins: 80',
      'lots L10 maturity firmness: 78 N',
      'lots L10 picked: 2026-09-09',
      'lots L10 variety: Gala',
      'lotwright: 1',
      '',
    ]);
  });

  it('has numbers as they are written, and tells text from them', () => {
    const lines = (value: string) => outlineOf(`demand:\n  d: { price: ${value} }\n`).trimEnd();
    expect(lines('24.00')).toBe('demand d price: 24.00');
    expect(lines('24')).toBe('demand d price: 24');
    expect(lines("'24'")).toBe('demand d price: "24"');
    expect(lines("''")).toBe('demand d price: ""');
    expect(lines('')).toBe('demand d price:');
    expect(lines('"true"')).toBe('demand d price: "true"');
    expect(lines('true')).toBe('demand d price: true');
    expect(lines("'24 EUR'")).toBe('demand d price: 24 EUR');
    expect(lines('24 EUR')).toBe('demand d price: 24 EUR');
  });

  it('tells apart whatever values the plan tells apart', () => {
    const number = fc.double({ noNaN: true, noDefaultInfinity: true });
    const scalar = fc.oneof(
      number.map(String),
      number.map((value) => JSON.stringify(String(value))),
      fc.constantFrom('true', '"true"', 'null', '"null"', '~', '"~"', '""', '.5', '".5"', '0x1F', '"0x1F"'),
      fc.stringMatching(/^[A-Za-z][A-Za-z ]{0,8}[A-Za-z]$/),
      fc.string({ maxLength: 8 }).map((text) => JSON.stringify(text)),
    );
    fc.assert(
      fc.property(scalar, scalar, (one, other) => {
        const nodeOf = (text: string) => parseChunk(`a: ${text}\n`).root;
        const [a, b] = [nodeOf(one), nodeOf(other)];
        if (!a || !b || JSON.stringify(plainValue(a)) === JSON.stringify(plainValue(b))) return;
        expect(outlineOf(`a: ${one}\n`)).not.toBe(outlineOf(`a: ${other}\n`));
      }),
    );
  });

  it('is printed as JSON by its published schema too', async () => {
    const { out } = await lotwright(['outline', 'lots.lotplan.yaml', '--format', 'json'], {
      files: inMemory({ '/lots.lotplan.yaml': LOTS }),
      cwd: '/',
    });
    const report: { lines: string[] } = JSON.parse(out);
    expect(errorsAgainst('outline-report', report)).toEqual([]);
    expect(report.lines).toEqual(outlineOf(LOTS).trimEnd().split('\n'));
  });

  it('is of any text whatever, and of its own outline-like text too', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        expect(typeof outlineOf(text)).toBe('string');
        expect(typeof outlineOf(`${LOTS}${text}`)).toBe('string');
      }),
    );
  });
});
