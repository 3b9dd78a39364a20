import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ascend } from '../../src/release/ascent';
import { checkSchedule } from '../../src/release/checker';
import { findConflicts } from '../../src/release/conflicts';
import { PricedAgain } from '../../src/release/price-certificate';
import { PricingHere } from '../../src/release/pricing';
import { PricedProof } from '../../src/release/prove-by-prices';
import { refinedSearch } from '../../src/release/refine';
import { searchSchedule } from '../../src/release/search';
import { settledSchedule } from '../../src/release/settle';
import { seasonOfEverything } from './everything';
import { madeProblem, sizes } from './generate';
import { loadHighs } from './highs';

describe('a search from a schedule', () => {
  it('is never worth less, passes the independent check and repeats, whatever the season has', () => {
    fc.assert(
      fc.property(fc.nat(60), fc.integer({ min: 1, max: 9 }), (season, seed) => {
        const problem = seasonOfEverything(season);
        const { unmet } = findConflicts(problem);
        const found = searchSchedule(problem, unmet, { seed: 1, moves: 50 });
        const refined = refinedSearch(problem, unmet, found, { seed, moves: 400 });
        const schedule = settledSchedule(problem, refined);
        expect(checkSchedule(problem, schedule, unmet)).toEqual([]);
        // Sales by rule, so that they may differ by a rounding where nothing was found.
        const before = settledSchedule(problem, found).value;
        expect(schedule.value).toBeGreaterThan(before - 1e-6 * Math.max(1, Math.abs(before)));
        expect(refinedSearch(problem, unmet, found, { seed, moves: 400 })).toEqual(refined);
      }),
      { numRuns: 40 },
    );
  });

  it('finds what a search of as many moves more from nothing does not', () => {
    const problem = madeProblem({ ...sizes.M, demand: 1 / 0.85 }, 3);
    const short = searchSchedule(problem, [], { seed: 1, moves: 40_000 });
    const long = searchSchedule(problem, [], { seed: 1, moves: 80_000 });
    const refined = refinedSearch(problem, [], short, { seed: 1, moves: 40_000 });
    const [before, of, from] = [short, long, refined].map((one) => settledSchedule(problem, one).value);
    expect(from).toBeGreaterThan(1.002 * (before ?? 0));
    expect(from).toBeGreaterThan(of ?? 0);
  });
});

describe('cases in rounds', () => {
  const problem = madeProblem({ rooms: 24, weeks: 26, varieties: 3, weeksToEmpty: 2 }, 2);
  const ascent = ascend(problem, [], { turns: 100, known: 0 });
  const limits = {
    mostCases: 1000,
    shouldStop: () => false,
    checked: () => new PricedAgain(problem, ascent.prices),
  };
  const nothing = () => {};
  const proof = () => new PricedProof(problem, [], ascent, limits);

  it('are proven once at the end, or once they are enough', () => {
    const rounds = proof();
    const searched = { value: 0, gap: 0, seconds: 0.2, isLast: false };
    expect(rounds.until(searched, nothing)).toEqual({ bound: undefined, limited: true });
    const last = rounds.until({ ...searched, seconds: 0.4, isLast: true }, nothing);
    expect(last.limited).toBe(true);
    const fewer = proof().until({ ...searched, isLast: true }, nothing);
    expect(last.bound).toBeLessThan(fewer.bound ?? 0);
    const enough = proof().until({ ...searched, value: (fewer.bound ?? 0) * 0.9, gap: 0.5 }, nothing);
    expect(enough.limited).toBe(false);
    expect(enough.bound).toBeGreaterThan(fewer.bound ?? 0);
  });

  it('that were taken apart ahead are those that are taken apart when they are asked for', async () => {
    const options = { moves: 20_000, timeLimitSeconds: 0.3 };
    const searched = { value: 0, gap: 0, seconds: 0.3, isLast: true };
    const ahead = new PricingHere(problem, [], options, { loadHighs });
    ahead.casesAhead();
    const late = new PricingHere(problem, [], options, { loadHighs });
    expect(await late.openings()).toEqual(await ahead.openings());
    expect(await late.cases(searched, nothing)).toEqual(await ahead.cases(searched, nothing));
  });
});
