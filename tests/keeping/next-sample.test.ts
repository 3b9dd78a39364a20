import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { firmnessAfter, firmnessCourse, firmnessSpread } from '../../src/keeping/firmness';
import { SampledRoom } from '../../src/keeping/next-sample';
import { parseDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { planText } from '../watching/room-plan';

const day = (text: string) => parseDay(text) ?? 0;
const PICKED = day('2026-09-08');

const SOFT = 'varieties:\n  Gala: { least-exit-firmness: 60 N }\n';

function room(firmness: string, life = '400 days') {
  const text = planText({ firmness, life, more: SOFT });
  const season = computeSeason(readPlan([{ path: 'a.lotplan.yaml', text }]), { release: 'none' });
  const filled = season.filled.get('R1-fill');
  if (!filled?.regime) throw new Error('the example has its fill');
  return { season, filled, regime: filled.regime };
}

function courseOf({ filled, regime }: ReturnType<typeof room>, lot = filled.lots[0]?.lot) {
  const inRoom = filled.lots[0];
  const course = inRoom && lot && firmnessCourse(lot, inRoom.variety, filled.fill, regime, PICKED);
  if (!course) throw new Error('the lot has its firmness');
  return course;
}

describe('what the next sample could change', () => {
  const soft = room('83 N');
  const test = day('2026-12-14');

  it('is nothing where firmness sets no edge, and weeks where it does', () => {
    const firm = room('95 N', '150 days');
    const stays = new SampledRoom(firm.season.plan, firm.filled).of('L1', test, 40)?.worth;
    expect([stays?.ifLow, stays?.ifHigh]).toEqual([stays?.latest, stays?.latest]);
    expect(stays?.binWeeks).toBe(0);
    const worth = new SampledRoom(soft.season.plan, soft.filled).of('L1', test, 40)?.worth;
    expect(worth?.ifHigh).toBeGreaterThan(worth?.ifLow ?? 0);
    expect(worth?.binWeeks).toBe(200 * ((worth?.ifHigh ?? 0) - (worth?.ifLow ?? 0)));
  });

  it('leaves a lot as firm as was expected after a sample as expected, and better known', () => {
    const next = new SampledRoom(soft.season.plan, soft.filled).of('L1', test, 36);
    if (!next) throw new Error('it has a next sample');
    const { worth, after } = next;
    // Within a lot 6 N from fruit to fruit: the mean of 36 has 1 N. Known to P before: 1 / (1 / P^2 + 1 / 1^2) after.
    expect(worth.sampleSpread).toBeCloseTo(1, 9);
    const course = courseOf(soft, after);
    expect(firmnessAfter(course, test - PICKED)).toBeCloseTo(worth.expected, 9);
    expect(firmnessSpread(course, worth.expected)).toBeCloseTo(Math.sqrt(1 / (1 / worth.spread ** 2 + 1)), 6);
  });

  it('moves low and high either way, the more the more fruit is tested', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 66, max: 92 }),
        fc.integer({ min: 20, max: 220 }),
        fc.integer({ min: 1, max: 60 }),
        (firmness, after, fruit) => {
          const one = room(`${firmness} N`);
          const sampled = new SampledRoom(one.season.plan, one.filled);
          const few = sampled.of('L1', PICKED + after, fruit)?.worth;
          const many = sampled.of('L1', PICKED + after, 4 * fruit)?.worth;
          if (!few || !many) return;
          expect(few.ifLow).toBeLessThanOrEqual(few.ifExpected);
          expect(few.ifExpected).toBeLessThanOrEqual(few.ifHigh);
          // Better known, it lasts as long or longer.
          expect(few.ifExpected).toBeGreaterThanOrEqual(few.latest);
          expect(many.ifExpected).toBeGreaterThanOrEqual(few.ifExpected);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('has none before picking, of another lot, or without fruit', () => {
    const sampled = new SampledRoom(soft.season.plan, soft.filled);
    expect(sampled.of('L1', PICKED, 40)).toBeUndefined();
    expect(sampled.of('L9', test, 40)).toBeUndefined();
    expect(sampled.of('L1', test, 0)).toBeUndefined();
  });
});
