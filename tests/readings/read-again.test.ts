import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPlan } from '../../src/plan/read';
import { finish } from '../../src/plan/steps';
import { type FileRead, fileOfReadings, rowOf } from '../../src/readings/file-of';
import { type ReadPart, readOnSteps, withRestSteps } from '../../src/readings/read-again';
import { readReadings } from '../../src/readings/read-readings';
import { grownText, type ReadUpTo } from '../../src/server/protocol-grown';

const plan = readPlan([
  {
    path: 'plans/a.lotplan.yaml',
    text: `lotwright: 1
readings:
  r: { file: ../logs/./r.csv, columns: { time: Time, room: Room, oxygen: O2, temperature: Air } }
`,
  },
]);
const layout = only(plan.readings.values());
const rooms = new Set(['R1', 'R2']);
const HEAD = 'Time,Room,O2,Air,Note';
const row = fc
  .record({
    hour: fc.integer({ min: 0, max: 23 }),
    day: fc.integer({ min: 1, max: 28 }),
    room: fc.constantFrom('R1', 'R2', 'R9'),
    oxygen: fc.constantFrom('1.5', '', 'err', '20.9'),
    note: fc.constantFrom('', '"two\nlines"', 'Kühlzelle'),
  })
  .map(
    ({ hour, day, room, oxygen, note }) =>
      `2026-10-${String(day).padStart(2, '0')} ${String(hour).padStart(2, '0')}:00,${room},${oxygen},0.8,${note}`,
  );

/** Reads a file each time it has grown, as a session does: nothing is read twice but a last line without its end. */
function readGrowing(states: readonly Uint8Array[]) {
  let part: ReadPart | undefined;
  let upTo: ReadUpTo | undefined;
  const read: { taken: ReadPart['taken']; letters: number }[] = [];
  for (const bytes of states) {
    const grown = grownText(bytes, part?.soFar ? upTo : undefined);
    const before = grown.goesOn ? part : undefined;
    part = finish(readOnSteps(layout, rooms, before, grown.lines));
    upTo = grown.upTo;
    const taken = finish(withRestSteps(layout, rooms, part, grown.rest));
    read.push({ taken: taken, letters: grown.lines.length + grown.rest.length });
  }
  return read;
}

describe('a file of readings that grows', () => {
  it('reads as it does whole, wherever it was cut, and cut within a letter too', () => {
    fc.assert(
      fc.property(
        fc.array(row, { maxLength: 30 }),
        fc.constantFrom('\n', '\r\n'),
        fc.array(fc.nat(), { maxLength: 5 }),
        (lines, eol, cuts) => {
          const text = `\uFEFF${[HEAD, ...lines, ''].join(eol)}`;
          const bytes = new TextEncoder().encode(text);
          const at = cuts.map((cut) => cut % (bytes.length + 1)).sort((a, b) => a - b);
          const last = readGrowing([...at.map((cut) => bytes.subarray(0, cut)), bytes]).at(-1)?.taken;
          const whole = readReadings(text, layout, rooms);
          expect(last?.rooms).toEqual(whole.rooms);
          expect([last?.notTaken, last?.faults]).toEqual([whole.notTaken, whole.faults]);
        },
      ),
    );
  });

  it('is told only what was added, and all of it once something before that has changed', () => {
    const first = `${HEAD}\n${'2026-10-01 06:00,R1,1.5,0.8,\n'.repeat(500)}`;
    const more = '2026-10-02 06:00,R1,1.6,0.8,\n';
    const states = [first, first + more, first.replace('1.5', '1.7') + more];
    const [whole, added, changed] = readGrowing(states.map((text) => new TextEncoder().encode(text)));
    expect(whole?.letters).toBe(first.length);
    expect(added?.letters).toBe(more.length);
    expect(changed?.letters).toBe(first.length + more.length);
  });
});

describe('the row that a reading was read from', () => {
  const file = (text: string, readings = 'r'): FileRead => ({
    ...readReadings(text, layout, rooms),
    readings,
    file: `${readings}.csv`,
    isMissing: false,
  });
  const one = file(
    `${HEAD}\n2026-10-01 06:00,R2,1.5,0.8,\n2026-10-01 06:00,R1,1.5,0.8,\n2026-10-01 12:00,R1,,0.8,\n2026-10-02 06:00,R1,1.6,0.8,\n`,
  );
  const other = file(`${HEAD}\n2026-10-01 18:00,R1,1.4,0.8,\n`, 's');
  const MINUTE = 20727 * 1440 + 7 * 60;

  it('is the first with a reading of the quantity from a time on, or the last before it', () => {
    expect(rowOf([one], 'R1', 'oxygen', MINUTE)).toEqual({
      readings: 'r',
      file: 'r.csv',
      line: 5,
      time: 20728 * 1440 + 360,
    });
    expect(rowOf([one], 'R1', 'temperature', MINUTE)?.line).toBe(4);
    expect(rowOf([one], 'R1', 'oxygen', MINUTE, true)?.line).toBe(3);
    expect(rowOf([one, other], 'R1', 'oxygen', MINUTE)).toMatchObject({ readings: 's', line: 2 });
    expect(rowOf([one], 'R1', 'oxygen', MINUTE + 5000)).toBeUndefined();
    expect(rowOf([one], 'R3', 'oxygen', MINUTE)).toBeUndefined();
  });

  it('stands in a file whose path is seen from the folder of the plan file', () => {
    expect(fileOfReadings(layout)).toBe('logs/r.csv');
  });
});

function only<T>(values: Iterable<T>): T {
  for (const value of values) return value;
  throw new Error('there is none');
}
