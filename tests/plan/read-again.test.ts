import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../src/plan/model';
import { emptyPlanCache, readPlan } from '../../src/plan/read';
import { mixed, withCrlf } from '../edits/bases';
import { sampleFiles } from '../samples/sample';
import { editedFiles, edits } from './edited';

/** How many sequences of edits are tried; each has up to eight. `npm run test:edits` tries ten thousand. */
const SEQUENCES = 60;

const SAMPLES = ['first-season', 'us-units', 'with-mistakes'].map((name) => sampleFiles(name));
/** A plan as plain data, its entries in their order: equal text means an equal plan. */
function plain(plan: Plan): string {
  return JSON.stringify(plan, (_, value: unknown) => (value instanceof Map ? [...value] : value));
}

describe('reading again after edits', () => {
  it('gives what reading afresh gives, in the same order, whatever is edited, with LF, CRLF or both', () => {
    const plans = SAMPLES.flatMap((files) => [files, withCrlf(files), mixed(files)]);
    fc.assert(
      fc.property(
        fc.nat({ max: plans.length - 1 }).chain((which) => {
          const files = plans[which] ?? [];
          return fc.tuple(fc.constant(files), edits(files));
        }),
        ([files, sequence]) => {
          const cache = emptyPlanCache();
          readPlan(files, cache);
          for (const state of editedFiles(files, sequence))
            expect(plain(readPlan(state, cache))).toBe(plain(readPlan(state)));
        },
      ),
      { numRuns: SEQUENCES },
    );
  }, 600_000);

  it('keeps all lists and maps that the changed entry is not in', () => {
    const files = sampleFiles('full-season');
    const cache = emptyPlanCache();
    const before = readPlan(files, cache);
    const lots = files.find(({ text }) => text.includes('\nlots:'))?.path;
    let seen = 0;
    const typed = files.map(({ path, text }) =>
      path === lots
        ? { path, text: text.replace(/ bins: \d/g, (bins) => (seen++ === 3 ? ' bins: 9' : bins)) }
        : { path, text },
    );
    const after = readPlan(typed, cache);
    expect(after.lots).not.toBe(before.lots);
    expect([...after.lots.keys()]).toEqual([...before.lots.keys()]);
    for (const map of ['rooms', 'fills', 'demand', 'varieties', 'problems', 'allowances'] as const)
      expect(after[map]).toBe(before[map]);
    expect(plain(after)).toBe(plain(readPlan(typed)));
  });

  it('gives the same while a heading loses its colon, gets blanks, a comment or another name, and is mended', () => {
    const ways = [
      (heading: string) => heading.slice(0, -1),
      (heading: string) => ` ${heading}`,
      (heading: string) => `${heading}  # as of today`,
      (heading: string) => `${heading.slice(0, -1)}  :`,
      (heading: string) => `${heading.slice(0, -1)}x:`,
      (heading: string) => `${heading}\n`,
      (heading: string) => `${heading} {}`,
      (heading: string) => `# ${heading}`,
    ];
    for (const plan of [...SAMPLES, ...SAMPLES.slice(0, 1).map(withCrlf)]) {
      const unchanged = plain(readPlan(plan));
      for (const [at, { text }] of plan.entries()) {
        const written = (other: string) => plan.with(at, { path: plan[at]?.path ?? '', text: other });
        const headings = [...text.matchAll(/^ {0,2}[a-z]+:(?=[ \r]*$)/gm)];
        const cache = emptyPlanCache();
        readPlan(plan, cache);
        for (const { 0: heading, index } of headings)
          for (const way of ways) {
            const other = text.slice(0, index) + way(heading) + text.slice(index + heading.length);
            expect(plain(readPlan(written(other), cache))).toBe(plain(readPlan(written(other))));
            expect(plain(readPlan(plan, cache))).toBe(unchanged);
          }
      }
    }
  }, 600_000);

  it('keeps all entries below a heading whose colon is lost', () => {
    const files = sampleFiles('full-season');
    const cache = emptyPlanCache();
    const before = readPlan(files, cache);
    const broken = files.map(({ path, text }) => ({ path, text: text.replace(/^(lots|fills):/m, '$1') }));
    const after = readPlan(broken, cache);
    expect(after.problems.filter(({ about }) => about?.startsWith('colon/')).length).toBeGreaterThan(0);
    for (const map of ['lots', 'fills', 'rooms', 'references'] as const) expect(after[map]).toBe(before[map]);
    const mended = readPlan(files, cache);
    for (const map of ['lots', 'fills', 'rooms', 'references'] as const)
      expect(mended[map]).toBe(before[map]);
    expect(plain(mended)).toBe(plain(readPlan(files)));
  });
});
