import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Noticer } from '../../src/findings/again/cells';
import { OrderedCells } from '../../src/findings/again/ordered-cells';
import { SeasonAgain } from '../../src/findings/again/season-again';
import { WatchedMap } from '../../src/findings/again/watched-map';
import { emptyPlanCache, readPlan } from '../../src/plan/read';
import { finish } from '../../src/plan/steps';
import { sampleFiles } from '../samples/sample';

const entries = fc
  .uniqueArray(fc.tuple(fc.constantFrom(...'abcdefgh'), fc.nat({ max: 3 })), { selector: ([key]) => key })
  .map((pairs) => new Map(pairs));

describe('results of many keys', () => {
  it('say in order what they say afresh, and only those are made again that looked at what has changed', () => {
    fc.assert(
      fc.property(fc.array(entries, { minLength: 1, maxLength: 6 }), (states) => {
        const noticer = new Noticer();
        const watched = new WatchedMap<number>(noticer, new Map());
        const cells = new OrderedCells<number>(noticer, (value) => value > 0);
        let last: ReadonlyMap<string, number> = new Map();
        for (const state of states) {
          watched.set(state);
          cells.setKeys(state);
          const made: string[] = [];
          const make = (key: string) => {
            made.push(key);
            return 10 * (watched.get(key) ?? 0);
          };
          finish(cells.makeOld(make));
          const said = [...state].filter(([, value]) => value > 0);
          expect(cells.sayingAny().map(({ key, value }) => [key, value])).toEqual(
            said.map(([key, value]) => [key, 10 * value]),
          );
          const before = last;
          expect(made.sort()).toEqual(
            [...state.keys()].filter((key) => before.get(key) !== state.get(key)).sort(),
          );
          last = state;
        }
      }),
    );
  });

  it('give the very same list while none has changed, and go on where making one has failed', () => {
    const cells = new OrderedCells<number>(new Noticer(), () => true);
    const keys = new Map([
      ['a', 1],
      ['b', 2],
    ]);
    cells.setKeys(keys);
    const fails = () => {
      throw new Error('not yet');
    };
    expect(() => finish(cells.makeOld(fails))).toThrow('not yet');
    finish(cells.makeOld((key) => key.length));
    const said = cells.sayingAny();
    expect(said.map(({ value }) => value)).toEqual([1, 1]);
    cells.setKeys(new Map(keys));
    finish(cells.makeOld(fails));
    expect(cells.sayingAny()).toBe(said);
  });
});

describe('cooling and the plant', () => {
  const files = sampleFiles('first-season');
  const typed = (from: RegExp, to: string) =>
    files.map(({ path, text }) => ({ path, text: text.replace(from, to) }));
  const compute = () => {
    const cache = emptyPlanCache();
    const again = new SeasonAgain({ byField: true });
    return (now: typeof files) => {
      const season = again.compute(readPlan(now, cache), { release: undefined, courses: undefined });
      return { plant: season.plant, cooling: again.cooling() };
    };
  };

  it('stay the very same while only what they do not look at is typed', () => {
    const computed = compute();
    const before = computed(files);
    const after = computed(typed(/cartons: \d/, 'cartons: 7'));
    expect(before.cooling?.size).toBeGreaterThan(0);
    expect(after.cooling).toBe(before.cooling);
    expect(after.plant).toBe(before.plant);
  });

  it('are made again for a group that can do less, which no room knows', () => {
    const computed = compute();
    const before = computed(files);
    const weaker = typed(/(engine-room:\s*\{?\s*capacity: )\d+/, '$19');
    expect(weaker).not.toEqual(files);
    const after = computed(weaker);
    expect(after.plant).not.toBe(before.plant);
    expect(JSON.stringify(after.plant?.refrigeration)).toBe(
      JSON.stringify(compute()(weaker).plant?.refrigeration),
    );
  });
});
