import { describe, expect, test } from 'vitest';
import type { CheckReport } from '../../src/report/schemas';
import { planText, withPlant } from '../watching/room-plan';
import { inMemory, lotwright } from './in-process';
import { errorsAgainst } from './schemas';

const READINGS = `readings:
  store: { file: logs/store.csv, columns: { time: Time, room: Room, oxygen: O2, carbon-dioxide: CO2, temperature: Air } }
`;
const PROGRESS = 'first-bin: 2026-09-08, last-bin: 2026-09-16, sealed: 2026-09-18, lots: { L1: 200 }';

/** Oxygen of the first hours of 1 October, when the room holds 1.5 %. */
function csvOf(oxygen: number): string {
  const rows = ['29', '30'].flatMap((day) => [
    `2026-09-${day} 06:00,R1,1.52,1.96,1.0`,
    `2026-09-${day} 18:00,R1,1.49,2.04,1.1`,
  ]);
  const late = [0, 1, 2, 3, 4, 5].map((hour) => `2026-10-01 0${hour}:00,R1,${oxygen},2.0${hour},1.0`);
  return ['Time,Room,O2,CO2,Air', ...rows, ...late, ''].join('\n');
}

function given(csv: string | undefined, change: (text: string) => string = (text) => text) {
  const text = change(withPlant(planText({ progress: PROGRESS, more: READINGS })));
  return {
    files: inMemory({
      '/plan/a.lotplan.yaml': text,
      ...(csv === undefined ? {} : { '/plan/logs/store.csv': csv }),
    }),
    cwd: '/',
  };
}

async function checked(with_: ReturnType<typeof given>, ...words: string[]) {
  const { out, code } = await lotwright(['check', 'plan', '--format', 'json', ...words], with_);
  const report: CheckReport = JSON.parse(out);
  expect(errorsAgainst('check-report', report)).toEqual([]);
  return { code, found: report.findings.filter(({ family }) => family === 'readings') };
}

describe('check of a plan with readings', () => {
  test('tells what is seen in them with its severity, place and row, and fails on an error', async () => {
    const { code, found } = await checked(given(csvOf(1.05)));
    expect(code).toBe(1);
    const low = found.find(({ code: one }) => one === 'oxygen-low');
    expect(low?.severity).toBe('error');
    expect(low?.message).toMatch(
      /^R1: Oxygen is up to 0\.45 points too low: 1\.05 % where 1\.50 % is expected\. Since 2026-10-01 00:00\. Likely, the likeliest first: \(1\) .* Check first: .* both, with a calibrated instrument/,
    );
    expect(low?.related.map(({ place }) => [place.file, place.line])).toEqual([
      ['plan/a.lotplan.yaml', expect.any(Number)],
      ['plan/logs/store.csv', 6],
    ]);
    expect(low?.fingerprint).toBe('oxygen-low:R1-fill/oxygen');
    // The law of this room wants a reading every day: a gap is more than a notice there.
    const gap = found.find(({ code: one }) => one === 'record-gap');
    expect(gap?.severity).toBe('warning');
    expect(gap?.message).toContain('The law wants one of each every day.');
  });

  test('says what carbon dioxide the fruit bears where it reads above it, and fails', async () => {
    // Gala bears 2.5 %; its room is kept at 2 %.
    const csv = csvOf(1.5).replace(/(10-01 0\d:00,R1,1\.5),2\.0\d/g, '$1,8.70');
    const { code, found } = await checked(given(csv));
    const high = found.find((one) => one.code === 'carbon-dioxide-high');
    expect([code, high?.severity]).toEqual([1, 'error']);
    expect(high?.message).toMatch(
      /6\.70 points too high: 8\.70 % where 2\.00 % is expected, above the 2\.50 % that the fruit bears at most/,
    );
    const below = await checked(
      given(csv.replaceAll('8.70', '3.20'), (text) =>
        text.replace('readings:', 'varieties: { Gala: { most-carbon-dioxide: 4 % } }\nreadings:'),
      ),
    );
    const warned = below.found.find((one) => one.code === 'carbon-dioxide-high');
    expect([below.code, warned?.severity]).toEqual([0, 'warning']);
    expect(warned?.message).not.toContain('bears');
  });

  test('names a leak once, with what speaks for it', async () => {
    const csv = csvOf(4).replace(/(10-01 0\d:00,R1,4),2\.0\d/g, '$1,0.6');
    const high = (await checked(given(csv))).found.find((one) => one.code === 'oxygen-high');
    expect(high?.message).toContain('(1) Air leaks in');
    expect(high?.message).toContain('a sampling line. Carbon dioxide falls with it. (2)');
    expect(high?.message.match(/Air leaks in/g)).toHaveLength(1);
    const alone = (await checked(given(csvOf(4)))).found.find((one) => one.code === 'oxygen-high');
    expect(alone?.message.match(/Air leaks in/g)).toHaveLength(1);
    expect(alone?.message).not.toContain('falls with it');
  });

  test('leads a forge to the row as well', async () => {
    const { out } = await lotwright(['check', 'plan', '--format', 'sarif'], given(csvOf(1.05)));
    const { results } = JSON.parse(out).runs[0];
    const low = results.find(({ ruleId }: { ruleId: string }) => ruleId === 'oxygen-low');
    const { artifactLocation, region } = low.relatedLocations[1].physicalLocation;
    expect([artifactLocation.uri, region.startLine]).toEqual(['plan/logs/store.csv', 6]);
  });

  test('leaves out what was read after the day that is asked for, and all of it where asked', async () => {
    const with_ = given(csvOf(1.05));
    const before = await checked(with_, '--as-of', '2026-09-30');
    expect(before.found.map(({ code }) => code)).not.toContain('oxygen-low');
    expect((await checked(with_, '--no-readings')).found).toEqual([]);
  });

  test('is quiet where the room reads as expected', async () => {
    const { code, found } = await checked(given(csvOf(1.5)));
    expect([code, found.map((one) => one.code)]).toEqual([0, ['record-gap']]);
  });

  test('keeps to the severities and the allowances of the plan', async () => {
    const off = given(
      csvOf(1.05),
      (text) => `${text}policy: { findings: { oxygen-low: notice, record-gap: off } }\n`,
    );
    const { code, found } = await checked(off);
    expect([code, found.map((one) => [one.code, one.severity])]).toEqual([0, [['oxygen-low', 'notice']]]);
    const allowed = given(csvOf(1.05), (text) =>
      text.replace(
        '  R1-fill:\n',
        '  # lotwright: allow oxygen-low -- the analyser is being changed\n  R1-fill:\n',
      ),
    );
    const codes = (await checked(allowed)).found.map((one) => one.code);
    expect(codes).not.toContain('oxygen-low');
    expect(codes).toContain('record-gap');
  });

  test('tells of a file that is not there, and of rows that cannot be taken, and of the rest all the same', async () => {
    const missing = await checked(given(undefined));
    expect(missing.found.map(({ code }) => code)).toEqual(['readings-not-read']);
    expect(missing.code).toBe(0);
    const rows = await checked(given(`${csvOf(1.05)}2026-10-01 07:00,R7,1.5,2.0,1.0\nsoon,R1,1.5,2.0,1.0\n`));
    const told = rows.found.find(({ code }) => code === 'readings-rows-not-taken');
    expect(told?.message).toMatch(/^2 rows of store cannot be taken.* Line 12: The plan has no room `R7`/);
    expect(told?.related.map(({ place }) => place.line)).toEqual([12, 13]);
    expect(rows.found.map(({ code }) => code)).toContain('oxygen-low');
  });

  test('tells a sealed room of which nothing is read, and none that is opened or not on record as sealed', async () => {
    for (const csv of ['', 'Time,Room,O2,CO2,Air\n']) {
      const { found, code } = await checked(given(csv));
      expect([code, found.map((one) => [one.code, one.severity])]).toEqual([
        0,
        [['room-not-read', 'warning']],
      ]);
      expect(found[0]?.message).toMatch(/^R1 is on record as sealed on 2026-09-18, and store has no reading/);
    }
    const codes = async (csv: string, change?: (text: string) => string) =>
      (await checked(given(csv, change))).found.map(({ code }) => code);
    const opened = (text: string) =>
      text.replace('sealed: 2026-09-18, lots', 'sealed: 2026-09-18, opened: 2026-10-02, lots');
    expect(await codes('', opened)).toEqual([]);
    expect(await codes('', (text) => text.replace(/progress:\n.*\n/, ''))).toEqual([]);
    // Another room is read, and this one is not; or was read before it was sealed alone.
    const other = csvOf(1.5).replaceAll(',R1,', ',R2,');
    const second = (text: string) =>
      text.replace('lots:\n', '  R2: { bin-type: plastic, places: 10 }\nlots:\n');
    expect(await codes(other, second)).toContain('room-not-read');
    expect(await codes(`${other}2026-09-16 06:00,R1,20.9,0.1,4.0\n`, second)).toContain('room-not-read');
    expect(await codes(other.replace(/2026-(09-29|09-30|10-01)/g, '2026-09-18'), second)).not.toContain(
      'room-not-read',
    );
  });

  test('has its errors first where status tells what is to be done', async () => {
    const opened = (text: string) =>
      text.replace('sealed: 2026-09-18, lots', 'sealed: 2026-09-18, opened: 2026-09-28, lots');
    const with_ = given(csvOf(3.1), opened);
    const on = ['status', 'plan', '--as-of', '2026-10-01'];
    const { out } = await lotwright(on, with_);
    const first = out
      .replace(/\s+/g, ' ')
      .indexOf('Before any work there: R1: The room is on record as opened');
    expect(first).toBeGreaterThan(0);
    expect(first).toBeLessThan(out.replace(/\s+/g, ' ').indexOf('Crop:'));
    expect(out).toContain('trained, licensed people');
    const report = JSON.parse((await lotwright([...on, '--format', 'json'], with_)).out);
    expect(errorsAgainst('status-report', report)).toEqual([]);
    expect(report.errorsInReadings.map(({ code }: { code: string }) => code)).toEqual([
      'opened-room-low-oxygen',
    ]);
    const before = await lotwright(['status', 'plan', '--as-of', '2026-09-28', '--format', 'json'], with_);
    expect(JSON.parse(before.out).errorsInReadings).toBeUndefined();
  });

  test('falls silent of a room that is on record as empty, but for the law', async () => {
    const over = given(csvOf(1.05), (text) =>
      text.replace(
        'sealed: 2026-09-18, lots: { L1: 200 } }',
        'sealed: 2026-09-18, opened: 2026-10-02, emptied: 2026-10-09, lots: { L1: 200 } }',
      ),
    );
    expect((await checked(over)).found.map(({ code }) => code)).toEqual(['record-gap']);
    const noLaw = {
      ...over,
      files: given(csvOf(1.05), (text) =>
        text
          .replace('    law: washington\n', '')
          .replace(
            'sealed: 2026-09-18, lots: { L1: 200 } }',
            'sealed: 2026-09-18, opened: 2026-10-02, emptied: 2026-10-09, lots: { L1: 200 } }',
          ),
      ).files,
    };
    expect((await checked(noLaw)).found).toEqual([]);
  });

  test('has them in what explains a room and its code', async () => {
    const room = await lotwright(['explain', 'R1-fill', 'plan'], given(csvOf(1.05)));
    expect(room.out).toContain('oxygen-low');
    const code = await lotwright(['explain', 'oxygen-low', 'plan'], given(csvOf(1.05)));
    expect(code.out).toContain('1 finding in this plan');
    expect(code.out).toContain('below what the fruit bears');
  });
});
