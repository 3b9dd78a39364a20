import { describe, expect, test } from 'vitest';
import { visibleWidth } from '../../src/report/table';
import { inMemory, lotwright } from './in-process';
import { errorsAgainst } from './schemas';

const COMMANDS = [
  'check',
  'rooms',
  'gas',
  'windows',
  'fill',
  'release',
  'papers',
  'take-in',
  'status',
  'readings',
  'learn',
  'outline',
  'expect',
  'whatif',
  'explain',
  'schema',
];

describe('help', () => {
  test('names every command, shows where to start and says what the exit codes mean', async () => {
    const { code, out } = await lotwright(['--help']);
    expect(code).toBe(0);
    for (const command of COMMANDS) expect(out).toMatch(new RegExp(`^  ${command}\\b`, 'm'));
    expect(out).toContain('lotwright check plans/2026');
    for (const exit of ['  0   ', '  1   ', '  2   ']) expect(out).toContain(exit);
  });

  test.each(COMMANDS)('of %s has examples and fits the page', async (command) => {
    const { code, out } = await lotwright([command, '--help']);
    expect(code).toBe(0);
    expect(out).toContain(`lotwright ${command}`);
    expect(out).toContain('Examples:');
    expect(Math.max(...out.split('\n').map(visibleWidth))).toBeLessThanOrEqual(100);
  });

  test.each([
    'check',
    'compare',
    'explain',
    'fill',
    'gas',
    'learn',
    'readings',
    'sampling',
    'windows',
    'release',
    'papers',
    'status',
    'expect',
    'whatif',
    'ca-record',
    'take-in',
  ])('of %s, which speaks of opening rooms, says what comes first', async (command) => {
    const { out } = await lotwright([command, '--help']);
    expect(out.replace(/\s+/g, ' ')).toContain(
      'read oxygen and carbon dioxide, both, with a calibrated instrument',
    );
  });

  test('the version is printed', async () => {
    expect(await lotwright(['--version'])).toEqual({ code: 0, out: '9.8.7\n', err: '' });
  });
});

describe('wrong usage ends with exit code 2 and prints nothing on the output', () => {
  test.each([
    [['chekc'], 'Did you mean check?'],
    [
      ['check', '--format', 'xml'],
      'Allowed choices are text, lines, json, sarif, annotations, code-quality.',
    ],
    [['check', '--fail-on', 'fatal'], 'Allowed choices are error, warning, notice.'],
    [['rooms', '--units', 'imperial'], 'Allowed choices are metric, us.'],
    [['windows', '--today', '2026-02-30'], 'Write a calendar date, as 2026-09-14.'],
    [['release', '--gap', '-1'], 'Write a number above 0'],
    [['release', '--time-limit', 'long'], 'Write a number above 0'],
    [['check', '--seed', '1.5'], 'Write a whole number'],
    [['gas', '--crop', '+10'], 'Write a change in per cent, as +10% or -5%.'],
    [['sampling', '--weeks', '0'], 'Write a whole number, 1 or more, as 4.'],
    [['explain'], "missing required argument 'thing'"],
    [['schema', 'chek-report'], 'Nearest: check-report.'],
    [[], 'Usage: lotwright'],
  ])('%j', async (words, message) => {
    const { code, out, err } = await lotwright(words, { files: inMemory({}), cwd: '/' });
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(message);
  });
});

test('a wrong option suggests one that is spelled alike, never an unrelated one', async () => {
  const alike = await lotwright(['check', '--fail-no', 'error']);
  expect(alike.err).toContain('Did you mean --fail-on?');
  for (const option of ['--sort', '--month', '--formula']) {
    const { code, err } = await lotwright(['rooms', option]);
    expect([code, err]).toEqual([2, `error: unknown option '${option}'\n`]);
  }
});

describe('schemas', () => {
  test('are listed, as text and as JSON that fits its own schema', async () => {
    const text = await lotwright(['schema']);
    expect(text.out).toMatch(/^check-report\s+Printed by `lotwright check --format json`\.$/m);
    const json = await lotwright(['schema', '--format', 'json']);
    expect(errorsAgainst('schema-list-report', JSON.parse(json.out))).toEqual([]);
    expect(JSON.parse(json.out).schemas.map(({ name }: { name: string }) => name)).toContain('lot-plan');
  });

  test('are printed as they are published', async () => {
    const { code, out } = await lotwright(['schema', 'release-report']);
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ title: 'Lotwright release report' });
  });
});
