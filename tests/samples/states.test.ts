import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { type Day, formatDay, parseDay } from '../../src/plan/dates';
import { asOf, lastRecordedDay, withRecords } from '../../src/plan/known';
import { readPlan } from '../../src/plan/read';
import type { CheckReport } from '../../src/report/schemas';
import { statusReport } from '../../src/report/status-report';
import { lotwright, root } from '../cli/in-process';
import { seasonRecords } from '../generate/season-records';
import { planFiles, STATES, stateFiles } from '../generate/season-states';

const SAMPLES = path.join(root, 'sample-plans');

function committed(name: string): { path: string; text: string }[] {
  const folder = path.join(SAMPLES, name);
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((file) => file.replaceAll('\\', '/'))
    .filter((file) => /\.(yaml|csv)$/.test(file))
    .sort()
    .map((file) => ({
      path: file,
      text: readFileSync(path.join(folder, file), 'utf8').replaceAll('\r\n', '\n'),
    }));
}

function plan(name: string) {
  return readPlan(committed(name).filter((file) => file.path.endsWith('.lotplan.yaml')));
}

describe.each(STATES)('the sample season $name', (state) => {
  it('is what the tool writes', () => {
    const written = stateFiles(state).map((file) => [file.path, file.text]);
    expect(Object.fromEntries(committed(state.name).map((file) => [file.path, file.text]))).toEqual(
      Object.fromEntries(written),
    );
  });

  it('reads without a problem and gives no error and no warning', () => {
    const read = plan(state.name);
    expect(read.problems).toEqual([]);
    const grave = findingsOf(computeSeason(read, { courses: true })).filter(
      ({ severity }) => severity !== 'notice',
    );
    expect(grave.map(({ code, message }) => `${code}: ${message}`)).toEqual([]);
  });

  it('gives no error and no warning with what was read in its rooms either', async () => {
    const { out, code } = await lotwright(['check', `sample-plans/${state.name}`, '--format', 'json']);
    const report: CheckReport = JSON.parse(out);
    expect([code, report.counts.errors, report.counts.warnings]).toEqual([0, 0, 0]);
    const read = report.findings.filter(({ family }) => family === 'readings');
    expect(read.map((one) => one.code)).toEqual([]);
  });

  it('has a status that reads as it did', async () => {
    const words = ['status', `sample-plans/${state.name}`, '--as-of', formatDay(state.until)];
    const { out, err, code } = await lotwright(words);
    expect([code, err]).toEqual([0, '']);
    await expect(out).toMatchFileSnapshot(path.join(root, `tests/cli/golden/status-${state.name}.txt`));
  });

  it('can be asked for US units', async () => {
    const { out } = await lotwright([
      'status',
      `sample-plans/${state.name}`,
      '--units',
      'us',
      '--format',
      'json',
    ]);
    expect(JSON.parse(out).units).toBe('us');
  });
});

describe('a week taken into the sample season in the middle of harvest', () => {
  it('has rows for every table, and all of them can be taken', async () => {
    for (const [table, file] of [
      ['weighbridge', 'weighbridge'],
      ['cold-store-log', 'cold-store-log'],
      ['packing-line', 'packing-line'],
      ['invoices', 'invoices'],
    ]) {
      const { code, out } = await lotwright([
        'take-in',
        table ?? '',
        `sample-plans/mid-harvest/in/${file}.csv`,
        'sample-plans/mid-harvest',
      ]);
      expect(code, out).toBe(0);
      expect(out).toMatch(/\d+ changes?\. Nothing is written yet/);
    }
  });
});

/** What places and texts of a plan are not part of a result. */
const PLACES = new Set([
  'at',
  'places',
  'origin',
  'files',
  'references',
  'problems',
  'allowances',
  'file',
  'line',
]);

function withoutPlaces(value: unknown): string {
  return JSON.stringify(value, (key, inner: unknown) => {
    if (PLACES.has(key)) return undefined;
    return inner instanceof Map ? [...inner] : inner;
  });
}

describe('the plan as it was known on a day', () => {
  const march = plan('in-march');
  const first = parseDay('2026-08-25') ?? 0;
  const last = lastRecordedDay(march) ?? 0;
  const days = Array.from({ length: last - first + 1 }, (_, index) => first + index);
  const records = seasonRecords();
  /** The plan from whose text all that was recorded later is left out. */
  const deleted = (day: Day) =>
    readPlan(planFiles(day, 'on a day', records).map((file) => ({ path: file.path, text: file.text })));

  it('holds on every day what it holds without the later records', () => {
    expect(days.length).toBeGreaterThan(190);
    for (const day of days) {
      const known = withRecords(asOf(march, day));
      const without = withRecords(asOf(deleted(day), day));
      for (const map of ['lots', 'fills', 'progress', 'samples', 'packed', 'sales'] as const)
        expect(withoutPlaces(known[map]), `${formatDay(day)} ${map}`).toBe(withoutPlaces(without[map]));
      expect(lastRecordedDay(known) ?? 0, formatDay(day)).toBeLessThanOrEqual(day);
    }
  });

  const season = (of: ReturnType<typeof readPlan>, day: Day) =>
    computeSeason(asOf(of, day), { courses: true, seed: 1 });

  // Every twentieth day, and the days on which much happens.
  const busy = [
    '2026-09-10',
    '2026-09-19',
    '2026-09-21',
    '2026-10-16',
    '2026-11-09',
    '2027-01-04',
    '2027-02-22',
  ];
  const some = [
    ...days.filter((_, index) => index % 20 === 0),
    ...busy.flatMap((text) => parseDay(text) ?? []),
  ];

  it('gives the same status, windows, schedule and findings as without the later records', () => {
    for (const day of some) {
      const [known, without] = [season(march, day), season(deleted(day), day)];
      const of = (one: ReturnType<typeof season>) => ({
        status: { ...statusReport(one, day), plan: undefined },
        windows: [...one.keeping].map(([id, { window }]) => [
          id,
          window?.earliest.week,
          window?.bestBefore.week,
          window?.latest.week,
        ]),
        schedule: one.release?.result.schedule,
        findings: findingsOf(one).map(({ code, message }) => `${code}: ${message}`),
      });
      expect(withoutPlaces(of(known)), formatDay(day)).toBe(withoutPlaces(of(without)));
    }
  });

  it('has every bin and carton once, on every fourth day', () => {
    for (const day of days.filter((_, index) => index % 4 === 0)) {
      const known = computeSeason(asOf(march, day), { release: 'none' });
      const { stock, crop } = statusReport(known, day);
      for (const line of stock.rooms)
        expect(line.binsPacked + line.binsThere + line.binsNotRecorded).toBe(line.binsIn);
      for (const line of stock.elsewhere) {
        expect(line.inRooms + line.packedFromField + line.elsewhere).toBe(line.received);
        expect(line.elsewhere).toBeGreaterThanOrEqual(0);
      }
      for (const line of stock.cartons) expect(line.inStock).toBeGreaterThanOrEqual(0);
      for (const line of crop.varieties) expect(line.received + line.toCome).toBe(line.expected);
    }
  });
});
