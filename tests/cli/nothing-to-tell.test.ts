import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { inMemory, lotwright, root } from './in-process';
import { errorsAgainst } from './schemas';

const EMPTY = `lotwright: 1
season: { name: small, from: 2026-08-01, to: 2027-07-31 }
`;

describe('where there is nothing to tell', () => {
  const given = { files: inMemory({ '/plan/plan.lotplan.yaml': EMPTY }), cwd: '/plan' };

  test.each([
    ['readings', 'The plan has no `readings`.'],
    ['ca-record', 'No sealed room that has begun to be filled has a rule to be held against.'],
  ])('%s ends with 0, a sentence, and empty lists for programs', async (command, sentence) => {
    const told = await lotwright([command], given);
    expect(told).toMatchObject({ code: 0, err: '' });
    expect(told.out).toContain(sentence);
    expect(told.out.split('\n').length).toBe(2);
    const json = await lotwright([command, '--format', 'json'], given);
    expect(json).toMatchObject({ code: 0, err: '' });
    const report = JSON.parse(json.out);
    expect(errorsAgainst(`${command}-report`, report)).toEqual([]);
    expect(report[command === 'readings' ? 'rooms' : 'records']).toEqual([]);
  });

  test('a table has its headings only, and a page for paper is refused', async () => {
    const csv = await lotwright(['ca-record', '--format', 'csv'], given);
    expect(csv.code).toBe(0);
    expect(csv.out).toContain('Room,Fill,Day');
    expect(csv.err).toContain('has a rule to be held against');
    expect((await lotwright(['ca-record', '--format', 'html'], given)).code).toBe(2);
  });
});

describe('the caution before opening', () => {
  const FOLDER = path.join(root, 'sample-plans/first-season');
  const written = Object.fromEntries(
    fs.readdirSync(FOLDER).map((name) => [`/plan/${name}`, fs.readFileSync(path.join(FOLDER, name), 'utf8')]),
  );
  const files = (findings: string) =>
    inMemory(
      Object.fromEntries(
        Object.entries(written).map(([name, text]) => [
          name,
          text.replace(/^policy:$/m, `policy:\n  findings: { ${findings} }`),
        ]),
      ),
    );
  const codesIn = ({ out }: { readonly out: string }): string[] =>
    JSON.parse(out).findings.map(({ code }: { readonly code: string }) => code);

  test('is told, and fails nothing by itself', async () => {
    const all = codesIn(await lotwright(['check', '/plan', '--format', 'json'], { files: files('') }));
    expect(all).toContain('caution-before-opening');
    const others = [...new Set(all)].filter((code) => code !== 'caution-before-opening');
    const before = await lotwright(['check', '/plan', '--fail-on', 'notice'], { files: files('') });
    expect(before).toMatchObject({ code: others.length > 0 ? 1 : 0 });
    // All else is turned off, as by a planner who has seen it.
    const given = { files: files(others.map((code) => `${code}: off`).join(', ')) };
    const { code, out } = await lotwright(['check', '/plan', '--fail-on', 'notice'], given);
    expect(out).toContain('caution-before-opening');
    expect(out).toMatch(/\b1 notice in \d files?\. The caution alone fails no check\.\n$/);
    expect(code).toBe(0);
    const json = await lotwright(['check', '/plan', '--fail-on', 'notice', '--format', 'json'], given);
    expect(JSON.parse(json.out)).toMatchObject({ failed: false, counts: { notices: 1 } });
    for (const command of ['windows', 'rooms', 'gas'])
      expect(await lotwright([command, '/plan', '--fail-on', 'notice'], given)).toMatchObject({
        code: 0,
        err: '',
      });
    // Whoever makes more of it than a notice means it.
    const raised = { files: files('caution-before-opening: warning') };
    expect((await lotwright(['check', '/plan', '--fail-on', 'warning'], raised)).code).toBe(1);
  });
});

describe('what was not understood', () => {
  test('help for a command that there is not says so first', async () => {
    for (const [asked, hint] of [
      ['widows', 'Nearest: windows.'],
      ['nosuchthing', 'There are: check, rooms, '],
    ] as const) {
      const { code, out, err } = await lotwright(['help', asked]);
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(err).toMatch(new RegExp(`^lotwright: There is no command "${asked}"\\. ${hint}`));
    }
    expect(await lotwright(['help', 'windows'])).toMatchObject({ code: 0, err: '' });
    expect((await lotwright(['help'])).out).toContain('lotwright check plans/2026');
  });

  test.each(['--good-across', '--draws'])('%s of no season is told what was expected', async (option) => {
    const { code, err } = await lotwright(['release', 'sample-plans/first-season', option, '0']);
    expect(code).toBe(2);
    expect(err).toContain('Write a whole number, 1 or more, as 4.');
  });
});
