import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatDay } from '../../src/plan/dates';
import type { Lot } from '../../src/plan/model';
import { coolingCourse } from '../../src/room/cooling-course';
import { courseRoom } from '../../src/room/course/of-plan';
import { aFill, aLot, aPlan, day, given, known, onlyRoom } from './orchard';

const FIRST = '2026-09-03';
const LAST = '2026-09-08';
const september = (date: number) => day(`2026-09-${String(date).padStart(2, '0')}`);

function lotOn(id: string, [from, to]: readonly [number, number], celsius = 20, variety = 'Gala'): Lot {
  return { ...aLot(id, variety, celsius), picked: given({ first: september(from), last: september(to) }) };
}

function roomOf(lots: readonly Lot[], bins: Readonly<Record<string, number>>, arrivals?: 'evenly') {
  const plan = aPlan({
    lots,
    fills: [aFill({ first: FIRST, last: LAST, lots: bins })],
    arrivals: arrivals ?? 'as-picked',
  });
  return { plan, room: onlyRoom(plan) };
}

const daily = (room: ReturnType<typeof onlyRoom>) =>
  Object.fromEntries(room.arrivals.map((one) => [formatDay(one.day), [one.bins.value, one.field.value]]));

describe('what comes into a room each day', () => {
  it('is each lot over its days of picking, at its own temperature', () => {
    const { room } = roomOf([lotOn('A', [3, 4], 22), lotOn('B', [4, 6], 16)], { A: 120, B: 90 });
    expect(daily(room)).toEqual({
      '2026-09-03': [60, 22],
      // 60 of A at 22 and 30 of B at 16.
      '2026-09-04': [90, 20],
      '2026-09-05': [30, 16],
      '2026-09-06': [30, 16],
      // No fruit: the mean of the fill stands, (120 * 22 + 90 * 16) / 210.
      '2026-09-07': [0, expect.closeTo(19.428_571, 5)],
      '2026-09-08': [0, expect.closeTo(19.428_571, 5)],
    });
    expect(room.intake.map(({ bins }) => bins)).toEqual([60, 90, 30, 30, 0, 0]);
  });

  it('keeps within the first and last bin of the fill', () => {
    const { room } = roomOf(
      [lotOn('A', [1, 4]), lotOn('B', [7, 12]), lotOn('C', [1, 2]), lotOn('D', [20, 21])],
      { A: 100, B: 80, C: 10, D: 6 },
    );
    const bins = room.arrivals.map((one) => one.bins.value);
    expect(bins).toEqual([60, 50, 0, 0, 40, 46]);
  });

  it('spreads a lot without days over the whole fill, and all lots where the plan holds bins back', () => {
    const lots = [lotOn('A', [3, 4], 22), { ...aLot('B', 'Gala', 16), picked: undefined }];
    const { room } = roomOf(lots, { A: 120, B: 90 });
    expect(room.arrivals.map((one) => one.bins.value)).toEqual([75, 75, 15, 15, 15, 15]);
    const held = roomOf(lots, { A: 120, B: 90 }, 'evenly').room;
    for (const one of held.arrivals) {
      expect(one.bins.value).toBe(35);
      expect(one.field.value).toBeCloseTo((120 * 22 + 90 * 16) / 210, 9);
    }
  });

  it('says in its figures which lots it is', () => {
    const { room } = roomOf([lotOn('A', [3, 4], 22), lotOn('B', [4, 6], 16)], { A: 120, B: 90 });
    const [, fourth] = room.intake;
    expect(fourth?.binsIn.origin).toMatchObject({ kind: 'computed', formula: 'bins_A + bins_B' });
    expect(fourth?.fieldTemperature.origin).toMatchObject({
      formula: '(bins_A * temperature_A + bins_B * temperature_B) / (bins_A + bins_B)',
    });
  });

  it('is warm where it comes in: heat by the handbook law, day by day', () => {
    const { room } = roomOf([lotOn('A', [3, 3], 22), lotOn('B', [5, 5], 12)], { A: 120, B: 90 });
    const to = known(room.regime?.temperature);
    const left = (days: number) => 2 ** ((-24 * days) / 12.1);
    const heat = (kelvins: number) => (kelvins * 300 * 3.81) / 86_400;
    const [a, b] = [120 * (22 - to), 90 * (12 - to)];
    const byHand = [
      a * (1 - left(1)),
      a * (left(1) - left(2)),
      a * (left(2) - left(3)) + b * (1 - left(1)),
      a * (left(3) - left(4)) + b * (left(1) - left(2)),
    ];
    byHand.forEach((kelvins, index) => {
      expect(room.intake[index]?.fieldHeat.value).toBeCloseTo(heat(kelvins), 9);
    });
  });

  it('stands in the hour-by-hour cooling and in the gas course as it comes', () => {
    const { plan, room } = roomOf([lotOn('A', [3, 4], 22), lotOn('B', [6, 6], 14)], { A: 120, B: 90 });
    const batches = coolingCourse(plan, room)?.batches ?? [];
    expect(batches.map((one) => [formatDay(one.day), one.bins])).toEqual([
      ['2026-09-03', 60],
      ['2026-09-04', 60],
      ['2026-09-06', 90],
    ]);
    const fruit = courseRoom(room, september(30))?.room.fruit;
    expect(fruit?.batches.map(({ share, fieldCelsius }) => [share, fieldCelsius])).toEqual([
      [60 / 210, 22],
      [60 / 210, 22],
      [90 / 210, 14],
    ]);
  });
});

describe('for any lots', () => {
  const anyLot = fc.record({
    from: fc.integer({ min: 1, max: 12 }),
    lasts: fc.integer({ min: 0, max: 8 }),
    bins: fc.integer({ min: 1, max: 150 }),
    celsius: fc.integer({ min: 5, max: 30 }),
    dated: fc.boolean(),
  });
  type AnyLot = typeof anyLot extends fc.Arbitrary<infer T> ? T : never;

  const room = (lots: readonly (AnyLot & { id: string })[], celsius?: number, arrivals?: 'evenly') =>
    roomOf(
      lots.map((one) => {
        const lot = lotOn(one.id, [one.from, one.from + one.lasts], celsius ?? one.celsius);
        return one.dated ? lot : { ...lot, picked: undefined };
      }),
      Object.fromEntries(lots.map((one) => [one.id, one.bins])),
      arrivals,
    ).room;
  const lots = fc
    .array(anyLot, { minLength: 1, maxLength: 6 })
    .map((all) => all.map((one, index) => ({ ...one, id: `L${index}` })));

  it('all bins come in, once each, and as warm in the mean as the lots are', () => {
    fc.assert(
      fc.property(lots, (all) => {
        const { arrivals, intake, meanFieldTemperature } = room(all);
        const bins = all.reduce((sum, one) => sum + one.bins, 0);
        expect(arrivals.reduce((sum, one) => sum + one.bins.value, 0)).toBeCloseTo(bins, 9);
        expect(intake.reduce((sum, one) => sum + one.bins, 0)).toBe(bins);
        const warmth = arrivals.reduce((sum, one) => sum + one.bins.value * one.field.value, 0);
        expect(warmth / bins).toBeCloseTo(known(meanFieldTemperature), 9);
      }),
    );
  });

  it('the order of the lots changes nothing', () => {
    fc.assert(
      fc.property(lots, (all) => {
        const [there, back] = [room(all), room([...all].reverse())];
        there.intake.forEach((one, index) => {
          expect(back.intake[index]?.bins).toBe(one.bins);
          expect(back.intake[index]?.binsIn.value).toBe(one.binsIn.value);
          expect(back.intake[index]?.fieldTemperature.value).toBe(one.fieldTemperature.value);
          expect(back.intake[index]?.heat.value).toBeCloseTo(one.heat.value, 9);
        });
      }),
    );
  });

  it('fruit that is as warm gives up as much heat in all, whenever it comes', () => {
    fc.assert(
      fc.property(lots, fc.integer({ min: 5, max: 30 }), (all, celsius) => {
        const [picked, held] = [room(all, celsius), room(all, celsius, 'evenly')];
        const bins = all.reduce((sum, one) => sum + one.bins, 0);
        // What is given up in the days of the fill, and what the fruit still has at their end, is what it brought.
        const total = ({ intake, regime }: typeof picked) => {
          const to = known(regime?.temperature);
          const given = intake.reduce((sum, one) => sum + one.fieldHeat.value, 0) * 86_400;
          const kept = intake.reduce(
            (sum, one, index) =>
              sum + one.binsIn.value * (celsius - to) * 2 ** ((-24 * (intake.length - index)) / 12.1),
            0,
          );
          return given / (300 * 3.81) + kept;
        };
        expect(total(picked)).toBeCloseTo(total(held), 6);
        expect(total(picked)).toBeCloseTo(bins * (celsius - known(picked.regime?.temperature)), 6);
      }),
    );
  });
});
