import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chanceWhenOpened, TOLD_CONFIDENCES, windowByConfidence } from '../../src/keeping/by-confidence';
import { roomKeeping } from '../../src/keeping/room-keeping';
import type { LotKeeping } from '../../src/keeping/types';
import { type Day, firstDayOfWeek, type Week } from '../../src/plan/dates';
import { seededRandom } from '../../src/plan/random';
import { given, present } from '../fruit/plans';
import { addDays } from './dates';
import { day, galaKeeping, type RoomValues, roomOf } from './rooms';

function byConfidence(values: RoomValues) {
  const { plan, filled } = roomOf(values);
  const keeping = roomKeeping(plan, filled);
  const { latest, spreads } = present(windowByConfidence(plan, keeping), 'a window');
  const at = (confidence: number) =>
    present(
      latest.find((one) => one.confidence === confidence),
      `${confidence} %`,
    ).edge;
  return { keeping, latest, spreads, at };
}

const lot = fc.record(
  {
    variety: fc.constantFrom('Gala', 'Golden Delicious', 'Fuji', 'Empire', 'Cox', 'Anjou', 'Jonagold'),
    firmnessLbf: fc.double({ min: 8, max: 22, noNaN: true }),
    starch: fc.double({ min: 1, max: 8, noNaN: true }),
    field: fc.integer({ min: 5, max: 32 }),
    treatments: fc.subarray(['1-mcp', 'antioxidant'] as const),
  },
  { requiredKeys: ['variety'] },
);

const room = fc.record({
  lots: fc.array(lot, { minLength: 1, maxLength: 4 }),
  regime: fc.constantFrom('gala-standard', 'gala-low-oxygen', 'fuji-handbook', 'cox-standard', 'gala-air'),
  confidence: fc.oneof(fc.constantFrom(50, 80, 90, 95), fc.double({ min: 1, max: 99.9, noNaN: true })),
  sealed: fc.option(fc.integer({ min: 0, max: 60 }).map((days) => addDays('2026-09-05', days))),
  daysToEmpty: fc.integer({ min: 1, max: 40 }),
  seasonEnds: fc.integer({ min: 60, max: 500 }).map((days) => addDays('2026-09-05', days)),
});

/** Sunday of the last week of packing, where a room is opened in a week. */
function packedOutOn(opened: Week, daysToEmpty: number): Day {
  return firstDayOfWeek(opened + Math.ceil(daysToEmpty / 7) - 1) + 6;
}

describe('a window by confidence', () => {
  test('is told at the plan’s own confidence and at three others, the highest first', () => {
    const told = (confidence: number) => byConfidence({ confidence }).latest.map((one) => one.confidence);
    expect(TOLD_CONFIDENCES).toEqual([95, 80, 50]);
    expect(told(90)).toEqual([95, 90, 80, 50]);
    expect(told(80)).toEqual([95, 80, 50]);
    expect(told(29)).toEqual([95, 80, 50, 29]);
    expect(byConfidence({ confidence: 80 }).latest.map(({ isPlans }) => isPlans)).toEqual([
      false,
      true,
      false,
    ]);
  });

  test('at a higher confidence is never open in a later week', () => {
    fc.assert(
      fc.property(room, (values) => {
        const { latest } = byConfidence(values);
        for (const [at, { confidence, edge }] of latest.entries()) {
          const lower = latest[at + 1];
          if (!lower) continue;
          expect(confidence).toBeGreaterThan(lower.confidence);
          // A hair apart in days may be a week apart.
          if (Math.abs(edge.because.value - lower.edge.because.value) < 1e-6) continue;
          expect(edge.week).toBeLessThanOrEqual(lower.edge.week);
        }
      }),
    );
  });

  test('is at each confidence the window of a plan that asks for it', () => {
    fc.assert(
      fc.property(room, (values) => {
        const { latest, keeping } = byConfidence(values);
        for (const { confidence, isPlans, edge } of latest) {
          const { plan, filled } = roomOf({ ...values, confidence });
          const asked = present(roomKeeping(plan, filled).window, 'a window');
          expect(edge.week).toBe(asked.latest.week);
          expect(edge.limit).toBe(asked.latest.limit);
          expect(edge.because.value).toBeCloseTo(asked.latest.because.value, 6);
          if (isPlans) expect(edge).toBe(keeping.window?.latest);
        }
      }),
      { numRuns: 40 },
    );
  });

  test('by hand: 50 % is the median life, 80 and 95 % are 0.8416 and 1.6449 of its spread sooner', () => {
    const { keeping, at, spreads } = byConfidence({ varieties: [galaKeeping(200)], daysToEmpty: 14 });
    const { storageLife, spread } = present(keeping.lots[0], 'a lot');
    expect(spread.value).toBeCloseTo(0.11 * storageLife.value, 9);
    for (const [confidence, deviations] of [
      [50, 0],
      [80, 0.8416],
      [95, 1.6449],
    ] as const) {
      const ends = day('2026-09-01') + storageLife.value - deviations * spread.value;
      expect(packedOutOn(at(confidence).week, 14)).toBeLessThanOrEqual(ends);
      expect(packedOutOn(at(confidence).week + 1, 14)).toBeGreaterThan(ends);
    }
    expect(spreads).toEqual([{ of: 'storage life', known: 'common practice' }]);
  });

  test('tells how well the spreads behind it are known', () => {
    const tested = byConfidence({ lots: [{ variety: 'Gala', firmnessLbf: 16, starch: 2.5 }] });
    expect(tested.spreads.at(-1)).toEqual({ of: 'firmness', known: 'common practice' });
    const ended = byConfidence({ seasonEnds: '2026-11-01' });
    expect(new Set(ended.latest.map(({ edge }) => edge.limit))).toEqual(new Set(['season']));
    expect(ended.spreads).toEqual([]);
  });

  test('is not told of a room that was opened', () => {
    const { plan, filled } = roomOf({});
    const opened = { ...filled, fill: { ...filled.fill, opened: given(day('2027-01-11')) } };
    expect(windowByConfidence(plan, roomKeeping(plan, opened))).toBeUndefined();
    expect(chanceWhenOpened(plan, roomKeeping(plan, opened), 3000)).toBeUndefined();
  });

  test('has its confidence as the chance of its latest week at least, and less in the week after', () => {
    fc.assert(
      fc.property(room, (values) => {
        const { plan, filled } = roomOf(values);
        const keeping = roomKeeping(plan, filled);
        for (const { confidence, edge } of byConfidence(values).latest) {
          const chance = (week: Week) => present(chanceWhenOpened(plan, keeping, week), 'a chance');
          expect(chance(edge.week + 1)).toBeLessThanOrEqual(chance(edge.week));
          // Fruit that is too soft when it is picked never had the chance; the season may end sooner than the fruit.
          if (edge.limit === 'season' || edge.because.value + values.daysToEmpty < 7) continue;
          expect(chance(edge.week)).toBeGreaterThan(confidence / 100 - 1e-6);
          expect(chance(edge.week + 1)).toBeLessThan(confidence / 100 + 1e-6);
        }
      }),
    );
  });
});

/** Two normal deviates from two even numbers (Box and Muller 1958). */
function deviates(random: () => number): readonly [number, number] {
  const [length, turn] = [Math.sqrt(-2 * Math.log(1 - random())), 2 * Math.PI * random()];
  return [length * Math.cos(turn), length * Math.sin(turn)];
}

/** Share of lots drawn that are within standard on a day: alive, and as firm as may be sold. */
function shareDrawn({ lot: one, inRoom, storageLife, spread, firmnessOn }: LotKeeping, on: Day): number {
  const random = seededRandom(17);
  const picked = present(one.picked, 'picked').value.first;
  const atHarvest = present(one.maturity?.firmness, 'tested').value;
  const expected = present(firmnessOn(on), 'firmness');
  const doubt = Math.hypot(2.5, 0.2 * (atHarvest - expected));
  let good = 0;
  for (let draw = 0; draw < DRAWS; draw++) {
    const [life, firm] = deviates(random);
    const lives = storageLife.value + spread.value * life >= on - picked;
    if (lives && expected + doubt * firm >= inRoom.variety.leastExitFirmness.value) good++;
  }
  return good / DRAWS;
}

const DRAWS = 20_000;

test('lots drawn at random are as often within standard when a room is packed out as its confidence says', () => {
  const lots = [
    { id: 'L1', variety: 'Gala', firmnessLbf: 17, starch: 2.5 },
    { id: 'L2', variety: 'Gala', firmnessLbf: 15.5, starch: 3 },
    { id: 'L3', variety: 'Gala', firmnessLbf: 18, starch: 2 },
  ];
  const { latest, keeping } = byConfidence({ lots, daysToEmpty: 10 });
  for (const { confidence, edge } of latest) {
    const weakest = (week: Week) =>
      Math.min(...keeping.lots.map((one) => shareDrawn(one, packedOutOn(week, 10))));
    // Three standard errors of the share drawn.
    const off = 3 * Math.sqrt(((confidence / 100) * (1 - confidence / 100)) / DRAWS);
    expect(weakest(edge.week)).toBeGreaterThan(confidence / 100 - off);
    expect(weakest(edge.week + 1)).toBeLessThan(confidence / 100 + off);
  }
});
