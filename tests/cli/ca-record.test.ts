import path from 'node:path';
import { describe, expect, test } from 'vitest';
import type { CaRecordReport } from '../../src/report/schemas';
import { visibleWidth } from '../../src/report/table';
import { cautionInShort } from '../../src/room/caution';
import { planText } from '../watching/room-plan';
import { inMemory, lotwright, root } from './in-process';
import { errorsAgainst } from './schemas';

const READINGS = `readings:
  store: { file: store.csv, columns: { time: Time, room: Room, oxygen: O2, carbon-dioxide: CO2, temperature: Air } }
`;
const PROGRESS =
  'first-bin: 2026-09-08, last-bin: 2026-09-16, sealed: 2026-09-18, low-oxygen: 2026-09-19, lots: { L1: 200 }';

const DAYS = ['18', '19', '20', '22', '23'];
const CSV = `Time,Room,O2,CO2,Air\n${DAYS.map((day) => `2026-09-${day} 06:00,R1,${day === '18' ? '20.9' : '4.8'},1.0,0.8\n2026-09-${day} 18:00,R1,4.9,1.1,0.9\n`).join('')}`;

function given(csv = CSV) {
  const text = planText({ progress: PROGRESS, more: READINGS });
  return { files: inMemory({ '/plan/a.lotplan.yaml': text, '/plan/store.csv': csv }), cwd: '/' };
}

describe('ca-record', () => {
  test('lists what is missing by day, on one page wide, and ends with 1', async () => {
    const { out, code } = await lotwright(['ca-record', 'plan', '--days'], given());
    expect(code).toBe(1);
    expect(Math.max(...out.split('\n').map(visibleWidth))).toBeLessThanOrEqual(100);
    await expect(out).toMatchFileSnapshot(path.join(root, 'tests/cli/golden/ca-record.txt'));
    expect(out.replace(/\s+/g, ' ')).toContain('The text of the rule in force governs');
    expect(out.replace(/\s+/g, ' ')).toContain('with a calibrated instrument');
  });

  test('is complete where each day is read, and ends with 0', async () => {
    const { out, code } = await lotwright(
      ['ca-record', 'plan'],
      given(`${CSV}2026-09-21 06:00,R1,4.8,1.0,0.8\n`),
    );
    expect(out).toContain('Nothing is missing that was looked for.');
    expect(code).toBe(0);
  });

  test('of a room that is filled again has the readings of each fill alone', async () => {
    const { files } = given(
      `${CSV}2026-09-21 06:00,R1,4.8,1.0,0.8\n2026-10-02 06:00,R1,20.8,0.1,0.9\n2026-10-03 06:00,R1,4.9,1.0,0.8\n`,
    );
    files.save(
      '/plan/b.lotplan.yaml',
      `lots:
  L2: { variety: Gala, picked: 2026-09-25..2026-09-28, bins: 200, field-temperature: 18 °C }
fills:
  R1-again: { room: R1, regime: cold, first-bin: 2026-09-25, last-bin: 2026-10-01, sealed: 2026-10-02, lots: { L2: 200 } }
`,
    );
    const words = ['ca-record', 'plan', '--format', 'json'];
    const { out } = await lotwright(words, { files, cwd: '/' });
    const report: CaRecordReport = JSON.parse(out);
    const [first, again] = report.records;
    expect([first?.fill, first?.until, first?.days.length]).toEqual(['R1-fill', '2026-09-24', 7]);
    expect(first?.lacks.map(({ what }) => what).filter((what) => what.includes('5 %'))).toEqual([]);
    expect(again?.fill).toBe('R1-again');
    expect(again?.days.map((one) => one.oxygen?.value.value)).toEqual([20.8, 4.9]);
    expect(again?.dates.fivePerCent).toEqual({ day: '2026-10-03', by: 'readings' });
  });

  test('is known up to a day', async () => {
    const { out, code } = await lotwright(['ca-record', 'plan', '--as-of', '2026-09-20'], given());
    expect(out).toContain('record up to 2026-09-20');
    expect(code).toBe(0);
  });

  test('is JSON by its published schema, in either units', async () => {
    for (const units of ['metric', 'us']) {
      const { out } = await lotwright(['ca-record', 'plan', '--format', 'json', '--units', units], given());
      expect(errorsAgainst('ca-record-report', JSON.parse(out))).toEqual([]);
    }
  });

  test('is a line a day as CSV, and prints as HTML, with its caution and that it is an aid', async () => {
    const csv = (await lotwright(['ca-record', 'plan', '--format', 'csv'], given())).out.split('\r\n');
    expect(csv).toHaveLength(1 + 6 + 1);
    expect(csv[4]).toMatch(/^R1,R1-fill,2026-09-21,,,,,,,,,,,,,oxygen; carbon dioxide; temperature,/);
    for (const row of csv.slice(1, -1)) {
      expect(row).toContain('The text of the rule in force governs');
      expect(row).toContain(cautionInShort);
    }
    const memory = given();
    const words = ['ca-record', 'plan', '--format', 'html', '--paper', 'letter', '--out', 'out/record.html'];
    expect((await lotwright(words, memory)).out).toBe('Written: out/record.html\n');
    const html = String(memory.files.read('/out/record.html'));
    expect(html).toContain('@page { size: letter portrait');
    expect(html).toContain('The text of the rule in force governs');
    expect(html).toContain('Sealed rooms kill');
    expect(html).not.toContain('<script');
    expect(html).toContain('No reading of oxygen: 2026-09-21<');
  });

  test('says what to write where no room has a rule', async () => {
    const text = planText({ progress: PROGRESS }).replace('law: washington', 'law: none');
    const { code, out } = await lotwright(['ca-record', 'plan'], {
      files: inMemory({ '/plan/a.lotplan.yaml': text }),
      cwd: '/',
    });
    expect(code).toBe(0);
    expect(out).toContain('key `law:`, which takes `washington`, `new-york` or `none`');
  });
});
