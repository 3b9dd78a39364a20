import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { byRoom } from '../../src/readings/combine';
import { daysOf } from '../../src/readings/days';
import { readReadings } from '../../src/readings/read-readings';
import { summaryOf } from '../../src/readings/summary';
import { timeText } from '../../src/readings/time-text';
import type { RoomReadings } from '../../src/readings/types';

const plan = readPlan([
  {
    path: 'a.lotplan.yaml',
    text: `lotwright: 1
readings:
  cold-store:
    file: readings/cold-store.csv
    columns: { time: Time, room: Room, oxygen: O2, carbon-dioxide: CO2, temperature: Air }
    separator: semicolon
    decimal: comma
    dates: day-month-year
    units: { temperature: °F }
    names: { room: { K01: R1 } }
`,
  },
]);
const layout = plan.readings.get('cold-store');
if (!layout) throw new Error('the example has its readings');
const rooms = new Set(['R1', 'R2']);
const read = (text: string) => readReadings(text, layout, rooms);
const HEAD = 'Time;Room;O2;CO2;Air\n';

describe('a file of readings', () => {
  it('is read by its layout, in the units of the tool', () => {
    const { rooms: found, notTaken } = read(
      `${HEAD}18.09.2026 06:00;K01;1,52;1,80;33,8\n18.09.2026 07:00;R2;;2,1;\n`,
    );
    expect(notTaken).toBe(0);
    const [r1, r2] = [found.get('R1'), found.get('R2')];
    expect(timeText(r1?.times[0] ?? 0)).toBe('2026-09-18 06:00');
    expect(r1?.values.oxygen[0]).toBeCloseTo(1.52, 5);
    // 33.8 °F = 1.0 °C
    expect(r1?.values.temperature[0]).toBeCloseTo(1, 5);
    expect(r2?.values.oxygen[0]).toBeNaN();
    expect(r2?.values['carbon-dioxide'][0]).toBeCloseTo(2.1, 5);
  });

  it('names the rows it cannot take, with their line, and takes all others', () => {
    const {
      rooms: found,
      faults,
      notTaken,
      rows,
    } = read(
      `${HEAD}18.09.2026 06:00;R1;1,5;;\n18.09.2026 25:00;R1;1,5;;\n32.09.2026;R1;1,5;;\n18.09.2026 07:00;R9;1,5;;\n18.09.2026 08:00;R1;err;;\n18.09.2026 09:00;R1;1,6;;\n`,
    );
    expect(rows).toBe(6);
    expect(notTaken).toBe(4);
    expect(faults.map(({ line }) => line)).toEqual([3, 4, 5, 6]);
    expect(faults[2]?.reason).toContain('The plan has no room `R9`');
    expect(found.get('R1')?.times).toHaveLength(2);
  });

  it('takes no row with a number that cannot be, in the units of the file', () => {
    const row = (hour: number, cells: string) => `18.09.2026 0${hour}:00;R1;${cells}\n`;
    const { rooms: found, faults } = read(
      HEAD +
        [
          row(0, '-5;2;34'),
          row(1, '250;2;34'),
          row(2, '1,5;100,1;34'),
          row(3, '1,5;2;-41'),
          row(4, '1,5;2;141'),
          row(5, '0;0;-39'),
          row(6, '100;100;139'),
        ].join(''),
    );
    expect(faults.map(({ line }) => line)).toEqual([2, 3, 4, 5, 6]);
    expect(faults[0]?.reason).toMatch(/^"-5" cannot be \(`oxygen`\): 0 to 100 % is expected\./);
    expect(faults[3]?.reason).toMatch(/^"-41" cannot be \(`temperature`\): -40 to 60 °C is expected\./);
    expect(found.get('R1')?.times).toHaveLength(2);
  });

  it('tells a heading that is not there, and reads nothing then', () => {
    const { rooms: found, faults } = read('Time;Chamber;O2;CO2;Air\n18.09.2026 06:00;R1;1,5;;\n');
    expect(found.size).toBe(0);
    expect(faults[0]).toEqual({
      line: 1,
      reason: 'No column is called "Room" (`room`). There are "Time", "Chamber", "O2", "CO2", "Air".',
      column: { field: 'room', meant: undefined },
    });
  });

  it('keeps the first fifty faults and counts all', () => {
    const { faults, notTaken } = read(HEAD + 'x;R1;1;1;1\n'.repeat(400));
    expect(faults).toHaveLength(50);
    expect(notTaken).toBe(400);
  });
});

describe('what a record holds', () => {
  const text =
    HEAD +
    ['18.09.2026 06:00;R1;2,0', '18.09.2026 18:00;R1;1,0', '21.09.2026 06:00;R1;1,5']
      .map((row) => `${row};;\n`)
      .join('');

  it('is told day by day, with the longest gap and the days without', () => {
    const r1 = read(text).rooms.get('R1');
    if (!r1) throw new Error('R1 was read');
    const day = parseDay('2026-09-18') ?? 0;
    expect(daysOf(r1, 'oxygen')).toEqual([
      { day, count: 2, mean: 1.5, lowest: 1, highest: 2 },
      { day: day + 3, count: 1, mean: 1.5, lowest: 1.5, highest: 1.5 },
    ]);
    const [oxygen, ...others] = summaryOf(r1);
    expect(others).toEqual([]);
    expect(oxygen).toMatchObject({
      count: 3,
      latest: 1.5,
      lowest: 1,
      mean: 1.5,
      highest: 2,
      daysWithout: [day + 1, day + 2],
    });
    // From 18:00 on the 18th to 06:00 on the 21st.
    expect(oxygen?.longestGap?.hours).toBe(60);
    expect(timeText(oxygen?.longestGap?.from ?? 0)).toBe('2026-09-18 18:00');
  });

  it('of one time that two rows have is the later row, and of two files the later file', () => {
    const twice = read(`${HEAD}18.09.2026 06:00;R1;2,0;;\n18.09.2026 06:00;R1;1,0;;\n`);
    expect(twice.repeated).toBe(1);
    expect(twice.rooms.get('R1')?.values.oxygen[0]).toBe(1);
    const later = read(`${HEAD}18.09.2026 06:00;R1;3,0;;\n`);
    expect(byRoom([twice.rooms, later.rooms]).get('R1')?.values.oxygen[0]).toBe(3);
  });

  it('is the same for every order of the rows, and of files cut anywhere', () => {
    const row = fc.record({
      hour: fc.integer({ min: 0, max: 400 }),
      oxygen: fc.integer({ min: 0, max: 210 }),
    });
    fc.assert(
      fc.property(
        fc.uniqueArray(row, { selector: ({ hour }) => hour, minLength: 1, maxLength: 60 }),
        fc.nat(),
        (rows, seed) => {
          const lines = rows.map(
            ({ hour, oxygen }) =>
              `${String(1 + Math.floor(hour / 24)).padStart(2, '0')}.10.2026 ${hour % 24}:00;R1;${(oxygen / 10).toFixed(1).replace('.', ',')};;\n`,
          );
          const cut = seed % (lines.length + 1);
          const whole = read(HEAD + lines.join(''));
          const reversed = read(HEAD + [...lines].reverse().join(''));
          const halves = byRoom([
            read(HEAD + lines.slice(0, cut).join('')).rooms,
            read(HEAD + lines.slice(cut).join('')).rooms,
          ]);
          expect(withoutLines(reversed.rooms)).toEqual(withoutLines(whole.rooms));
          expect(withoutLines(halves)).toEqual(withoutLines(whole.rooms));
          const r1 = whole.rooms.get('R1');
          const total = daysOf(
            r1 ?? { room: 'R1', times: new Float64Array(), values: emptyValues() },
            'oxygen',
          );
          expect(total.reduce((sum, { count }) => sum + count, 0)).toBe(rows.length);
        },
      ),
    );
  });

  it('no text makes the reading fail', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 200 }), (junk) => {
        expect(read(HEAD + junk).notTaken).toBeGreaterThanOrEqual(0);
        expect(read(junk).notTaken).toBeGreaterThanOrEqual(0);
      }),
    );
  });
});

function emptyValues() {
  const none = new Float32Array();
  return { oxygen: none, 'carbon-dioxide': none, temperature: none, humidity: none };
}

/** Where a reading stands in its file is of the file, not of what was read. */
function withoutLines(rooms: ReadonlyMap<string, RoomReadings>): Map<string, RoomReadings> {
  return new Map([...rooms].map(([room, { lines, ...rest }]) => [room, rest]));
}
