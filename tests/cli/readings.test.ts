import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
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
