import { describe, expect, test } from 'vitest';
import { exchangeRooms } from '../../src/fill/exchange';
import { Choices, refill } from '../../src/fill/refill';
import { FillState } from '../../src/fill/state';
import type { FillProblem } from '../../src/fill/types';
import { lot, problemOf, room, smallHarvest } from './small';

const sealed = [null, { latest: 30, costABin: 0 }];
const inAir = [{ latest: 30, costABin: 0 }, null];

function filled(problem: FillProblem, order: readonly number[], into: (lot: number) => number): FillState {
  const state = new FillState(problem);
  const choices = new Choices(problem);
  for (const one of order)
    refill(
      state,
      choices,
      [one],
      () => 0,
      0,
      (at) => at === into(one),
    );
  return state;
}

const over = (state: FillState) => state.leftBins.reduce((sum, bins) => sum + bins, 0);

describe('rooms exchanged', () => {
  test('fruit of which there is no more goes into the smaller room, and that one its fruit into the larger', () => {
    const rooms = [room('R1', { places: 20, binsADay: 20 }), room('R2', { places: 14, binsADay: 20 })];
    const lots = [
      lot('L1', [[5, 14]], { keeps: sealed }),
      lot('L2', [[9, 14]], { keeps: inAir, variety: 'Elstar' }),
      lot('L3', [[9, 6]], { keeps: inAir, variety: 'Elstar' }),
    ];
    const state = filled(problemOf({ rooms, lots }), [0, 1], (one) => one);
    expect(over(state)).toBe(6);
    exchangeRooms(state);
    expect(over(state)).toBe(0);
    expect(state.loads.map((load) => load?.bins)).toEqual([20, 14]);
    expect(state.loads[1]?.parts.map((part) => part.lot)).toEqual([0]);
  });

  test('never cost more, count as they cost, and change nothing where nothing is left over', () => {
    for (let seed = 1; seed <= 12; seed++)
      for (const load of [0.7, 1.2]) {
        const problem = smallHarvest(seed, 6, load);
        const order = problem.lots.map((_, index) => index);
        const state = new FillState(problem);
        refill(state, new Choices(problem), order, () => 0, 0);
        const before = { cost: state.cost, over: over(state), loads: [...state.loads] };
        exchangeRooms(state);
        expect(state.cost).toBeLessThanOrEqual(before.cost + 1e-9);
        expect(over(state)).toBeLessThanOrEqual(before.over);
        if (before.over === 0) expect(state.loads).toEqual(before.loads);
        const placed = state.loads.reduce((sum, one) => sum + (one?.bins ?? 0), 0);
        const all = problem.lots.reduce((sum, { bins }) => sum + bins, 0);
        expect(placed + over(state)).toBe(all);
      }
  });
});
