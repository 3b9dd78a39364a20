import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPlan } from '../../src/plan/read';
import { readReadings } from '../../src/readings/read-readings';
import { ReadingStream } from '../../src/readings/reading-stream';
import { type RunningRoom, withMore } from '../../src/readings/running';
import { summaryOf, summaryOfRunning } from '../../src/readings/summary';

const plan = readPlan([
  {
    path: 'a.lotplan.yaml',
    text: `lotwright: 1
readings:
  r: { file: r.csv, columns: { time: Time, room: Room, oxygen: O2, temperature: Air } }
`,
  },
]);
const layout = plan.readings.get('r');
if (!layout) throw new Error('the example has its readings');
const rooms = new Set(['R1', 'R2', 'East, upper']);

const HEAD = 'Time,Room,O2,Air,Note';
const row = fc
  .record({
    hour: fc.integer({ min: 0, max: 23 }),
    day: fc.integer({ min: 1, max: 28 }),
    room: fc.constantFrom('R1', 'R2', 'R9', '"East, upper"'),
    oxygen: fc.constantFrom('1.5', '', 'err', '20.9'),
    note: fc.constantFrom('', '"two\nlines"', '"a ""word"""', 'plain'),
  })
  .map(
    ({ hour, day, room, oxygen, note }) =>
      `2026-10-${String(day).padStart(2, '0')} ${String(hour).padStart(2, '0')}:00,${room},${oxygen},0.8,${note}`,
  );
const end = fc.constantFrom('\n', '\r\n');

describe('a file of readings that comes in pieces', () => {
  it('reads as it does at one go, wherever it is cut', () => {
    fc.assert(
      fc.property(
        fc.array(row, { maxLength: 40 }),
        end,
        fc.array(fc.nat(), { maxLength: 6 }),
        (lines, eol, cuts) => {
          const text = `\uFEFF${[HEAD, ...lines].join(eol)}`;
          const stream = new ReadingStream(layout, rooms);
          const at = [0, ...cuts.map((cut) => cut % (text.length + 1)).sort((a, b) => a - b), text.length];
          for (let index = 1; index < at.length; index++) stream.push(text.slice(at[index - 1], at[index]));
          stream.end();
          expect(stream.taken()).toEqual(readReadings(text, layout, rooms));
        },
      ),
    );
  });

  it('goes on where it had come to, and tells lines by their place in the whole file', () => {
    const first = `${HEAD}\n2026-10-01 06:00,R1,1.5,0.8,\n2026-10-01 07:00,R1,1.6,0.8,\n2026-10-01 08:00,R1`;
    const stream = new ReadingStream(layout, rooms);
    stream.push(first);
    expect(stream.waiting).toBe('2026-10-01 08:00,R1');
    expect(stream.taken().rows).toBe(2);
    const soFar = stream.soFar;
    expect(soFar?.lines).toBe(3);
    const later = new ReadingStream(layout, rooms, { from: soFar });
    later.push('2026-10-01 08:00,R1,1.7,0.8,\n2026-10-01 09:00,R9,1.7,0.8,\n');
    later.end();
    const { rows, faults, rooms: found } = later.taken();
    expect(rows).toBe(2);
    expect(faults[0]?.line).toBe(5);
    expect(found.get('R1')?.values.oxygen[0]).toBeCloseTo(1.7, 5);
  });
});

describe('what has been read so far', () => {
  it('with more comes to what all of it comes to', () => {
    const reading = fc.record({
      hour: fc.integer({ min: 0, max: 900 }),
      oxygen: fc.integer({ min: 0, max: 210 }),
    });
    fc.assert(
      fc.property(
        fc.uniqueArray(reading, { selector: ({ hour }) => hour, minLength: 1, maxLength: 80 }),
        fc.nat(),
        (all, cut) => {
          const sorted = [...all].sort((a, b) => a.hour - b.hour);
          const part = (from: number, to: number) => {
            const some = sorted.slice(from, to);
            const values = (of: (index: number) => number) =>
              Float32Array.from(some, (_, index) => of(index));
            return {
              room: 'R1',
              times: Float64Array.from(some, ({ hour }) => hour * 60),
              values: {
                oxygen: values((index) => (some[index]?.oxygen ?? 0) / 10),
                'carbon-dioxide': values(() => Number.NaN),
                temperature: values((index) => ((some[index]?.hour ?? 0) % 3 === 0 ? Number.NaN : 1)),
                humidity: values(() => Number.NaN),
              },
            };
          };
          const at = cut % (sorted.length + 1);
          const running = [part(0, at), part(at, sorted.length)].reduce<RunningRoom>(withMore, {});
          const whole = summaryOf(part(0, sorted.length));
          const pieces = summaryOfRunning(running);
          expect(pieces.map(({ mean, ...rest }) => rest)).toEqual(whole.map(({ mean, ...rest }) => rest));
          pieces.forEach(({ mean }, index) => {
            expect(mean).toBeCloseTo(whole[index]?.mean ?? 0, 9);
          });
        },
      ),
    );
  });
});
