import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import type { FilledRoom } from '../../src/room/types';
import { TWO_VARIETIES } from '../published/held-out-plans';
import { known } from './orchard';

/** The plan's room, some of its text replaced. */
function room(...changes: readonly (readonly [string, string])[]): FilledRoom {
  const text = changes.reduce((so, [from, to]) => so.replace(from, to), TWO_VARIETIES);
  const plan = readPlan([{ path: 'room.lotplan.yaml', text }]);
  expect(plan.problems).toEqual([]);
  const filled = computeSeason(plan).filled.get('F');
  if (!filled) throw new Error('the plan has no fill F');
  return filled;
}

const AS_GIVEN = room();

describe('what a planner measured', () => {
  it('takes the place of the mass and density of the bins, and equipment is taken off', () => {
    const gas = known(AS_GIVEN.freeGasVolume);
    const bare = known(room([', solid-volume: 42 L', '']).freeGasVolume);
    expect(bare - gas).toBeCloseTo(810 * (0.042 - 38 / 950), 9);
    const empty = known(room(['    equipment-volume: 6 m3\n', '']).freeGasVolume);
    expect(empty - gas).toBeCloseTo(6, 9);
  });

  it('is the same in cubic feet', () => {
    const gas = known(
      room(['equipment-volume: 6 m3', `equipment-volume: ${6 / 0.3048 ** 3} ft3`]).freeGasVolume,
    );
    expect(gas).toBeCloseTo(known(AS_GIVEN.freeGasVolume), 9);
  });

  it('holds for each variety: more carbon dioxide to the oxygen uses less of it', () => {
    const usual = known(room(['    respiratory-quotient: 1.1\n', '']).oxygenUse);
    const own = known(AS_GIVEN.oxygenUse);
    const jonagold = (93_000 * 3.4 * 0.45) / (150_000 * 4 * 0.35 + 93_000 * 3.4 * 0.45);
    expect(own / usual).toBeCloseTo(1 - jonagold + (jonagold * 1.05) / 1.1, 9);
  });

  it('weighs transpiration by mass, the average of apples where a variety has none', () => {
    const average = known(room(['    transpiration: 58 ng/kg/s/Pa\n', '']).weightLossPerMonth);
    const own = known(AS_GIVEN.weightLossPerMonth);
    const one = known(
      room(['    respiratory-quotient: 1.1\n', '    transpiration: 58 ng/kg/s/Pa\n']).weightLossPerMonth,
    );
    const toOne = (own - average) / (one - average);
    expect(toOne).toBeCloseTo(150 / 243, 9);
  });
});
