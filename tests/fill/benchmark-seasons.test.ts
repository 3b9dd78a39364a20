import { describe, expect, test } from 'vitest';
import { leastUnplaced } from '../../src/fill/bound';
import { checkFill } from '../../src/fill/checker';
import { exchangeRooms } from '../../src/fill/exchange';
import { proposalOf } from '../../src/fill/proposal';
import { searchFill } from '../../src/fill/search';
import { fillSeason } from '../generate/fill-season';

/** Quality after a count of rounds; how long they take is the benchmark's to tell. */
const MOVES = 700;
const SEEDS = [1, 2];
const sum = (list: readonly number[]) => list.reduce((total, one) => total + one, 0);

describe.each([
  [12, 0.002],
  [60, 0.0005],
] as const)('harvests for %i rooms', (rooms, aim) => {
  test.each(SEEDS)('seed %i: with room enough nearly every bin finds a place, in few rooms', (seed) => {
    const problem = fillSeason({ rooms, load: 0.92, seed });
    const proposal = proposalOf(searchFill(problem, { seed: 1, moves: MOVES }));
    expect(checkFill(problem, proposal)).toEqual([]);
    const bins = sum(problem.lots.map((lot) => lot.bins));
    expect(sum(proposal.unplaced.map((lot) => lot.bins))).toBeLessThanOrEqual(aim * bins);
    if (rooms < 60) return;
    const places = new Map(problem.rooms.map((room) => [room.id, room.places]));
    const partly = proposal.rooms.filter(
      ({ room, entries }) => sum(entries.map((entry) => entry.bins)) < 0.9 * (places.get(room) ?? 0),
    );
    expect(proposal.rooms.length).toBeLessThanOrEqual(58);
    expect(partly.length).toBeLessThanOrEqual(7);
  });

  test.each(SEEDS)(
    'seed %i: with too much crop no more is left over than must be, to a thousandth',
    (seed) => {
      const problem = fillSeason({ rooms, load: 1.05, seed });
      const bins = sum(problem.lots.map((lot) => lot.bins));
      const least = leastUnplaced(problem);
      let over = Number.POSITIVE_INFINITY;
      // The proposal searches again, twice at most, where one search ends in a blind alley.
      for (let search = 1; search <= 3 && over > 0.001 * bins; search++) {
        const found = searchFill(problem, { seed: search, moves: MOVES });
        exchangeRooms(found);
        const proposal = proposalOf(found);
        expect(checkFill(problem, proposal)).toEqual([]);
        over = Math.min(over, sum(proposal.unplaced.map((lot) => lot.bins)) - least);
      }
      expect(over).toBeLessThanOrEqual(0.001 * bins);
    },
  );
});
