import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fermentationOf, shareOfAir } from '../../../src/room/course/fruit-rate';
import { STATE } from '../../../src/room/course/state';
import type { RespirationLaw } from '../../../src/room/course/types';
import { aCourseRoom, atomsOff, integrate, type RoomSpec, scrubbing } from './rooms';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const RUNS = { numRuns: 30 };

/** A room kept at so little oxygen that its fruit ferments, some of it without any air let in. */
const fermenting: fc.Arbitrary<RoomSpec> = fc
  .record({
    kg: number(20_000, 400_000),
    gasVolumeM3: number(300, 2000),
    celsius: number(-1, 4),
    quotient: number(0.95, 1.15),
    share: number(0.25, 0.55),
    oxygenBreakpoint: number(0.4, 1.5),
    oxygen: number(0.05, 1),
    carbonDioxide: fc.option(number(0.3, 5), { nil: undefined }),
    leakM3h: number(0, 2),
    removal: fc.option(number(5, 120), { nil: undefined }),
    kind: fc.constantFrom('to-store-share', 'curve', 'share', 'air'),
  })
  .map(({ oxygen, carbonDioxide, removal, kind, ...spec }) => ({
    ...spec,
    untilHours: 24 * 250,
    law: { kind, storeOxygen: oxygen } as const,
    stages: [{ fromHours: 0, oxygen, carbonDioxide }],
    ...(removal === undefined ? {} : { scrubbing: scrubbing(removal) }),
  }));

const end = (spec: RoomSpec) => integrate(aCourseRoom(spec), { hours: [] });

describe('a room whose fruit ferments', () => {
  it('closes the atoms of carbon, oxygen and nitrogen to a thousandth of a millionth', () => {
    fc.assert(
      fc.property(fermenting, (spec) => {
        const course = end(spec);
        expect(course.complete).toBe(true);
        expect(course.last[STATE.fermented]).toBeGreaterThan(0);
        const off = atomsOff(course);
        expect(Math.max(off.carbon, off.oxygen, off.nitrogen)).toBeLessThan(1e-9);
      }),
      RUNS,
    );
  });

  it('takes up oxygen for respiration alone, and leaves ethanol for the rest of its sugar', () => {
    fc.assert(
      fc.property(fermenting, (spec) => {
        const { last, points } = end(spec);
        const of = (index: number) => last[index] ?? 0;
        const respired = of(STATE.carbonDioxideMade) - of(STATE.fermented);
        expect(respired / of(STATE.oxygenUsed)).toBeCloseTo(spec.quotient ?? 0, 9);
        const { dryMatterLostKg = 0, ethanolKg = 0, carbonDioxideMadeKg = 0 } = points.at(-1) ?? {};
        const carbonIn = (dryMatterLostKg * 12.011) / 30.026;
        const carbonOut = (carbonDioxideMadeKg * 12.011) / 44.0095 + (ethanolKg * 24.022) / 46.068;
        expect(carbonIn / carbonOut).toBeCloseTo(1, 3);
      }),
      RUNS,
    );
  });

  it('gives off no less with more fruit', () => {
    fc.assert(
      fc.property(fermenting, number(1, 2), (spec, times) => {
        const made = (kg: number) => end({ ...spec, kg }).last[STATE.carbonDioxideMade] ?? 0;
        expect(made((spec.kg ?? 0) * times)).toBeGreaterThanOrEqual(made(spec.kg ?? 0) * (1 - 1e-6));
      }),
      RUNS,
    );
  });

  it('does not depend on the steps by more than a thousandth', () => {
    fc.assert(
      fc.property(fermenting, (spec) => {
        // The laws that know no oxygen have a bend at 0.05 %, which a step may straddle.
        const room = aCourseRoom({ ...spec, law: { kind: 'to-store-share', storeOxygen: 0.3 } });
        const [coarse, fine] = [integrate(room), integrate(room, { tolerance: 1e-10 })];
        fc.pre(coarse.events.length === fine.events.length);
        coarse.points.forEach(({ oxygen, carbonDioxide }, index) => {
          const other = fine.points[index];
          expect(Math.abs(oxygen - (other?.oxygen ?? 0))).toBeLessThan(1e-3);
          expect(Math.abs(carbonDioxide - (other?.carbonDioxide ?? 0))).toBeLessThan(
            1e-3 * (1 + carbonDioxide),
          );
        });
        const [made, madeAgain] = [coarse, fine].map(({ last }) => last[STATE.fermented] ?? 0);
        expect(Math.abs((made ?? 0) / (madeAgain ?? 1) - 1)).toBeLessThan(1e-3);
      }),
      { numRuns: 10, endOnFailure: true },
    );
  });

  it('still gives off carbon dioxide where no oxygen is left', () => {
    const { points } = integrate(
      aCourseRoom({
        oxygenBreakpoint: 0.8,
        leakM3h: 0,
        weatherM3h: 0,
        stages: [{ fromHours: 0, oxygen: 0.001, carbonDioxide: 1.5 }],
        law: { kind: 'air' },
        scrubbing: scrubbing(200),
      }),
    );
    const [before, last] = [points.at(-3), points.at(-1)];
    expect(last?.oxygen).toBeLessThan(0.01);
    expect((last?.carbonDioxideMadeKg ?? 0) - (before?.carbonDioxideMadeKg ?? 0)).toBeGreaterThan(10);
    expect((last?.oxygenUsedM3 ?? 0) - (before?.oxygenUsedM3 ?? 0)).toBeLessThan(0.5);
  });
});

describe('the uptake of oxygen', () => {
  const law = (kind: RespirationLaw['kind']): RespirationLaw => ({ kind, halfAt: 5, storeOxygen: 1.5 });

  it('never rises where oxygen falls, whatever ferments', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('to-store-share', 'curve', 'share', 'air'),
        number(0, 20.9),
        number(0, 1),
        (kind, oxygen, part) => {
          const [more, less] = [oxygen, oxygen * part].map((one) => shareOfAir(law(kind), 0.35, one, 0));
          expect(less).toBeLessThanOrEqual(more ?? 0);
          const ferments = fermentationOf({ shareInStore: 0.35, oxygenBreakpoint: 0.7 }, law(kind));
          expect(ferments?.(oxygen * part)).toBeGreaterThanOrEqual(ferments?.(oxygen) ?? 0);
        },
      ),
    );
  });

  it('is a tenth short of the carbon dioxide at the breakpoint by each law', () => {
    for (const kind of ['to-store-share', 'curve', 'share', 'air'] as const) {
      const ferments = fermentationOf({ shareInStore: 0.35, oxygenBreakpoint: 0.7 }, law(kind));
      expect((ferments?.(0.7) ?? 0) / shareOfAir(law(kind), 0.35, 0.7, 0), kind).toBeCloseTo(0.1, 9);
      // Nothing to notice from 1.5 % on.
      expect((ferments?.(1.5) ?? 1) / shareOfAir(law(kind), 0.35, 1.5, 0), kind).toBeLessThan(5e-4);
    }
  });
});
