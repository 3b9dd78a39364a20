import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { visibleWidth } from '../../src/report/table';
import { planText } from '../watching/room-plan';
import { inMemory, lotwright, root } from './in-process';
import { errorsAgainst } from './schemas';

const FIRST = 'sample-plans/first-season';

interface Report {
  readonly from?: string;
  readonly samples: readonly {
    readonly which: string;
    readonly first: string;
    readonly of: readonly string[];
    readonly overdue: boolean;
    readonly worth: readonly { readonly lot: string; readonly ifLow: string; readonly ifHigh: string }[];
  }[];
}

const PROGRESS = 'first-bin: 2026-09-08, last-bin: 2026-09-16, sealed: 2026-09-18, lots: { L1: 200 }';
/** Firmness sets the room's latest week, but where its regime keeps 200 days only. */
const SOFT = 'varieties:\n  Gala: { least-exit-firmness: 60 N }\n';
const given = (more = '', life = '400 days') => ({
  files: inMemory({ '/plan/a.lotplan.yaml': planText({ progress: PROGRESS, life, more: SOFT + more }) }),
  cwd: '/',
});

async function report(words: readonly string[], memory: ReturnType<typeof given>): Promise<Report> {
  const { out } = await lotwright(['sampling', 'plan', '--format', 'json', ...words], memory);
  const found = JSON.parse(out);
  expect(errorsAgainst('sampling-report', found)).toEqual([]);
  return found;
}

describe('sampling', () => {
  test('reads as it did, on one page wide, with how fruit is taken', async () => {
    const { out, code } = await lotwright(['sampling', FIRST]);
    expect(code).toBe(0);
    expect(Math.max(...out.split('\n').map(visibleWidth))).toBeLessThanOrEqual(100);
    await expect(out).toMatchFileSnapshot(path.join(root, 'tests/cli/golden/sampling.txt'));
    expect(out.replace(/\s+/g, ' ')).toContain('two people, a long hook through the hatch');
  });

  test('tests each lot twice by the door, and once more where that could still move the window', async () => {
    const { samples } = await report([], given());
    const tests = samples.filter(({ which }) => which.startsWith('test-'));
    expect(tests.map(({ which }) => which)).toEqual(['test-1', 'test-2', 'test-3']);
    for (const { worth } of tests) expect((worth[0]?.ifHigh ?? '') > (worth[0]?.ifLow ?? '')).toBe(true);
    const firm = (await report([], given('', '150 days'))).samples;
    expect(firm.filter(({ which }) => which.startsWith('test-')).map(({ which }) => which)).toEqual([
      'test-1',
      'test-2',
    ]);
  });

  test('is the list of the lab, and no other', async () => {
    const { samples } = await report([], given());
    const papers = await lotwright(['papers', 'plan', '--for', 'lab', '--format', 'json'], given());
    const lab: Report = JSON.parse(papers.out);
    const key = ({ which, first, of }: Report['samples'][number]) => [which, first, of];
    const toDo = lab.samples.filter(({ first }) => first >= '2026-09-18');
    expect(toDo.length).toBeGreaterThan(5);
    expect(toDo.map(key).sort()).toEqual(samples.map(key).sort());
  });

  test('leaves out what is on record, and says what is overdue', async () => {
    const { samples } = await report([], given());
    const first = samples.find(({ which }) => which === 'test-1')?.first ?? '';
    const after = new Date(Date.parse(first) + 7 * 86_400_000).toISOString().slice(0, 10);
    const late = await lotwright(['sampling', 'plan', '--as-of', after], given());
    expect(late.code).toBe(1);
    expect(late.out).toContain(`${first} overdue`);
    const taken = given(`samples:\n  S1: { lot: L1, taken: ${first}, fruit: 40, firmness: 66 N }\n`);
    const done = await report(['--as-of', after], taken);
    expect(done.from).toBe(after);
    expect(done.samples.map(({ which }) => which)).not.toContain('test-1');
    expect(done.samples.map(({ which }) => which)).toContain('test-2');
    expect(done.samples.every(({ overdue }) => !overdue)).toBe(true);
  });

  test('is over for a room on record as opened, and goes so many weeks ahead as asked', async () => {
    const text = planText({ progress: `${PROGRESS}, opened: 2026-12-01` });
    const opened = { files: inMemory({ '/plan/a.lotplan.yaml': text }), cwd: '/' };
    expect((await report([], opened)).samples).toEqual([]);
    const all = (await report([], given())).samples;
    const few = (await report(['--weeks', '10'], given())).samples;
    expect(few.length).toBeGreaterThan(0);
    expect(few.length).toBeLessThan(all.length);
  });

  test('is a line a sample and lot as CSV, each with its caution', async () => {
    const { out } = await lotwright(['sampling', 'plan', '--format', 'csv'], given());
    const lines = out.trim().split('\r\n');
    expect(lines.length).toBeGreaterThan(4);
    for (const line of lines.slice(1)) expect(line).toContain('Sealed rooms kill');
  });
});
