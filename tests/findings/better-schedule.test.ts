import { describe, expect, it } from 'vitest';
import { computeSeason, withRelease } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import type { ComputedSeason } from '../../src/findings/types';
import { readPlan } from '../../src/plan/read';
import { gapOf, isProven } from '../../src/release/gap';
import { mostForOrder } from '../../src/release/most-for-order';
import { isQuick } from '../../src/release/simple-bound';
import { outcomes, seasonWith } from '../expect/plans';
import { sampleFiles } from '../samples/sample';

/** The first season with ten times the bids for its Gala: more than its rooms hold. */
function greedySeason(cartons: number): ComputedSeason {
  const order = `lotwright: 1
demand:
  gala-greedy: { market: home, variety: Gala, class: first, weeks: 2027-W02..2027-W05, cartons: ${cartons}, price: 21 }
`;
  return computeSeason(
    readPlan([...sampleFiles('first-season'), { path: 'greedy.lotplan.yaml', text: order }]),
  );
}

function shortMessage(season: ComputedSeason): string {
  return (
    findingsOf(season).find(
      ({ code, message }) => code === 'demand-short' && message.startsWith('gala-greedy'),
    )?.message ?? ''
  );
}

/** Codes of what is told of the order, whatever of it. */
function aboutGreedy(files: readonly { readonly path: string; readonly text: string }[]): string[] {
  return findingsOf(computeSeason(readPlan([...files]))).flatMap(({ code, message }) =>
    message.startsWith('gala-greedy') ? [code] : [],
  );
}

function releaseOf({ release }: ComputedSeason): NonNullable<ComputedSeason['release']> {
  if (!release) throw new Error('no release');
  return release;
}

describe('a better schedule is promised only where there may be one', () => {
  it('tells what the rooms can give at most of the variety that is wanted', () => {
    const season = greedySeason(9000);
    const message = shortMessage(season);
    const { problem, result } = releaseOf(season);
    const [, most = ''] = /No schedule delivers more than ([\d,]+) cartons of it/.exec(message) ?? [];
    const index = problem.demands.findIndex(({ id }) => id === 'gala-greedy');
    const demand = problem.demands[index];
    if (!demand) throw new Error('no such order');
    expect(Number(most.replace(',', ''))).toBe(Math.ceil(mostForOrder(problem, demand, result.unmet)));
    const sold = (result.schedule.sold[index] ?? []).reduce((sum, cartons) => sum + cartons, 0);
    expect(Number(most.replace(',', ''))).toBeGreaterThanOrEqual(Math.floor(sold));
  });

  it('is not where nothing in the rooms is of its class: that is told once, by what is wrong', () => {
    const order = greedySeason(900);
    const text = [...order.plan.files.values()].map(({ path, text }) => ({
      path,
      text: text.replace(/(gala-greedy: .*class: )first/, '$1cider'),
    }));
    expect(aboutGreedy(text)).toEqual(['class-not-packed']);
  });

  it('nor where no room holds its variety: one finding tells it, not three', () => {
    const order = greedySeason(900);
    const text = [...order.plan.files.values()].map(({ path, text }) => ({
      path,
      text: text.replace(/(gala-greedy: .*variety: )Gala/, '$1Fuji'),
    }));
    expect(aboutGreedy(text)).toEqual(['demand-without-supply']);
  });

  it('counts of a room what its emptying and the packed wait bring within the order: one week of seven', () => {
    const text = sampleFiles('first-season').map(({ path, text }) => ({
      path,
      text: text
        .replace(/packed-wait: .*/, 'packed-wait: 1 day')
        .replace(/days-to-empty: .*/, 'days-to-empty: 7 days')
        .replace(/bins-a-week: .*/, 'bins-a-week: 300'),
    }));
    const season = computeSeason(readPlan(text));
    const { problem } = releaseOf(season);
    const demand = problem.demands.find(({ id }) => id === 'gala-winter');
    const room = problem.rooms.find(({ fill }) => fill === 'R2-gala');
    if (!demand || !room) throw new Error('no such order or room');
    // Seven weeks of 320 are wanted, and R2 holds fruit for all of them but opens once, for a week.
    expect(demand.cartons.filter((cartons) => cartons > 0)).toEqual(new Array(7).fill(320));
    expect(room.bins * Math.max(...room.cartonsABin.map((row) => row[demand.product] ?? 0))).toBeGreaterThan(
      2000,
    );
    expect(mostForOrder(problem, demand)).toBe(320);
    const told = findingsOf(season).find(
      ({ code, message }) => code === 'demand-short' && message.startsWith('gala-winter'),
    );
    expect(told?.message).toContain(
      'No schedule delivers more than 320 cartons of it, were every room opened for it alone',
    );
  });

  it('never tells less than a schedule delivers', () => {
    for (const name of ['first-season', 'in-march', 'mid-harvest']) {
      const { problem, result } = releaseOf(computeSeason(readPlan(sampleFiles(name))));
      problem.demands.forEach((demand, index) => {
        const sold = (result.schedule.sold[index] ?? []).reduce((sum, cartons) => sum + cartons, 0);
        expect(mostForOrder(problem, demand, result.unmet)).toBeGreaterThanOrEqual(sold - 1e-6);
      });
    }
  });

  it('is where the quick schedule may be bettered, and not once it is proved that none is worth more', () => {
    const season = greedySeason(900);
    const { problem, result } = releaseOf(season);
    expect(isQuick(result)).toBe(true);
    expect(shortMessage(season)).toContain('The release search may find a better schedule.');
    const { value } = result.schedule;
    const proved = { ...result, bound: value, gap: gapOf(value, value), provenOptimal: isProven(0) };
    const message = shortMessage(withRelease(season, { problem, result: proved }));
    expect(message).not.toContain('may find');
    expect(message).toContain('No schedule of this plan is worth more.');
  });

  it('nor is a promise of value said to be kept by another schedule, once one is proved to be the best', () => {
    const promise = (atLeast: number, release?: ComputedSeason['release']) => {
      const season = seasonWith(`  worth: { value: { at-least: ${atLeast} } }`);
      return outcomes(release ? withRelease(season, release) : season).get('worth')?.verdict;
    };
    const { problem, result } = releaseOf(greedySeason(0));
    const { schedule, bound } = result;
    const between = Math.floor((schedule.value + bound) / 2);
    expect(promise(between)).toMatchObject({
      cures: [{ text: expect.stringContaining('the release search may find one that keeps it') }],
    });
    const found = { ...result, boundRestsOn: 'multipliers' };
    expect(promise(between, { problem, result: found })).toMatchObject({
      cures: [{ text: expect.stringContaining('the release search has found none that keeps it') }],
    });
    const proved = { ...found, bound: schedule.value, gap: 0, provenOptimal: true };
    expect(promise(between, { problem, result: proved })).toMatchObject({
      cures: [{ text: expect.stringContaining('so that none keeps it') }],
    });
  });
});
