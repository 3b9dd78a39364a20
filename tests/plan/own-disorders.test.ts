import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { fruitData } from '../../src/fruit/data';
import { formatWeek } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';

const text = `lotwright: 1
varieties:
  Granny Smith:
    disorders:
      scald: { from: 20 weeks, packed-by: 6 months }
      chilling-injury: { watch: off }
    source: own trials 2023 to 2025
  Honeycrisp:
    disorders:
      bitter-pit: { watch: off }
bins:
  plastic: { outside: { length: 1.2 m, width: 1.0 m, height: 0.78 m }, net-fruit: 300 kg, tare: 38 kg, material: plastic }
rooms:
  R1: { inside: { length: 13 m, width: 6 m, height: 6 m }, bin-type: plastic }
season: { name: Harvest, starts: 2026-08-24, ends: 2027-08-01, carton: 18 kg, currency: EUR }
lots:
  L1: { variety: Granny Smith, picked: 2026-09-01, bins: 100 }
fills:
  F1:
    room: R1
    regime: granny-smith-standard
    first-bin: 2026-09-01
    last-bin: 2026-09-05
    sealed: 2026-09-08
    lots: { L1: 100 }
`;
const read = (plan: string) => readPlan([{ path: 'own.lotplan.yaml', text: plan }]);

describe("the planner's own disorders", () => {
  it('are read with their place, and go before the built-in ones', () => {
    const plan = read(text);
    expect(plan.problems).toEqual([]);
    const fruit = fruitData(plan);
    const [scald, ...others] = fruit.variety('Granny Smith')?.disorders ?? [];
    expect(others).toEqual([]);
    expect([scald?.id, scald?.from.value, scald?.from.origin.kind]).toEqual(['scald', 140, 'plan']);
    expect(fruit.variety('Honeycrisp')?.disorders.map(({ id }) => id)).not.toContain('bitter-pit');
    expect(fruit.variety('Honeycrisp')?.disorders.length).toBeGreaterThan(0);
  });

  it('set the latest week of a room where they say by when its fruit is packed', () => {
    const window = computeSeason(read(text)).keeping.get('F1')?.window;
    expect([window?.latest.limit, window?.latest.lot?.id]).toEqual(['disorder', 'L1']);
    const without = computeSeason(read(text.replace(', packed-by: 6 months', ''))).keeping.get('F1')?.window;
    expect(without?.latest.limit).toBe('storage life');
    expect(formatWeek(without?.latest.week ?? 0) > formatWeek(window?.latest.week ?? 0)).toBe(true);
  });

  it('that are misspelt or have no unit are findings at their place', () => {
    const codes = (plan: string) => read(plan).problems.map(({ code }) => code);
    expect(codes(text.replace('scald:', 'scold:'))).toEqual(['unknown-key']);
    expect(codes(text.replace('20 weeks', '20'))).toEqual(['unit-missing']);
    expect(codes(text.replace('watch: off', 'watch: never'))).toEqual(['not-allowed-value']);
  });
});
