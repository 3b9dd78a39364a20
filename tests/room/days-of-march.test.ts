import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MarchRoom } from '../../src/room/cooling-march';
import { march, marchTogether } from '../../src/room/group-march';
import { type Marched, NOT_MARCHED } from '../../src/room/marched';

/** Rooms whose coolers are large, just enough or far too small, with days on which nothing comes in. */
const rooms: fc.Arbitrary<MarchRoom> = fc
  .record({
    loads: fc.array(
      fc.record({
        bins: fc.constantFrom(0, 3, 20, 45.5),
        celsius: fc.double({ min: -1, max: 30, noNaN: true }),
      }),
      {
        minLength: 1,
        maxLength: 6,
      },
    ),
    firstDay: fc.integer({ min: 20_600, max: 20_606 }),
    halfTimeHours: fc.double({ min: 4, max: 40, noNaN: true }),
    lag: fc.double({ min: 1, max: 2, noNaN: true }),
    cooler: fc.constantFrom(1, 4, 9, 30, Number.POSITIVE_INFINITY),
    knots: fc.constantFrom(
      [{ hours: 0, celsius: 1 }],
      [
        { hours: 0, celsius: 6 },
        { hours: 60, celsius: 6 },
        { hours: 100, celsius: 1 },
      ],
    ),
  })
  .map(({ cooler, knots, ...room }) => ({
    ...room,
    fruitKgInBin: 300,
    heatOfBin: 1200,
    roomTemperature: { knots },
    respiration: [
      {
        share: 0.6,
        inAir: { pieces: [{ upper: 20, low: 0, logLow: 1, slope: 0.1 }], alone: 3 },
        joules: 10.7,
      },
      { share: 0.4, inAir: { pieces: [], alone: 5 }, joules: 10.7 },
    ],
    loadingKw: 2,
    coolingKw: 1.5,
    capacityKw: () => cooler,
    coldKw: () => 1.6,
  }));

const told = (marched: Marched | undefined) =>
  marched && [marched.days.all(), marched.batches(), marched.shortHours, marched.allColdAtHours()];

describe('rooms that are marched together', () => {
  it('lets rooms have what they would have alone where the plant is large enough', () => {
    fc.assert(
      fc.property(fc.array(rooms, { minLength: 1, maxLength: 4 }), (several) => {
        const together = marchTogether(several, Number.POSITIVE_INFINITY);
        expect(together.map(told)).toEqual(several.map((room) => told(march(room))));
      }),
    );
  });

  it('gives no more in the mean of a day than the plant has for the rooms that are cooled', () => {
    fc.assert(
      fc.property(
        fc.array(rooms, { minLength: 2, maxLength: 4 }),
        fc.double({ min: 1, max: 40, noNaN: true }),
        (several, plantKw) => {
          const byDay = new Map<number, number>();
          for (const { days } of marchTogether(several, plantKw))
            for (const { day, takenKw } of days.all()) byDay.set(day, (byDay.get(day) ?? 0) + takenKw);
          for (const taken of byDay.values()) expect(taken).toBeLessThanOrEqual(plantKw * (1 + 1e-9));
        },
      ),
    );
  });
});

describe('the days of a march', () => {
  it('are told one by one as all of them are', () => {
    fc.assert(
      fc.property(rooms, (room) => {
        const { days } = march(room);
        const all = days.all();
        expect([days.first, days.last]).toEqual([all[0]?.day, all.at(-1)?.day]);
        for (const one of all) expect([days.on(one.day), days.askedKw(one.day)]).toEqual([one, one.askedKw]);
        const beyond = [(days.first ?? 0) - 1, (days.last ?? 0) + 1];
        expect(beyond.map((day) => [days.on(day), days.askedKw(day)])).toEqual([
          [undefined, undefined],
          [undefined, undefined],
        ]);
      }),
    );
  });

  it('of no march are none', () => {
    expect([NOT_MARCHED.first, NOT_MARCHED.last, NOT_MARCHED.on(0), NOT_MARCHED.all()]).toEqual([
      undefined,
      undefined,
      undefined,
      [],
    ]);
  });
});
