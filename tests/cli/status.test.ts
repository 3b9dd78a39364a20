import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { marketMeasures } from '../../src/compare/market-measures';
import { computeSeason } from '../../src/findings/compute';
import { parseWeek } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { sampleFiles } from '../samples/sample';
import { inMemory, lotwright, root } from './in-process';
import { errorsAgainst } from './schemas';

const MARCH = 'sample-plans/in-march';

describe('status', () => {
  test('looks from the last day that has a record, or from the day asked for', async () => {
    const last = JSON.parse((await lotwright(['status', MARCH, '--format', 'json'])).out);
    expect(errorsAgainst('status-report', last)).toEqual([]);
    expect(last.asOf).toBe('2027-03-07');
    const { out } = await lotwright(['status', MARCH, '--as-of', '2026-11-30', '--format', 'json']);
    const then: typeof last = JSON.parse(out);
    expect(errorsAgainst('status-report', then)).toEqual([]);
    expect(then.asOf).toBe('2026-11-30');
    expect(then.rooms.map(({ room, state }: { room: string; state: string }) => `${room} ${state}`)).toEqual([
      'R1 emptied',
      'R2 holding',
      'R3 opened',
      'R4 holding',
    ]);
    expect(then.market.through).toBe('2026-W48');
  });

  test('of a plan without records looks from today', async () => {
    const { out } = await lotwright(['status', 'sample-plans/first-season', '--format', 'json']);
    // The day on which the tests run the command line.
    expect(JSON.parse(out)).toMatchObject({ asOf: '2027-03-01', progressRecorded: false });
  });

  test('takes the weeks published before for rooms still to be opened', async () => {
    const folder = 'sample-plans/mid-harvest';
    const names = fs.readdirSync(path.join(root, folder)).filter((name) => name.endsWith('.lotplan.yaml'));
    const plan = names.map(
      (name) => [`/plan/${name}`, fs.readFileSync(path.join(root, folder, name), 'utf8')] as const,
    );
    const published = {
      format: 'lotwright-release-report',
      rooms: [{ fill: 'R4-braeburn', opens: '2027-W12' }],
    };
    const files = inMemory({ ...Object.fromEntries(plan), '/weeks.json': JSON.stringify(published) });
    const { out } = await lotwright(['status', '/plan', '--keep-weeks', '/weeks.json', '--format', 'json'], {
      files,
      cwd: '/',
    });
    const report = JSON.parse(out);
    expect(errorsAgainst('status-report', report)).toEqual([]);
    const { steps } = report.rooms.find(({ room }: { room: string }) => room === 'R4');
    const free = JSON.parse(
      (await lotwright(['status', '/plan', '--format', 'json'], { files, cwd: '/' })).out,
    );
    const own = free.rooms.find(({ room }: { room: string }) => room === 'R4').steps;
    expect(own.find(({ step }: { step: string }) => step === 'opened').due).not.toBe('2027-03-22');
    // Monday of 2027-W12.
    expect(steps.find(({ step }: { step: string }) => step === 'opened').due).toBe('2027-03-22');
  });

  test('has the same cartons short in weeks that are over as the schedule, the comparison and the promises', async () => {
    const { market } = JSON.parse((await lotwright(['status', MARCH, '--format', 'json'])).out);
    const told = new Map<string, number>();
    for (const { variety, short } of market.lines) told.set(variety, (told.get(variety) ?? 0) + (short ?? 0));
    const season = computeSeason(readPlan(sampleFiles('in-march')));
    const stand = parseWeek('2027-W10') as number;
    const compared = new Map<string, number>();
    for (const { kind, about, byWeek } of marketMeasures(season)) {
      if (kind !== 'cartons-short' || about.of !== 'product') continue;
      const past = [...(byWeek ?? [])].filter(([week]) => week < stand);
      const short = past.reduce((all, [, cartons]) => all + cartons, 0);
      compared.set(about.variety, (compared.get(about.variety) ?? 0) + short);
    }
    expect(told.get('Gala')).toBe(36);
    expect([...told].sort()).toEqual([...compared].sort());
    // The schedule tells them before its own figures, all varieties together.
    const { out } = await lotwright(['release', MARCH, '--format', 'json']);
    const { cartonsWantedBefore, cartonsSoldBefore, notRecorded } = JSON.parse(out).standing;
    const all = [...told.values()].reduce((sum, cartons) => sum + cartons, 0);
    expect(cartonsWantedBefore - cartonsSoldBefore).toBeCloseTo(all, 6);
    expect(notRecorded).toBeUndefined();
  });

  test('is a page of Markdown too, with the caution', async () => {
    const { out } = await lotwright(['status', MARCH, '--format', 'markdown']);
    expect(out).toContain('# Orrowby Vale, harvest 2026 at the end of 2027-03-07');
    expect(out).toContain('| R4 | Braeburn | 281 | 141 | 140 | 42.0 | first 1,373, second 419 |');
    expect(out).toContain('with a calibrated instrument');
  });

  test('has the same bins to pack, and the same days of gas, as the papers', async () => {
    const MID = 'sample-plans/mid-harvest';
    const papers = await lotwright(['papers', MID, '--for', 'packhouse', '--as', 'json']);
    const { rooms } = JSON.parse(papers.out);
    const status = JSON.parse((await lotwright(['status', MID, '--format', 'json'])).out);
    const titles = (reader: string): string[] =>
      status.work.readers
        .find((one: { reader: string }) => one.reader === reader)
        .tasks.map(({ title }: { title: string }) => title);
    const packed = titles('packhouse').filter((title) => title.startsWith('Pack '));
    const [first] = rooms.filter(({ room }: { room: string }) => room === 'R1');
    expect(packed).toEqual(
      first.packing
        .slice(0, packed.length)
        .map(({ bins }: { bins: number }) => `Pack ${bins} bins of R1: Gala`),
    );
    const steps = status.rooms.find(({ room }: { room: string }) => room === 'R2').steps;
    // Sealed some time on 2026-09-19, some 25 hours to the set-point; the pin 2027-W01 begins on a Monday.
    const due = (step: string) => steps.find((one: { step: string }) => one.step === step).due;
    expect([due('set-point'), due('opened')]).toEqual(['2026-09-21', '2027-01-04']);
    expect(
      status.work.readers.flatMap(({ tasks }: { tasks: { title: string; last: string }[] }) =>
        tasks.filter(({ title }) => title === 'R2 at its set-point').map(({ last }) => last),
      ),
    ).toEqual(['2026-09-21']);
  });

  test('counts the mistakes that a check as of the same day tells, and says with which command', async () => {
    const PLAN = 'sample-plans/with-mistakes';
    const counts = /\d+ errors, \d+ warnings, \d+ notices/;
    const { err } = await lotwright(['status', PLAN]);
    expect(err).toContain(`See them with: lotwright check ${PLAN} --as-of 2027-03-01`);
    const { out } = await lotwright(['check', PLAN, '--as-of', '2027-03-01', '--no-readings']);
    const [told] = counts.exec(err) ?? [];
    expect(told).toBe(counts.exec(out)?.[0]);
    // On paper 18 bins more of L1 go into R1 than came in; as of that day R1 has those that came.
    const beyond = 'lot-placed-beyond-its-bins';
    expect(out).not.toContain(beyond);
    expect((await lotwright(['check', PLAN])).out).toContain(beyond);
  });

  test('says what is wrong with a day it cannot read', async () => {
    const { code, err } = await lotwright(['status', MARCH, '--as-of', '30.11.2026']);
    expect(code).toBe(2);
    expect(err).toContain('Write a calendar date, as 2026-09-14.');
  });
});
