import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { STATE } from '../../../src/room/course/state';
import { aCourseRoom, atomsOff, integrate, type RoomSpec, scrubbing } from './rooms';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const RUNS = { numRuns: 30 };
const tight = { leakM3h: 0, weatherM3h: 0 };

const withMembrane = (removal: number, overOxygen: number, overNitrogen: number) => ({
  ...scrubbing(removal),
  membrane: { oxygen: 1 / overOxygen, nitrogen: 1 / overNitrogen },
});

/** A room on a membrane, over a season. */
const anySpec: fc.Arbitrary<RoomSpec> = fc
  .record({
    kg: number(1000, 400_000),
    gasVolumeM3: number(300, 2000),
    celsius: number(-1, 4),
    oxygen: number(0.8, 4),
    carbonDioxide: fc.option(number(0.3, 5), { nil: undefined }),
    leakM3h: number(0, 3),
    removal: number(1, 120),
    overOxygen: number(1, 30),
    overNitrogen: number(1, 60),
    oxygenBreakpoint: number(0.5, 1.2),
  })
  .map(({ oxygen, carbonDioxide, removal, overOxygen, overNitrogen, ...spec }) => ({
    ...spec,
    untilHours: 24 * 250,
    law: { storeOxygen: oxygen },
    stages: [{ fromHours: 0, oxygen, carbonDioxide }],
    scrubbing: withMembrane(removal, overOxygen, overNitrogen),
  }));

describe('a room on a membrane', () => {
  it('closes the atoms of carbon, oxygen and nitrogen to a thousandth of a millionth', () => {
    fc.assert(
      fc.property(anySpec, (spec) => {
        const course = integrate(aCourseRoom(spec), { hours: [] });
        expect(course.complete).toBe(true);
        const off = atomsOff(course);
        expect(Math.max(off.carbon, off.oxygen, off.nitrogen)).toBeLessThan(1e-9);
        const moles = (state: Float64Array) => (state[0] ?? 0) + (state[1] ?? 0) + (state[2] ?? 0);
        expect(moles(course.last) / moles(course.first)).toBeCloseTo(1, 9);
      }),
      { ...RUNS, endOnFailure: true },
    );
  });

  it('settles where the difference to outside air takes out what the fruit gives off', () => {
    const { points } = integrate(
      aCourseRoom({
        ...tight,
        law: { kind: 'air' },
        quotient: 1,
        stages: [{ fromHours: 0, oxygen: 2 }],
        // So selective that nothing else passes.
        scrubbing: withMembrane(30, 1e9, 1e9),
      }),
    );
    const [before, last] = [points.at(-2), points.at(-1)];
    const aDay =
      (24 * ((last?.scrubbedKg ?? 0) - (before?.scrubbedKg ?? 0))) /
      ((last?.hours ?? 0) - (before?.hours ?? 0));
    expect(aDay / (30 * ((last?.carbonDioxide ?? 0) - 0.04))).toBeCloseTo(1, 5);
    // 250 t at 3 mg/kg/h give 18 kg a day, 0.6 % above outside; air let in for their oxygen thins it a little.
    expect(last?.carbonDioxide).toBeLessThan(0.64);
    expect(last?.carbonDioxide).toBeGreaterThan(0.62);
  });

  it('lets in less oxygen the more selective it is', () => {
    fc.assert(
      fc.property(anySpec, number(1, 10), number(1, 4), (spec, over, times) => {
        const passed = (overOxygen: number) =>
          integrate(
            aCourseRoom({ ...spec, scrubbing: withMembrane(40, overOxygen, 40), untilHours: 24 * 60 }),
            { hours: [] },
          ).last[STATE.oxygenThroughMembrane] ?? 0;
        expect(passed(over * times)).toBeLessThanOrEqual(passed(over) * (1 + 1e-6));
      }),
      { ...RUNS, endOnFailure: true },
    );
  });

  it('brings oxygen above its set-point where more passes than the fruit uses', () => {
    const at = (overOxygen: number) =>
      integrate(
        aCourseRoom({
          ...tight,
          stages: [{ fromHours: 0, oxygen: 1.5, carbonDioxide: 1.5 }],
          scrubbing: withMembrane(30, overOxygen, 30),
        }),
      );
    // What passes for each of carbon dioxide is (20.9 - 1.5) / (1.5 - 0.04) / selectivity: 13.3 over it.
    expect(at(30).points.at(-1)?.oxygen).toBeCloseTo(1.5, 3);
    expect(at(8).events.map(({ kind }) => kind)).not.toContain('set-point-reached');
    expect(at(8).points.at(-1)?.oxygen).toBeGreaterThan(2);
  });
});
