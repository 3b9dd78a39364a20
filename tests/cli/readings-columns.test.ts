import { describe, expect, test } from 'vitest';
import type { CheckReport } from '../../src/report/schemas';
import { planText, withPlant } from '../watching/room-plan';
import { inMemory, lotwright } from './in-process';

const PROGRESS = 'first-bin: 2026-09-08, last-bin: 2026-09-16, sealed: 2026-09-18, lots: { L1: 200 }';

/** The logger wrote 0.4 % of oxygen for a night where the room is held at 1.5 %. */
const CSV = `Time,Room,O2,CO2,Air
2026-09-30 06:00,R1,1.52,1.96,1.0
2026-10-01 00:00,R1,0.40,2.00,1.0
2026-10-01 01:00,R1,0.40,2.01,1.0
2026-10-01 02:00,R1,0.40,2.02,1.0
2026-10-01 03:00,R1,0.40,2.03,1.0
`;

async function told(columns: string, more = '', change: (text: string) => string = (text) => text) {
  const layout = `readings:\n  store: { file: store.csv, columns: { ${columns} }${more} }\n`;
  const text = change(withPlant(planText({ progress: PROGRESS, more: layout })));
  const files = inMemory({ '/plan/a.lotplan.yaml': text, '/plan/store.csv': CSV, '/plan/gas.csv': CSV });
  const { out } = await lotwright(['check', 'plan', '--format', 'json'], { files, cwd: '/' });
  const { findings }: CheckReport = JSON.parse(out);
  return findings
    .filter(({ family, code }) => family === 'readings' || code.endsWith('-key') || code.startsWith('not-'))
    .map(({ code, severity, message, place, fixes }) => ({
      code,
      severity,
      message,
      at: text.split('\n')[place.line - 1]?.slice(place.column - 1, place.endColumn - 1),
      becomes: fixes.map(({ edits }) => edits.map(({ newText }) => newText).join()),
    }));
}

const codes = (found: Awaited<ReturnType<typeof told>>) => found.map(({ code }) => code);

describe('the columns of a file of readings', () => {
  test('see the oxygen where they are right', async () => {
    expect(codes(await told('time: Time, room: Room, oxygen: O2, carbon-dioxide: CO2'))).toContain(
      'oxygen-low',
    );
  });

  test('are told of a misspelt name, by which the oxygen would be lost', async () => {
    const found = await told('time: Time, room: Room, oxygn: O2, carbon-dioxide: CO2');
    expect(found.find(({ code }) => code === 'unknown-key')).toEqual({
      code: 'unknown-key',
      severity: 'error',
      message: '`columns` of file of readings `store` has no key `oxygn`. Is `oxygen` meant?',
      at: 'oxygn',
      becomes: ['oxygen'],
    });
    // One mistake, told once.
    expect(codes(found)).not.toContain('oxygen-not-read');
  });

  test('are told of a misspelt name of time or room, and of one that is left out', async () => {
    const misspelt = await told('tme: Time, room: Room, oxygen: O2');
    expect(misspelt.filter(({ code }) => code !== 'room-not-read')).toMatchObject([
      { code: 'unknown-key', at: 'tme', becomes: ['time'] },
    ]);
    const lacking = await told('time: Time, oxygen: O2');
    expect(lacking.filter(({ code }) => code !== 'room-not-read')).toMatchObject([
      { code: 'missing-key', severity: 'error', at: 'columns' },
    ]);
  });

  test('have units and names by the same words, and no unit that nothing would be read by', async () => {
    const right = 'time: Time, room: Room, oxygen: O2';
    expect(await told(right, ', units: { oxgen: "%" }, names: { rom: { K1: R1 } }')).toEqual(
      expect.arrayContaining([
        expect.objectContaining({ code: 'unknown-key', at: 'oxgen', becomes: ['oxygen'] }),
        expect.objectContaining({ code: 'unknown-key', at: 'rom', becomes: ['room'] }),
      ]),
    );
    // 15,000 ppm would be read as 15,000 %.
    expect(await told(right, ', units: { oxygen: ppm }')).toEqual(
      expect.arrayContaining([expect.objectContaining({ code: 'not-allowed-value', at: 'ppm' })]),
    );
  });

  test('are told at their place where the file has no such heading, with the nearest that it has', async () => {
    const found = await told('time: Time, room: Room, oxygen: O3, carbon-dioxide: CO2');
    expect(found.filter(({ code }) => code !== 'room-not-read')).toEqual([
      {
        code: 'readings-not-read',
        severity: 'warning',
        message:
          'Nothing of store is read, so that nothing in it is watched. No column is called "O3" (`oxygen`). Is "O2" meant?',
        at: 'O3',
        becomes: ['O2'],
      },
    ]);
  });

  test('are told where no oxygen is read of a low-oxygen room from any file', async () => {
    const air = 'time: Time, room: Room, temperature: Air';
    const found = (await told(air)).filter(({ code }) => code === 'oxygen-not-read');
    expect(found).toMatchObject([{ severity: 'warning', at: 'columns' }]);
    expect(found[0]?.message).toMatch(
      /^No oxygen is read from the file of store, and no other file has that of R1: .* read oxygen from outside meanwhile\. Sealed rooms kill\./,
    );
    // A logger of temperatures beside the analyser's file is in order.
    const beside = (text: string) =>
      text.replace(
        'readings:\n',
        'readings:\n  gas: { file: gas.csv, columns: { time: Time, room: Room, oxygen: O2 } }\n',
      );
    expect(codes(await told(air, '', beside))).not.toContain('oxygen-not-read');
    // A room on record as opened is aired, and one kept in air has no low oxygen.
    const opened = (text: string) =>
      text.replace('sealed: 2026-09-18, lots', 'sealed: 2026-09-18, opened: 2026-10-02, lots');
    expect(codes(await told(air, '', opened))).not.toContain('oxygen-not-read');
  });
});
