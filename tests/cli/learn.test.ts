import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { formatDay, parseDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import type { LearnReport } from '../../src/report/schemas';
import { ordinaryWeather, randomFrom, type Simulation, simulate } from '../learning/simulated-room';
import { inMemory, lotwright, root } from './in-process';
import { errorsAgainst } from './schemas';

const sample = (name: string) =>
  readFileSync(path.join(root, 'sample-plans/first-season', name), 'utf8').replace(
    /^readings:\n(?: .*\n)*/m,
    '',
  );
const FRUIT = sample('fruit.lotplan.yaml');
const PLAN = sample('orrowby.lotplan.yaml');

const RECORDS = `lotwright: 1
readings:
  log: { file: log.csv, columns: { time: Time, room: Room, oxygen: O2, carbon-dioxide: CO2 } }
samples: # of the laboratory
  T1: { lot: G4, fill: R2-gala, taken: 2026-11-03, fruit: 20, firmness: 72.0 N }
  T2: { lot: G4, fill: R2-gala, taken: 2026-12-01, fruit: 20, firmness: 68.1 N }
  T3: { lot: G4, fill: R2-gala, taken: 2026-12-29, fruit: 20, firmness: 64.9 N }
packed:
  P1: { lot: G1, fill: R1-gala, day: 2026-09-22, bins: 40, cartons: { first: 300, second: 160 } }
`;

const TRUE_SHARE = 0.8;
const TRUE_EXCHANGE = 0.06;

/** Hourly readings of R2 for ninety days, as of a room whose fruit breathes at 0.8 of the plan's rate. */
function log(): string {
  const season = computeSeason(
    readPlan([
      { path: 'a.lotplan.yaml', text: FRUIT },
      { path: 'b.lotplan.yaml', text: PLAN },
    ]),
    { release: 'none' },
  );
  const filled = season.filled.get('R2-gala');
  const gasVolumeM3 = filled?.freeGasVolume?.value ?? 0;
  const used = filled?.oxygenUse?.value ?? 0;
  const sensor = { noise: 0.015, resolution: 0.01, scale: 1, driftAMonth: 0.03, spikes: 0.003 };
  const simulation: Simulation = {
    truth: {
      gasVolumeM3,
      referenceRate: (100 * used * 1.05) / gasVolumeM3,
      halfAt: 5,
      share: TRUE_SHARE,
      quotient: 1.05,
      exchange: TRUE_EXCHANGE / gasVolumeM3,
      oxygen: 1.5,
      carbonDioxide: 1.8,
    },
    days: 90,
    everyMinutes: 60,
    scrubbing: 'by level',
    sensors: { oxygen: sensor, carbonDioxide: sensor },
    gaps: 3,
    weather: ordinaryWeather,
  };
  const read = simulate(simulation, randomFrom(3), 1440 * (parseDay('2026-09-30') ?? 0));
  const rows = [...read.times].map((time, row) => {
    const hour = String((time % 1440) / 60).padStart(2, '0');
    const gases = [read.oxygen[row], read.carbonDioxide[row]].map((value) => value?.toFixed(2));
    return `${formatDay(Math.floor(time / 1440))} ${hour}:00,R2,${gases.join(',')}`;
  });
  return ['Time,Room,O2,CO2', ...rows, ''].join('\n');
}

const LOG = log();
/** Fruit that softens so fast that its room has to be opened sooner. */
const SOFT = RECORDS.replace('72.0 N', '66.0 N').replace('68.1 N', '57.0 N').replace('64.9 N', '49.0 N');
const files = (records = RECORDS) =>
  inMemory({
    '/plan/fruit.lotplan.yaml': FRUIT,
    '/plan/orrowby.lotplan.yaml': PLAN,
    '/plan/records.lotplan.yaml': records,
    '/plan/log.csv': LOG,
  });

async function learnJson(...more: string[]): Promise<LearnReport> {
  return learnFrom(files(), ...more);
}

async function learnFrom(given: ReturnType<typeof files>, ...more: string[]): Promise<LearnReport> {
  const { code, out } = await lotwright(['learn', 'plan', ...more, '--format', 'json'], {
    files: given,
    cwd: '/',
  });
  expect(code).toBe(0);
  const report: LearnReport = JSON.parse(out);
  expect(errorsAgainst('learn-report', report)).toEqual([]);
  return report;
}

describe('learn', () => {
  test('tells what readings, samples, packing and receipts teach, by the published schema', async () => {
    const { lessons, notLearned } = await learnJson();
    const kinds = new Set(lessons.map(({ kind }) => kind));
    expect([...kinds].sort()).toEqual(['crop', 'firmness', 'leakage', 'packout', 'respiration']);
    const value = (id: string) => lessons.find((lesson) => lesson.id === id)?.values[0];
    const respiration = value('respiration/R2-gala');
    expect(respiration?.before?.value).toBe(1);
    expect(respiration?.told).toBe(true);
    expect(respiration?.fitted.low.value).toBeLessThan(TRUE_SHARE);
    expect(respiration?.fitted.high.value).toBeGreaterThan(TRUE_SHARE);
    const leak = value('leakage/R2');
    expect(leak?.fitted.low.value).toBeLessThan(TRUE_EXCHANGE);
    expect(leak?.fitted.high.value).toBeGreaterThan(TRUE_EXCHANGE);
    expect(notLearned).toEqual([]);
  });

  test('tells of each what it changes in the plan', async () => {
    const { lessons } = await learnJson();
    const changes = (id: string) => lessons.find((lesson) => lesson.id === id)?.consequences ?? [];
    const of = (id: string, what: string) => changes(id).find((one) => one.what.includes(what));
    const made = of('respiration/R2-gala', 'carbon dioxide given off in store');
    const numbers = [made?.before, made?.after].map((one) => (typeof one === 'object' ? one.value : 0));
    const share = lessons.find(({ id }) => id === 'respiration/R2-gala')?.values[0]?.fitted.value.value ?? 0;
    expect((numbers[1] ?? 0) / (numbers[0] ?? 1)).toBeCloseTo(share, 2);
    expect(of('leakage/R2', 'oxygen that leaks in')).toBeDefined();
    const latest = of('firmness/G4', 'within standard up to');
    expect(String(latest?.after) <= String(latest?.before)).toBe(true);
    expect(changes('packout/G1').length).toBe(2);
    expect(changes('crop/D2').length).toBe(1);
  });

  test('shows one lesson whole: what was seen, what was fitted, what the interval is made of', async () => {
    const { code, out } = await lotwright(['learn', 'plan', '--of', 'respiration/R2-gala', 'firmness/G4'], {
      files: files(),
      cwd: '/',
    });
    expect(code).toBe(0);
    expect(out).toContain('rests differ from one another');
    expect(out).toMatch(/Climb of carbon dioxide at rest, points a day/);
    expect(out).toMatch(/2026-12-29, T3 +64\.9|2026-12-29, T3 +65/);
    expect(out).toContain('If every lesson on firmness is taken');
    expect(out).toContain('with a');
    expect(out).not.toContain('packout/G1');
  });

  test('writes the lessons taken with their source, keeps every comment, and the plan reckons with them', async () => {
    const given = files();
    const words = [
      'learn',
      'plan',
      '--write',
      'respiration/R2-gala',
      'leakage/R2',
      'firmness/G4',
      'packout/G1',
      'crop/D2',
    ];
    const { code, out } = await lotwright(words, { files: given, cwd: '/' });
    expect(code).toBe(0);
    expect(out).toContain('The 5 lessons are in the plan now.');
    const texts = ['fruit', 'orrowby', 'records'].map((name) =>
      String(given.read(`/plan/${name}.lotplan.yaml`)),
    );
    const comments = (text: string) => text.match(/#.*$/gm);
    expect(comments(texts[0] ?? '')).toEqual(comments(FRUIT));
    expect(comments(texts[1] ?? '')).toEqual(comments(PLAN));
    expect(texts[2]).toBe(RECORDS);
    const plan = readPlan(texts.map((text, index) => ({ path: `${index}.lotplan.yaml`, text })));
    expect(plan.problems).toEqual([]);
    const share = plan.fills.get('R2-gala')?.respiration;
    expect(share?.value).toBeCloseTo(TRUE_SHARE, 1);
    expect(share?.origin).toMatchObject({
      source: expect.stringMatching(/^fitted to \d+ rests in readings of R2, 2026-/),
    });
    expect(plan.rooms.get('R2')?.leakInService?.value).toBeGreaterThan(0);
    expect(plan.lots.get('G4')?.ownFirmness?.softening.value).toBeGreaterThan(1);
    expect(plan.lots.get('G1')?.ownPackout?.size).toBe(2);
    expect(plan.lots.get('D2')?.cropShare?.value).toBeLessThan(1.2);
    // Written again, what is there stays as it is.
    const one = await lotwright(['learn', 'plan', '--write', 'respiration/R2-gala'], {
      files: given,
      cwd: '/',
    });
    expect(one.err).toContain('Already there: respiration/R2-gala');
    expect(one.out).toContain('The lesson is in the plan now.');
    expect(given.read('/plan/fruit.lotplan.yaml')).toBe(texts[0]);
    // Learned again from the same records, it comes to the same.
    const again = await lotwright([...words, '--format', 'json'], { files: given, cwd: '/' });
    const report: LearnReport = JSON.parse(again.out);
    for (const { values } of report.lessons)
      for (const { before, fitted } of values)
        expect(Math.abs((before?.value ?? 0) / fitted.value.value - 1)).toBeLessThan(0.03);
  });

  test('tells what a lesson does to windows, weeks, loads and orders, and it comes to that once it is written', async () => {
    const given = files(SOFT);
    const { lessons, together } = await learnFrom(given, '--of', 'firmness/G4', 'respiration/R2-gala');
    const effects = (id: string) => lessons.find((lesson) => lesson.id === id)?.effects ?? [];
    const made = effects('respiration/R2-gala').find(({ kind }) => kind === 'carbon-dioxide');
    expect(made).toMatchObject({ gravity: 'shift' });
    expect(made?.text).toMatch(/^R2-gala: carbon dioxide its fruit gives off .* → /);
    const latest = effects('firmness/G4').find(({ kind }) => kind === 'latest');
    expect(latest?.direction).toBe('worse');
    const week = /must be opened by (\d{4}-W\d\d), \d+ weeks? earlier than/.exec(latest?.text ?? '')?.[1];
    expect(together?.lessons.sort()).toEqual(['firmness/G4', 'respiration/R2-gala']);
    expect(together?.effects.map(({ text }) => text)).toEqual(
      expect.arrayContaining([latest?.text, made?.text]),
    );
    await lotwright(['learn', 'plan', '--write', 'firmness/G4'], { files: given, cwd: '/' });
    const windows = await lotwright(['windows', 'plan', '--format', 'json'], { files: given, cwd: '/' });
    const rooms: { fill: string; latest?: { week: string } }[] = JSON.parse(windows.out).rooms;
    expect(rooms.find(({ fill }) => fill === 'R2-gala')?.latest?.week).toBe(week);
  });

  test('keeps the weeks published before, as the editor keeps those of the schedule it shows', async () => {
    const published = (week: string) =>
      JSON.stringify({ format: 'lotwright-release-report', rooms: [{ fill: 'R2-gala', opens: week }] });
    const given = inMemory({
      '/plan/fruit.lotplan.yaml': FRUIT.replace(/^ {4}open: .*\n/m, ''),
      '/plan/orrowby.lotplan.yaml': PLAN,
      '/plan/records.lotplan.yaml': SOFT,
      '/plan/log.csv': LOG,
      '/late.json': published('2027-W02'),
    });
    const moved = async (...more: string[]) => {
      const { lessons } = await learnFrom(given, '--of', 'firmness/G4', ...more);
      return lessons.flatMap(({ effects }) => effects ?? []);
    };
    const [kept, quick] = [await moved('--keep-weeks', '/late.json'), await moved()];
    // What the room can do is the same; what its orders and the packhouse come to depends on the weeks that are kept.
    const ofWindow = (effects: typeof kept) => effects.filter(({ text }) => text.includes('opened b'));
    expect(ofWindow(kept).length).toBeGreaterThan(0);
    expect(ofWindow(kept)).toEqual(ofWindow(quick));
    const packing = (effects: typeof kept) => effects.filter(({ text }) => text.startsWith('packing:'));
    expect([packing(kept).length, packing(quick).length]).toEqual([0, 1]);
    const missing = await lotwright(['learn', 'plan', '--keep-weeks', '/none.json'], {
      files: given,
      cwd: '/',
    });
    expect(missing).toMatchObject({ code: 2 });
    expect(missing.err).toContain('lotwright release plan --format json');
  });

  test('tells of all lessons that differ together, and of none that do not', async () => {
    const { lessons, together } = await learnJson();
    const differing = lessons.filter(({ values }) => values.some(({ told }) => told)).map(({ id }) => id);
    expect(together?.lessons).toEqual(differing);
    expect(lessons.filter(({ effects }) => effects).map(({ id }) => id)).toEqual(differing);
    const { out } = await lotwright(['learn', 'plan'], { files: files(), cwd: '/' });
    expect(out).toContain('together changes of');
  });

  test('says why nothing can be told of a lesson that is asked for, and ends with 2', async () => {
    const march = path.join(root, 'sample-plans/in-march');
    const { code, err } = await lotwright(['learn', march, '--of', 'respiration/R3-golden']);
    expect(code).toBe(2);
    const told = err.replaceAll(/\s+/g, ' ');
    expect(told).toContain('Nothing can be told of respiration/R3-golden. Carbon dioxide never climbs');
    expect(told).not.toContain('meant');
  });

  test('says which lesson is meant where there is none of the name, and writes nothing', async () => {
    const given = files();
    const { code, err } = await lotwright(['learn', 'plan', '--write', 'respiration/R2-gal'], {
      files: given,
      cwd: '/',
    });
    expect(code).toBe(2);
    expect(err).toContain('Is respiration/R2-gala meant?');
    expect(given.read('/plan/fruit.lotplan.yaml')).toBe(FRUIT);
  });

  test('says of a file that is no text that it cannot be read, and of one without readings that it gives none', async () => {
    const withLog = (log: string) =>
      lotwright(['learn', 'plan'], {
        files: inMemory({
          '/plan/fruit.lotplan.yaml': FRUIT,
          '/plan/orrowby.lotplan.yaml': PLAN,
          '/plan/records.lotplan.yaml': RECORDS,
          '/plan/log.csv': log,
        }),
        cwd: '/',
      });
    const binary = await withLog('T\0i\0m\0e\0,\0R\0');
    expect(binary).toMatchObject({ code: 2, out: '' });
    expect(binary.err).toContain('plan/log.csv could not be read: it is not a UTF-8 text file');
    expect(binary.err).not.toContain('\0');
    for (const nothing of ['', 'Time,Room,O2,CO2\n']) {
      const { code, out, err } = await withLog(nothing);
      expect(code).toBe(0);
      expect(err).toContain('plan/log.csv gives no reading of any room');
      expect(out).toContain('firmness/G4');
    }
  });

  test('of an earlier day knows nothing of later records', async () => {
    const early = await learnJson('--as-of', '2026-11-10');
    const points = early.lessons.find(({ id }) => id === 'firmness/G4')?.series[0]?.points ?? [];
    expect(points.filter(({ seen }) => seen).map(({ about }) => about)).toEqual(['T1']);
    for (const { id, series } of early.lessons)
      if (id.startsWith('respiration'))
        for (const { points: stretch } of series)
          for (const { to } of stretch) expect(to <= '2026-11-10').toBe(true);
  });

  test('offers no lesson where a receipt teaches nothing of the other lots, and says what lessons come of', async () => {
    const text =
      'lotwright: 1\nlots:\n  G1: { variety: Gala, picked: 2026-09-01, bins: 180, received: 176 }\n  F1: { variety: Fuji, picked: 2026-10-10, bins: 160 }\n';
    const { out } = await lotwright(['learn', 'plan'], {
      files: inMemory({ '/plan/a.lotplan.yaml': text }),
      cwd: '/',
    });
    expect(out.replace(/\s+/g, ' ')).toContain('What is recorded teaches nothing that would change the plan');
    expect(out).not.toContain('crop/F1');
  });
});
