import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coolingCourse, intakeLimit } from '../../src/room/cooling-course';
import { courseRoom } from '../../src/room/course/of-plan';
import { aFill, aLot, aPlan, aRoom, day, figure, known, onlyRoom, type PlanSpec } from './orchard';

function courseOf(spec: PlanSpec = {}, options: Parameters<typeof coolingCourse>[2] = {}) {
  const plan = aPlan(spec);
  const course = coolingCourse(plan, onlyRoom(plan), options);
  if (!course) throw new Error('no course');
  return { course, plan, room: onlyRoom(plan) };
}

/** A room whose cooler is never short. */
const strong = { rooms: [aRoom({ coolerCapacity: figure('kW', 10_000) })] };

describe('cooling with a cooler that is never short', () => {
  const { course, room } = courseOf(strong);

  it("makes each day's fruit seven-eighths cool in three half-times", () => {
    expect(course.batches).toHaveLength(6);
    // 3 * 12.1 h.
    for (const { sevenEighths } of course.batches) expect(known(sevenEighths) * 24).toBeCloseTo(36.3, 6);
    expect(course.shortOfCooling.value).toBe(0);
  });

  it('follows the law at the end of each day', () => {
    const [first] = course.batches;
    first?.temperatures.forEach(({ celsius }, index) => {
      expect(celsius).toBeCloseTo(1 + 19 * 2 ** ((-24 * (index + 1)) / 12.1), 9);
    });
  });

  it('has all fruit cold, and the room ready to be sealed, when the last day is', () => {
    // Last bin on 8 September; 36.3 h after the start of that day is in the second day.
    expect(known(course.allCold)).toBeCloseTo(5 + 36.3 / 24, 6);
    expect(course.canBeSealed).toBe(day('2026-09-10'));
  });

  it('takes the heat that the intake says, day by day', () => {
    room.intake.forEach(({ heat }, index) => {
      const taken = course.days[index]?.takenKw ?? 0;
      // The intake spreads bins evenly to the fraction, and takes respiration at a mean temperature.
      expect(taken / heat.value).toBeGreaterThan(0.98);
      expect(taken / heat.value).toBeLessThan(1.03);
    });
  });

  it('waits for its lag', () => {
    const { course: late } = courseOf(strong, { lag: 1.2 });
    // ln(8 * 1.2) / ln 2 half-times.
    expect(known(late.batches[0]?.sevenEighths) * 24).toBeCloseTo((Math.log(9.6) / Math.LN2) * 12.1, 6);
  });

  it("takes the room's own lag, in its days, its heat and its gas course alike", () => {
    const rooms = [aRoom({ coolerCapacity: figure('kW', 10_000), coolingLag: figure('1', 1.4) })];
    const { course: late, room: lagging, plan } = courseOf({ rooms });
    const hours = (Math.log(8 * 1.4) / Math.LN2) * 12.1;
    expect(known(lagging.sevenEighthsTime)).toBeCloseTo(hours, 9);
    expect(known(late.batches[0]?.sevenEighths) * 24).toBeCloseTo(hours, 6);
    // The first day takes less heat out than without a lag, and all days together as much in the end.
    expect(lagging.intake[0]?.fieldHeat.value).toBeLessThan(room.intake[0]?.fieldHeat.value ?? 0);
    lagging.intake.forEach(({ heat }, index) => {
      const taken = late.days[index]?.takenKw ?? 0;
      expect(taken / heat.value).toBeGreaterThan(0.98);
      expect(taken / heat.value).toBeLessThan(1.03);
    });
    const sealed = courseRoom(onlyRoom(plan), day('2027-03-01'));
    expect(sealed?.room.fruit.lag).toBe(1.4);
    expect(known(intakeLimit(plan, lagging)?.quickest)).toBeCloseTo(hours / 24, 6);
  });
});

describe('cooling with too small a cooler', () => {
  const small = (kilowatts: number) => ({ rooms: [aRoom({ coolerCapacity: figure('kW', kilowatts) })] });

  it('takes no more than there is, and the fruit is cold later', () => {
    const { course } = courseOf(small(34));
    for (const { takenKw } of course.days) expect(takenKw).toBeLessThanOrEqual(34 + 1e-9);
    expect(course.shortOfCooling.value).toBeGreaterThan(24);
    expect(known(course.allCold)).toBeGreaterThan(known(courseOf(strong).course.allCold) + 0.5);
    expect(course.canBeSealed).toBeGreaterThan(day('2026-09-10'));
  });

  it('is never sooner with less cooling or warmer fruit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 38, max: 150, noNaN: true }),
        fc.double({ min: 1, max: 1.5, noNaN: true }),
        fc.double({ min: 8, max: 25, noNaN: true }),
        (kilowatts, times, field) => {
          const cold = (kw: number, at: number) =>
            courseOf({ ...small(kw), lots: [aLot('L1', 'Gala', at), aLot('L2', 'Fuji', at)] }).course.allCold
              ?.value ?? Number.POSITIVE_INFINITY;
          expect(cold(kilowatts, field)).toBeGreaterThanOrEqual(cold(kilowatts * times, field) - 1e-6);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('never cools where it does not take what comes in beside the fruit', () => {
    const { course } = courseOf(small(5));
    expect(course.allCold).toBeUndefined();
    expect(course.canBeSealed).toBeUndefined();
  });
});

describe('the daily intake that keeps the promise of five days', () => {
  const limitOf = (kilowatts: number, spec: PlanSpec = {}) => {
    const plan = aPlan({ rooms: [aRoom({ coolerCapacity: figure('kW', kilowatts) })], ...spec });
    const limit = intakeLimit(plan, onlyRoom(plan));
    if (!limit) throw new Error('no limit');
    return { limit, plan };
  };

  it('is the whole room where the cooler is never short', () => {
    expect(limitOf(10_000).limit.largest?.value).toBe(550);
    // Cold 36.3 h after the last day begins: the last bins on the fourth day, 3 + 1.51 days.
    expect(limitOf(10_000).limit.smallest?.value).toBe(Math.ceil(550 / 4));
  });

  it('is smaller with a smaller cooler, and one bin more a day breaks it', () => {
    const [large, small] = [limitOf(60), limitOf(32)].map(({ limit }) => known(limit.largest));
    expect(small).toBeLessThan(large ?? 0);
    expect(small).toBeGreaterThan(10);
    const slowest = (daily: number) => {
      // A fill whose bins divide evenly over its days is the same intake.
      const days = Math.floor(550 / daily);
      const lots = { L1: daily * days };
      const last = `2026-09-${String(2 + days).padStart(2, '0')}`;
      const plan = aPlan({
        rooms: [aRoom({ coolerCapacity: figure('kW', 32) })],
        lots: [aLot('L1', 'Gala')],
        fills: [aFill({ last, lots })],
      });
      const course = coolingCourse(plan, onlyRoom(plan));
      return Math.max(...(course?.batches ?? []).map(({ sevenEighths }) => sevenEighths?.value ?? 99));
    };
    expect(slowest((small ?? 0) - 6)).toBeLessThan(5.2);
    expect(slowest((small ?? 0) + 25)).toBeGreaterThan(4.8);
  });

  it('is none for a room whose cooling is too little for any', () => {
    const { limit } = limitOf(8);
    expect(limit.largest).toBeUndefined();
    expect(limit.smallest).toBeUndefined();
    expect(limit.quickest.value).toBeGreaterThan(5);
  });
});

describe('heat', () => {
  it('closes: what is taken is what fruit and bins have lost, respiration and the rest, short of cooling or not', () => {
    fc.assert(
      fc.property(
        // A cooler that takes at least what comes in beside the fruit: none of it warms above the field's heat.
        fc.double({ min: 36, max: 90, noNaN: true }),
        fc.double({ min: 10, max: 24, noNaN: true }),
        fc.double({ min: 1, max: 1.5, noNaN: true }),
        (kilowatts, field, lag) => {
          const { course } = courseOf({
            rooms: [aRoom({ coolerCapacity: figure('kW', kilowatts), coolingLag: figure('1', lag) })],
            lots: [aLot('L1', 'Gala', field), aLot('L2', 'Fuji', field)],
          });
          // 300 kg of fruit and a plastic bin of 38 kg.
          const heatOfBin = 300 * 3.81 + 38 * 1.9;
          const lost = course.batches.reduce(
            (sum, { bins, temperatures }) =>
              sum + bins * heatOfBin * (field - (temperatures.at(-1)?.celsius ?? field)),
            0,
          );
          const taken = course.days.reduce(
            (sum, { takenKw, respirationKw, besideKw }) =>
              sum + (takenKw - respirationKw - besideKw) * 86_400,
            0,
          );
          expect(taken / lost).toBeCloseTo(1, 8);
          // The course goes on until each day's fruit is within a sixty-fourth of its way.
          for (const { temperatures } of course.batches)
            expect((temperatures.at(-1)?.celsius ?? 99) - 1).toBeLessThanOrEqual((field - 1) / 64 + 1e-9);
        },
      ),
      { numRuns: 25 },
    );
  });

  it('asked of the plant is never more than the cooler takes, nor than is wanted', () => {
    const { course } = courseOf({ rooms: [aRoom({ coolerCapacity: figure('kW', 30) })] });
    for (const { wantedKw, askedKw, fruitKw, respirationKw, besideKw, takenKw } of course.days) {
      expect(askedKw).toBeLessThanOrEqual(Math.min(30, wantedKw) + 1e-9);
      expect(takenKw).toBeCloseTo(askedKw, 9);
      expect(fruitKw + respirationKw + besideKw).toBeCloseTo(wantedKw, 9);
    }
  });
});

describe('a warm hold', () => {
  it('is cold when the fruit has come to the hold', () => {
    const conditioning = { temperature: 10, days: 7 };
    const { course } = courseOf({ ...strong, regimes: { plain: { temperature: 3, conditioning } } });
    expect(known(course.batches[0]?.sevenEighths) * 24).toBeCloseTo(36.3, 6);
  });
});

it('is absent where the plan lacks what it needs', () => {
  const plan = aPlan({ fills: [aFill({ first: '2026-09-08', last: '2026-09-03' })] });
  expect(coolingCourse(plan, onlyRoom(plan))).toBeUndefined();
  expect(intakeLimit(plan, onlyRoom(plan))).toBeUndefined();
});
