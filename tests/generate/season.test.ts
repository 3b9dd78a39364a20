import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readPlan } from '../../src/plan/read';
import { planFile } from '../../src/plan/schema/plan-file';
import { randomNumbers } from './random';
import { generateSeason } from './season';
import { roomsByKind } from './varieties';

describe('the season generator', () => {
  it('gives the same text for the same size and seed, and another for another seed', () => {
    expect(generateSeason({ rooms: 12, seed: 7 })).toEqual(generateSeason({ rooms: 12, seed: 7 }));
    expect(generateSeason({ rooms: 12, seed: 7 })).not.toEqual(generateSeason({ rooms: 12, seed: 8 }));
  });

  it.each([4, 9, 48, 150, 500])('writes a plan of %i rooms that the schema accepts', (rooms) => {
    const files = generateSeason({ rooms, seed: 1 }).map(({ path, text }) => ({
      path,
      plan: planFile.parse(parse(text)),
    }));
    const counts = { rooms: 0, fills: 0, lots: 0, demand: 0 };
    for (const { plan } of files) {
      counts.rooms += Object.keys(plan.rooms ?? {}).length;
      counts.fills += Object.keys(plan.fills ?? {}).length;
      counts.lots += Object.keys(plan.lots ?? {}).length;
      counts.demand += Object.keys(plan.demand ?? {}).length;
    }
    expect(counts.rooms).toBe(rooms);
    expect(counts.fills).toBe(rooms);
    expect(counts.lots / rooms).toBeGreaterThan(4);
    expect(counts.demand).toBeGreaterThan(4);
  });

  it.each([4, 500])('writes a plan of %i rooms that reads without a problem', (rooms) => {
    const plan = readPlan(generateSeason({ rooms, seed: 2 }));
    expect(plan.problems).toEqual([]);
    expect(plan.rooms.size).toBe(rooms);
    const stored = new Set([...plan.fills.values()].flatMap((fill) => fill.lots.map((one) => one.lot.value)));
    expect([...plan.lots.keys()].filter((lot) => !stored.has(lot))).toEqual([]);
  });

  it('shares the rooms out to the varieties without losing or inventing one', () => {
    for (const rooms of [4, 5, 17, 48, 77, 500]) {
      const counts = [...roomsByKind(rooms).values()];
      expect(counts.reduce((sum, count) => sum + count, 0)).toBe(rooms);
    }
    expect(roomsByKind(48).get('Gala')).toBe(12);
  });

  it('keeps lines short enough to review', () => {
    for (const { path, text } of generateSeason({ rooms: 48, seed: 3 })) {
      const longest = Math.max(...text.split('\n').map((line) => line.length));
      expect(longest, path).toBeLessThanOrEqual(200);
    }
  });
});

describe('random numbers', () => {
  it('repeat from the seed and stay in range', () => {
    const [a, b] = [randomNumbers(42), randomNumbers(42)];
    for (let index = 0; index < 1000; index += 1) {
      const value = a.next();
      expect(value).toBe(b.next());
      expect(value).toBeGreaterThanOrEqual(0);
      expect(value).toBeLessThan(1);
    }
  });

  it('are spread as asked', () => {
    const random = randomNumbers(5);
    const drawn = Array.from({ length: 4000 }, () => random.normal(10, 2));
    const mean = drawn.reduce((sum, value) => sum + value, 0) / drawn.length;
    const deviation = Math.sqrt(drawn.reduce((sum, value) => sum + (value - mean) ** 2, 0) / drawn.length);
    expect(mean).toBeCloseTo(10, 0);
    expect(deviation).toBeGreaterThan(1.85);
    expect(deviation).toBeLessThan(2.15);
  });
});
