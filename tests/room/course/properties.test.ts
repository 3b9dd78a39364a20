import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { STATE } from '../../../src/room/course/state';
import type { CourseRoom } from '../../../src/room/course/types';
import { aCourseRoom, atomsOff, feedOf, integrate, type RoomSpec, scrubbing } from './rooms';

const RUNS = { numRuns: 30 };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Any room that a store might have, over a season. */
const anySpec: fc.Arbitrary<RoomSpec> = fc
  .record({
    kg: number(1000, 400_000),
    gasVolumeM3: number(300, 2000),
    celsius: number(-1, 4),
    fieldCelsius: number(5, 28),
    quotient: number(0.95, 1.15),
    share: number(0.25, 0.55),
    oxygen: number(0.8, 4),
    carbonDioxide: fc.option(number(0.3, 5), { nil: undefined }),
    leakM3h: number(0, 5),
    weatherM3h: number(0, 0.5),
    removal: fc.option(number(1, 120), { nil: undefined }),
    bedAirM3h: number(0, 3),
    feed: fc.option(fc.tuple(number(0, 3), number(10, 300)), { nil: undefined }),
    law: fc.constantFrom('to-store-share', 'curve', 'share', 'air'),
  })
  .map(({ oxygen, carbonDioxide, removal, bedAirM3h, feed, law, ...spec }) => ({
    ...spec,
    untilHours: 24 * 250,
    law: { kind: law, storeOxygen: oxygen } as const,
    stages: [{ fromHours: 0, oxygen, carbonDioxide }],
    ...(removal === undefined
      ? {}
      : { scrubbing: { ...scrubbing(removal), bedAirM3h, turns: [{ fromHours: 0, share: 0.8 }] } }),
    ...(feed ? { feed: feedOf(feed[0], feed[1], Math.max(oxygen, feed[0] + 0.4)) } : {}),
  }));

const END = [24 * 250];
const end = (room: CourseRoom) => integrate(room, { hours: END });

describe('a season', () => {
  it('closes the atoms of carbon, oxygen and nitrogen to a thousandth of a millionth', () => {
    fc.assert(
      fc.property(anySpec, (spec) => {
        const off = atomsOff(end(aCourseRoom(spec)));
        expect(off.carbon).toBeLessThan(1e-9);
        expect(off.oxygen).toBeLessThan(1e-9);
        expect(off.nitrogen).toBeLessThan(1e-9);
      }),
      RUNS,
    );
  });

  it('keeps the room at the pressure outside, and no gas below nothing', () => {
    fc.assert(
      fc.property(anySpec, (spec) => {
        const { first, last, points } = integrate(aCourseRoom(spec));
        const moles = (state: Float64Array) => (state[0] ?? 0) + (state[1] ?? 0) + (state[2] ?? 0);
        expect(moles(last) / moles(first)).toBeCloseTo(1, 9);
        for (const { oxygen, carbonDioxide, nitrogen } of points) {
          expect(Math.min(oxygen, carbonDioxide, nitrogen)).toBeGreaterThanOrEqual(0);
        }
      }),
      RUNS,
    );
  });

  it('only ever adds to its totals: nothing is scrubbed, let in or used backwards', () => {
    fc.assert(
      fc.property(anySpec, (spec) => {
        const { points } = integrate(aCourseRoom(spec));
        const totals = [
          'scrubbedKg',
          'oxygenLetInM3',
          'oxygenLeakedInM3',
          'oxygenAtBedsM3',
          'oxygenUsedM3',
        ] as const;
        for (const total of totals) {
          // The room's temperature is level in these, so cubic metres of one hour are those of another.
          const back = points.slice(1).map((point, index) => (points[index]?.[total] ?? 0) - point[total]);
          // A tenth of a litre or two is what the integration's own tolerance allows.
          expect(Math.max(...back), total).toBeLessThan(2e-4);
        }
      }),
      RUNS,
    );
  });

  it('never takes back nitrogen that was fed, while the room comes down from a warm hold either', () => {
    fc.assert(
      fc.property(anySpec, number(-1, 4), number(2, 12), number(0, 20), (spec, celsius, warmer, days) => {
        const room = aCourseRoom({ ...spec, celsius, feed: spec.feed ?? feedOf(1, 100, 3) });
        const { points } = integrate({
          ...room,
          temperature: {
            knots: [
              { hours: 24 * days, celsius: celsius + warmer },
              { hours: 24 * (days + 7), celsius },
            ],
          },
        });
        const fed = points.map(({ nitrogenFedM3 }) => nitrogenFedM3);
        expect(Math.max(...fed.slice(1).map((now, index) => (fed[index] ?? 0) - now))).toBeLessThan(2e-4);
        expect(fed.at(-1)).toBeGreaterThan(0);
      }),
      RUNS,
    );
  });

  it('does not depend on the steps: a thousandth of the tolerance changes nothing by more than 0.001 points', () => {
    fc.assert(
      fc.property(anySpec, (spec) => {
        const room = aCourseRoom(spec);
        const [{ points: coarse, events }, { points: fine, events: finer }] = [
          integrate(room),
          integrate(room, { tolerance: 1e-10 }),
        ];
        // Nitrogen that comes to its level only in the limit reaches it or not by the last digit.
        fc.pre(events.length === finer.length);
        coarse.forEach((point, index) => {
          expect(Math.abs(point.oxygen - (fine[index]?.oxygen ?? 0))).toBeLessThan(1e-3);
          expect(Math.abs(point.carbonDioxide - (fine[index]?.carbonDioxide ?? 0))).toBeLessThan(1e-3);
        });
        const [made, madeAgain] = [
          coarse.at(-1)?.carbonDioxideMadeKg ?? 0,
          fine.at(-1)?.carbonDioxideMadeKg ?? 0,
        ];
        expect(Math.abs(made - madeAgain) / madeAgain).toBeLessThan(1e-5);
      }),
      { numRuns: 15 },
    );
  });

  it('makes oxygen used, carbon dioxide and dry matter from one rate', () => {
    fc.assert(
      fc.property(anySpec, (spec) => {
        const course = end(aCourseRoom(spec));
        const [made, used] = [STATE.carbonDioxideMade, STATE.oxygenUsed].map((one) => course.last[one] ?? 0);
        expect((made ?? 0) / (used ?? 1)).toBeCloseTo(spec.quotient ?? 1.05, 9);
        const last = course.points.at(-1);
        // The carbon in the dry matter (CH2O, 12.011 of 30.026) is the carbon in the carbon dioxide (12.011 of 44.009).
        const carbonLost = ((last?.dryMatterLostKg ?? 0) * 12.011) / 30.026;
        expect(carbonLost / (((last?.carbonDioxideMadeKg ?? 1) * 12.011) / 44.009)).toBeCloseTo(1, 3);
      }),
      RUNS,
    );
  });
});

describe('what must hold for any room', () => {
  const madeBy = (spec: RoomSpec) => end(aCourseRoom(spec)).points.at(-1)?.carbonDioxideMadeKg ?? 0;

  it('more fruit never gives off less carbon dioxide', () => {
    fc.assert(
      fc.property(anySpec, number(1, 2), (spec, times) => {
        expect(madeBy({ ...spec, kg: (spec.kg ?? 0) * times })).toBeGreaterThanOrEqual(
          madeBy(spec) * (1 - 1e-6),
        );
      }),
      RUNS,
    );
  });

  it('warmer fruit never gives off less', () => {
    fc.assert(
      fc.property(anySpec, number(0, 6), (spec, more) => {
        const warmer = { ...spec, fieldCelsius: (spec.fieldCelsius ?? 0) + more };
        expect(madeBy(warmer)).toBeGreaterThanOrEqual(madeBy(spec) * (1 - 1e-6));
      }),
      RUNS,
    );
  });

  it('purer nitrogen never takes longer', () => {
    fc.assert(
      fc.property(anySpec, number(0.2, 3), number(0, 1), number(20, 300), (spec, inGas, share, flow) => {
        // Never, where changes of beds bring in more oxygen than the nitrogen takes out.
        const hours = (oxygenInGas: number) => {
          const course = end(aCourseRoom({ ...spec, feed: feedOf(oxygenInGas, flow, 3.5) }));
          const stops = course.events.find(({ kind }) => kind === 'feed-stops');
          return stops?.hours ?? Number.POSITIVE_INFINITY;
        };
        expect(hours(inGas * share)).toBeLessThanOrEqual(hours(inGas) * (1 + 1e-6));
      }),
      RUNS,
    );
  });

  it('a tighter room never lets in more', () => {
    fc.assert(
      fc.property(anySpec, number(0, 1), (spec, share) => {
        const leaked = (leakM3h: number) => end(aCourseRoom({ ...spec, leakM3h })).last[STATE.airLeaked] ?? 0;
        const leak = spec.leakM3h ?? 0;
        expect(leaked(leak * share)).toBeLessThanOrEqual(leaked(leak) * (1 + 1e-6) + 1e-6);
      }),
      RUNS,
    );
  });
});

describe('numbers that no room has', () => {
  const odd = (...more: number[]) => fc.oneof(fc.constantFrom(0, 1e-9, 1e9, ...more), number(0, 1000));

  it('never throw, and are told apart from a course', () => {
    fc.assert(
      fc.property(
        fc.record({
          kg: odd(),
          gasVolumeM3: fc.oneof(fc.constantFrom(1e-6, 1e6), number(0.1, 2000)),
          rate: odd(),
          quotient: number(0.01, 10),
          leakM3h: odd(),
          weatherM3h: odd(),
          oxygen: number(0.001, 18),
          carbonDioxide: odd(),
          removal: odd(),
          bedAirM3h: odd(),
          purity: number(0, 20),
          flow: odd(),
        }),
        ({ oxygen, carbonDioxide, removal, bedAirM3h, purity, flow, ...spec }) => {
          const course = integrate(
            aCourseRoom({
              ...spec,
              untilHours: 24 * 30,
              stages: [{ fromHours: 0, oxygen, carbonDioxide }],
              scrubbing: { ...scrubbing(removal), bedAirM3h },
              feed: feedOf(purity, flow, oxygen),
            }),
          );
          const finite = course.points.every((point) => Object.values(point).every(Number.isFinite));
          expect(!course.complete || finite).toBe(true);
        },
      ),
      { numRuns: 15 },
    );
  });
});
