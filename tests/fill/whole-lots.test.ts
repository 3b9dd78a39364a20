import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkFill } from '../../src/fill/checker';
import { proposalOf } from '../../src/fill/proposal';
import { proposeFill } from '../../src/fill/propose';
import { searchFill } from '../../src/fill/search';
import { brokenLots } from '../../src/fill/splits';
import { brokenPieces, keepLotsWhole } from '../../src/fill/whole-lots';
import { fillSeason } from '../generate/fill-season';
import { lot, problemOf, room, smallHarvest } from './small';

const sum = (list: readonly number[]) => list.reduce((total, one) => total + one, 0);

test('broken lots are made whole, and no more bins are left over for it', () => {
  const harvests = fc.record({
    seed: fc.integer({ min: 1, max: 1_000_000 }),
    rooms: fc.integer({ min: 2, max: 8 }),
    load: fc.double({ min: 0.6, max: 1.3, noNaN: true }),
  });
  fc.assert(
    fc.property(harvests, ({ seed, rooms, load }) => {
      const problem = smallHarvest(seed, rooms, load);
      const state = searchFill(problem, { seed, moves: 15 });
      const [pieces, left] = [brokenPieces(state), sum(state.leftBins)];
      keepLotsWhole(state, seed);
      expect(checkFill(problem, proposalOf(state))).toEqual([]);
      expect(sum(state.leftBins)).toBeLessThanOrEqual(left);
      expect(brokenPieces(state)).toBeLessThanOrEqual(pieces);
    }),
    { numRuns: 30, seed: 20260904 },
  );
});

test.each([
  [2, 8, 0.9],
  [4, 12, 1],
  [12, 12, 1],
] as const)(
  'a room that was emptied while another was cleared is passed over: harvest %i for %i rooms, %f bins a place',
  (seed, rooms, load) => {
    const state = searchFill(smallHarvest(seed, rooms, load), { seed, moves: 5 });
    const [pieces, left] = [brokenPieces(state), sum(state.leftBins)];
    keepLotsWhole(state, seed);
    expect(checkFill(state.problem, proposalOf(state))).toEqual([]);
    expect(sum(state.leftBins)).toBeLessThanOrEqual(left);
    expect(brokenPieces(state)).toBeLessThanOrEqual(pieces);
  },
);

test.each([1, 2])(
  'with too much crop for 60 rooms, seed %i: of the lots that are broken at least half become whole',
  (seed) => {
    const problem = fillSeason({ rooms: 60, load: 1.05, seed });
    const state = searchFill(problem, { seed: 1, moves: 300 });
    const [pieces, left] = [brokenPieces(state), sum(state.leftBins)];
    keepLotsWhole(state, 1);
    expect(checkFill(problem, proposalOf(state))).toEqual([]);
    expect(sum(state.leftBins)).toBeLessThanOrEqual(left);
    expect(brokenPieces(state)).toBeLessThanOrEqual(pieces / 2);
  },
);

describe('why a lot is broken', () => {
  const broken = async (problem: ReturnType<typeof problemOf>) =>
    brokenLots(problem, (await proposeFill(problem, { seed: 1, moves: 60 })).proposal);

  test('forced, where no room could take it whole: thirty bins, and places for twenty', async () => {
    const lots = [
      lot('L1', [
        [0, 5],
        [1, 5],
        [2, 5],
        [3, 5],
        [4, 5],
        [5, 5],
      ]),
    ];
    expect(await broken(problemOf({ rooms: [room('R1'), room('R2')], lots }))).toEqual([
      { lot: 'L1', rooms: ['R1', 'R2'], leftOver: 0, kind: 'forced' },
    ]);
  });

  test('forced by daily intake: sixteen bins of one day, five a day, a day to wait', async () => {
    const lots = [lot('L1', [[0, 16]])];
    expect(await broken(problemOf({ rooms: [room('R1'), room('R2')], lots }))).toEqual([
      { lot: 'L1', rooms: ['R1', 'R2'], leftOver: 0, kind: 'forced' },
    ]);
  });

  test('chosen, where it is in two rooms, or left over in part, so that fewer bins are left over', async () => {
    const lots = ['L1', 'L2', 'L3'].map((id) => lot(id, [[0, 8]]));
    const rooms = [room('R1', { places: 12, binsADay: 12 }), room('R2', { places: 12, binsADay: 12 })];
    const [first, ...others] = await broken(problemOf({ rooms, lots }));
    expect(others).toEqual([]);
    expect(first).toMatchObject({ rooms: ['R1', 'R2'], leftOver: 0, kind: 'chosen' });
  });

  test('a lot whole in one room is not named', async () => {
    expect(await broken(problemOf({ rooms: [room('R1')], lots: [lot('L1', [[0, 5]])] }))).toEqual([]);
  });
});
