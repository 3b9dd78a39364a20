import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { paintFor } from '../../src/cli/colour';
import { visibleWidth } from '../../src/report/table';
import { lotwright, root } from './in-process';
import { errorsAgainst } from './schemas';

const FIRST = 'sample-plans/first-season';

/** Every command that prints a report on a plan, with the report it prints. */
const COMMANDS: readonly (readonly [words: readonly string[], report: string])[] = [
  [['check'], 'check-report'],
  [['rooms'], 'rooms-report'],
  [['gas'], 'gas-report'],
  [['gas', '--room', 'R2'], 'course-report'],
  [['gas', '--calendar', 'weeks', '--crop', '+10%'], 'plant-report'],
  [['gas', '--calendar', 'days'], 'plant-report'],
  [['windows'], 'windows-report'],
  [['windows', '--room', 'R2'], 'windows-report'],
  [['fill'], 'fill-report'],
  [['release'], 'release-report'],
  [['release', '--reasons'], 'release-report'],
  [['release', '--draws', '200'], 'release-report'],
  [['release', '--good-across', '6', '--draws', '20'], 'release-report'],
  [['explain', 'R2'], 'explain-report'],
  [['explain', 'R2.free-gas-volume'], 'explain-report'],
  [['explain', 'G4'], 'explain-report'],
  [['explain', 'Gala'], 'explain-report'],
  [['explain', 'gala-own'], 'explain-report'],
  [['explain', 'S1'], 'explain-report'],
];

const nameOf = (words: readonly string[]) => words.join('-').toLowerCase().replace(/[+%]/g, '');

describe('the first season', () => {
  test.each(COMMANDS)('%j reads as it did, on one page', async (words) => {
    const { out, code } = await lotwright([...words, FIRST]);
    expect(code).toBe(0);
    expect(Math.max(...out.split('\n').map(visibleWidth))).toBeLessThanOrEqual(100);
    await expect(out).toMatchFileSnapshot(path.join(root, `tests/cli/golden/${nameOf(words)}.txt`));
  });
});

describe.each(['first-season', 'us-units', 'full-season', 'with-mistakes'])('%s', (sample) => {
  const folder = `sample-plans/${sample}`;
  const onAnyPlan = COMMANDS.filter(
    ([words]) => !words.includes('--room') && (words[0] !== 'explain' || words[1] === 'Gala'),
  );

  test.each(onAnyPlan)('%j prints JSON that fits its published schema', async (words, schema) => {
    const { out } = await lotwright([...words, folder, '--format', 'json']);
    expect(errorsAgainst(schema, JSON.parse(out))).toEqual([]);
  });

  test.each(onAnyPlan)('%j keeps to the page', async (words) => {
    const { out } = await lotwright([...words, folder]);
    expect(out.split('\n').filter((line) => visibleWidth(line) > 100)).toEqual([]);
  });
});

describe('colour', () => {
  const colourCode = '\u001B[';

  test('is only in the text, which reads the same without it', async () => {
    const paint = paintFor(true);
    for (const [words] of COMMANDS) {
      const coloured = await lotwright([...words, FIRST], { paint });
      const plain = await lotwright([...words, FIRST]);
      expect(plain.out).not.toContain(colourCode);
      expect(coloured.out.replaceAll(new RegExp(`${colourCode.replace('[', '\\[')}\\d+m`, 'g'), '')).toBe(
        plain.out,
      );
    }
  });

  test('is never in JSON', async () => {
    const { out } = await lotwright(['check', FIRST, '--format', 'json'], { paint: paintFor(true) });
    expect(out).not.toContain(colourCode);
  });
});

describe('units', () => {
  interface Measured {
    readonly value: number;
    readonly unit: string;
  }
  const reportIn = async (units: string, command: string) =>
    JSON.parse((await lotwright([command, FIRST, '--format', 'json', '--units', units])).out);

  // NIST Special Publication 811 (2008), appendix B; one ton of refrigeration is 12,000 BTU an hour.
  const toMetric: Readonly<Record<string, (value: number) => Measured>> = {
    ft3: (value) => ({ value: value * 0.028316846592, unit: 'm3' }),
    lb: (value) => ({ value: value * 0.00045359237, unit: 't' }),
    TR: (value) => ({ value: value * 3.51685284, unit: 'kW' }),
    'lb/day': (value) => ({ value: value * 0.45359237, unit: 'kg/day' }),
    '°F': (value) => ({ value: ((value - 32) * 5) / 9, unit: '°C' }),
  };

  /** Every measure in a report with the path it stands at. */
  function measuresIn(value: unknown, at = ''): [string, Measured][] {
    if (typeof value !== 'object' || value === null) return [];
    if ('value' in value && 'unit' in value) return [[at, value as Measured]];
    return Object.entries(value).flatMap(([key, inner]) => measuresIn(inner, `${at}/${key}`));
  }

  test.each(['rooms', 'gas', 'windows'])('%s has the same values in both systems', async (command) => {
    const metric = new Map(measuresIn(await reportIn('metric', command)));
    const us = measuresIn(await reportIn('us', command));
    expect(us.length).toBe(metric.size);
    expect(us.length).toBeGreaterThan(4);
    for (const [at, { value, unit }] of us) {
      const back = toMetric[unit]?.(value) ?? { value, unit };
      const mass = back.unit === 't' && metric.get(at)?.unit === 'kg' ? 1000 : 1;
      expect(back.value * mass, at).toBeCloseTo(metric.get(at)?.value ?? Number.NaN, 5);
    }
  });

  test('a plan in US units shows its results in them', async () => {
    const { out } = await lotwright(['rooms', 'sample-plans/us-units']);
    expect(out).toContain('ft³');
    expect(out).not.toContain('m³');
    const metric = await lotwright(['rooms', 'sample-plans/us-units', '--units', 'metric']);
    expect(metric.out).toContain('m³');
  });
});

describe('exit codes', () => {
  test('0 where nothing is at or above the failing severity', async () => {
    expect((await lotwright(['check', FIRST])).code).toBe(0);
  });

  test('1 where something is, and other reports say that figures may be wrong', async () => {
    expect((await lotwright(['check', 'sample-plans/with-mistakes'])).code).toBe(1);
    const rooms = await lotwright(['rooms', 'sample-plans/with-mistakes']);
    expect(rooms.code).toBe(1);
    expect(rooms.err).toMatch(/The plan has \d+ errors?, .*lotwright check/);
  });

  test('follow --fail-on', async () => {
    const report = JSON.parse(
      (await lotwright(['check', 'sample-plans/with-mistakes', '--format', 'json'])).out,
    );
    const { warnings, notices } = report.counts;
    expect(warnings + notices).toBeGreaterThan(0);
    const first = JSON.parse((await lotwright(['check', FIRST, '--format', 'json'])).out);
    const strict = await lotwright(['check', FIRST, '--fail-on', 'notice']);
    expect(strict.code).toBe(first.findings.length > 0 ? 1 : 0);
  });

  test('2 for a thing that is not there, with the nearest names', async () => {
    const { code, out, err } = await lotwright(['explain', 'R2.fre-gas-volume', FIRST]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('R2.free-gas-volume');
  });
});

describe('explain', () => {
  test("a finding's code shows its page and where the plan has it", async () => {
    const check = JSON.parse(
      (await lotwright(['check', 'sample-plans/with-mistakes', '--format', 'json'])).out,
    );
    const { code, place } = check.findings[0];
    const { out } = await lotwright(['explain', code, 'sample-plans/with-mistakes']);
    expect(out).toContain(`finding ${code}`);
    expect(out).toContain(`${place.file}:${place.line}:${place.column}`);
    const json = JSON.parse(
      (await lotwright(['explain', code, 'sample-plans/with-mistakes', '--format', 'json'])).out,
    );
    expect(json.page.length).toBeGreaterThan(100);
  });
});
