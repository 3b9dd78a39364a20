import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { visibleWidth } from '../../src/report/table';
import { inMemory, lotwright, root } from './in-process';
import { errorsAgainst } from './schemas';

const sample = (name: string) =>
  readFileSync(path.join(root, 'sample-plans/first-season', name), 'utf8').replace(
    /^readings:\n(?: .*\n)*/m,
    '',
  );

const READINGS = `
readings:
  cold-store:
    file: readings/cold-store.csv
    columns: { time: Time, room: Room, oxygen: O2, carbon-dioxide: CO2, temperature: Air }
`;

function files(csv: string) {
  return inMemory({
    '/plan/fruit.lotplan.yaml': sample('fruit.lotplan.yaml'),
    '/plan/orrowby.lotplan.yaml': sample('orrowby.lotplan.yaml') + READINGS,
    '/plan/readings/cold-store.csv': csv,
  });
}

const CSV = 'Time,Room,O2,CO2,Air\n2026-10-01 06:00,R2,1.62,1.75,1.1\n2026-10-03 06:00,R2,1.55,1.80,0.9\n';

describe('readings', () => {
  test('stand beside what the plan expects of the room on that day', async () => {
    const { code, out } = await lotwright(['readings', 'plan'], { files: files(CSV), cwd: '/' });
    expect(code).toBe(0);
    expect(out).toMatch(
      /^R2 +O2, % +1\.55 +2026-10-03 06:00 +1\.\d\d +1\.\d\d +1\.55 +1\.5[89] +1\.62 +48\.0 +1$/m,
    );
    expect(out).toContain('cold-store (plan/readings/cold-store.csv): 2 rows read.');
    expect(out.replace(/\s+/g, ' ')).toContain('with a calibrated instrument');
  });

  test('of the first season read as they did, with what is not as expected', async () => {
    const { code, out } = await lotwright(['readings', 'sample-plans/first-season']);
    expect(code).toBe(0);
    expect(Math.max(...out.split('\n').map(visibleWidth))).toBeLessThanOrEqual(100);
    await expect(out).toMatchFileSnapshot(path.join(root, 'tests/cli/golden/readings.txt'));
    // Oxygen creeps up in R3 from 12 November on by 0.025 % a day, and R2's analyser was out for four days.
    expect(out).toMatch(/^R3 +warning oxygen-high, since 2026-11-1\d/m);
    expect(out).toMatch(/^R2 +notice record-gap, 2026-10-16 00:00 to 2026-10-20 00:00/m);
    const failing = await lotwright(['readings', 'sample-plans/first-season', '--fail-on', 'warning']);
    expect(failing.code).toBe(1);
  });

  test('are printed as JSON by the published schema, of one room if asked', async () => {
    const words = ['readings', 'plan', '--room', 'R2', '--format', 'json', '--units', 'us'];
    const { out } = await lotwright(words, { files: files(CSV), cwd: '/' });
    const report: { rooms: { room: string; quantities: { quantity: string; latest: object }[] }[] } =
      JSON.parse(out);
    expect(errorsAgainst('readings-report', report)).toEqual([]);
    const air = report.rooms[0]?.quantities.find(({ quantity }) => quantity === 'temperature');
    // 0.9 °C = 33.62 °F
    expect(air?.latest).toEqual({ value: 33.62, unit: '°F' });
  });

  test('that cannot be taken are told with their line, and give exit code 1', async () => {
    const { code, out } = await lotwright(['readings', 'plan'], {
      files: files(`${CSV}2026-10-04 06:00,R22,1.5,1.8,0.9\n`),
      cwd: '/',
    });
    expect(code).toBe(1);
    expect(out).toContain('plan/readings/cold-store.csv:4 The plan has no room `R22`.');
  });

  test('of an opened room are held against nothing that was computed of its gas', async () => {
    const memory = (csv: string) => {
      const given = files(csv);
      return {
        ...given,
        read: (at: string) => {
          const text = given.read(at);
          return typeof text === 'string' && at.endsWith('orrowby.lotplan.yaml')
            ? `${text}\nprogress:\n  R2-gala: { opened: 2026-12-01 }\n`
            : text;
        },
      };
    };
    const opened = ['06', '12', '18'].map((hour) => `2026-12-03 ${hour}:00,R2,3.10,1.70,0.8\n`).join('');
    const { code, out } = await lotwright(['readings', 'plan'], { files: memory(CSV + opened), cwd: '/' });
    expect(out).toMatch(/^R2 +O2, % +3\.10 +2026-12-03 18:00 +1\.55/m);
    expect(out).toMatch(/^R2 +error opened-room-low-oxygen, since 2026-12-03 06:00/m);
    expect(code).toBe(1);
    const aired = opened.replaceAll('3.10', '20.90');
    const after = await lotwright(['readings', 'plan'], { files: memory(CSV + aired), cwd: '/' });
    expect(after.out).not.toContain('opened-room');
    expect(after.out).not.toContain('oxygen-high');
  });

  test('known on a day are those up to its end', async () => {
    const later = `${CSV}2026-10-09 06:00,R2,9.99,1.80,0.9\n2026-10-10 06:00,R99,1.5,1.80,0.9\n`;
    const words = ['readings', 'plan', '--as-of', '2026-10-03'];
    const asOf = await lotwright(words, { files: files(later), cwd: '/' });
    expect(asOf.out).toMatch(/^R2 +O2, % +1\.55/m);
    // As if nothing had been read since.
    expect(asOf).toEqual(await lotwright(words, { files: files(CSV), cwd: '/' }));
  });

  test('of the sample season depend on no later reading, on any day', async () => {
    const text = readFileSync(path.join(root, 'sample-plans/first-season/readings.csv'), 'utf8');
    const [heading = '', ...rows] = text.trimEnd().split('\n');
    for (const day of ['2026-09-18', '2026-10-17', '2026-11-21']) {
      const words = ['readings', 'plan', '--as-of', day, '--format', 'json'];
      const known = rows.filter((row) => row.slice(0, 10) <= day);
      const [all, then] = [text, `${[heading, ...known].join('\n')}\n`].map((csv) =>
        lotwright(words, { files: files(csv), cwd: '/' }),
      );
      expect(await all).toEqual(await then);
    }
  });

  test('are read on from where a kept state came to, and all over where the file is another', async () => {
    const first = `${CSV}2026-10-04 06:00,R2,1.5`;
    const grown = `${CSV}2026-10-04 06:00,R2,1.57,1.80,0.9\n2026-10-05 06:00,R2,1.58,1.80,0.9\n`;
    const memory = files(first);
    const given = { files: memory, cwd: '/' };
    const words = ['readings', 'plan', '--state', 'kept/state.json'];
    const rows = (out: string) => /: (.* read.*)\./.exec(out)?.[1];
    expect(rows((await lotwright(words, given)).out)).toBe('3 rows read');
    memory.save('/plan/readings/cold-store.csv', grown);
    const on = await lotwright(words, given);
    expect(rows(on.out)).toBe('4 rows read, 2 rows of them now');
    const whole = await lotwright(['readings', 'plan'], given);
    expect(on.out.replace(', 2 rows of them now', '')).toBe(whole.out);
    memory.save('/plan/readings/cold-store.csv', grown.replace('1.62', '1.99'));
    expect(rows((await lotwright(words, given)).out)).toBe('4 rows read');
    expect((await lotwright([...words, '--as-of', '2026-10-03'], given)).code).toBe(2);
    memory.save('/kept/state.json', '{}');
    expect((await lotwright(words, given)).err).toContain('is no state that lotwright readings has kept');
  });

  test('whose file is not there end with exit code 2', async () => {
    const memory = files(CSV);
    const given = {
      files: {
        ...memory,
        read: (at: string) => (at.endsWith('.csv') ? { failure: 'not found' } : memory.read(at)),
      },
      cwd: '/',
    };
    const { code, err } = await lotwright(['readings', 'plan'], given);
    expect(code).toBe(2);
    expect(err).toContain('plan/readings/cold-store.csv could not be read: not found.');
  });
});
