import { beforeAll, describe, expect, it } from 'vitest';
import { checkSchedule } from '../../src/release/checker';
import { guidedSearch } from '../../src/release/guided';
import { solveRelaxation } from '../../src/release/linear';
import { type ReleaseModel, seasonModel } from '../../src/release/model';
import { searchSchedule } from '../../src/release/search';
import { settledSchedule } from '../../src/release/settle';
import type { ReleaseProblem } from '../../src/release/types';
import { madeProblem, sizes } from './generate';
import { loadHighs } from './highs';

async function relaxed(problem: ReleaseProblem) {
  const model = seasonModel(problem, [], true);
  const { columns } = solveRelaxation(await loadHighs(), model.linear, 'interior', 1e4);
  return { model, columns };
}

describe('a search from the relaxation', () => {
  const problem = madeProblem({ ...sizes.M, demand: 1 / 0.85 }, 5);
  const options = { seed: 1, moves: 30_000 };
  let season: { readonly model: ReleaseModel; readonly columns: Float64Array };

  beforeAll(async () => {
    season = await relaxed(problem);
  });

  it('finds a good deal more than placing room by room, and holds to the independent check', () => {
    const found = guidedSearch(problem, [], season.model, season.columns, options);
    if (!found) throw new Error('no room is pinned, so there is a start');
    const schedule = settledSchedule(problem, found);
    expect(checkSchedule(problem, schedule)).toEqual([]);
    const greedy = settledSchedule(problem, searchSchedule(problem, [], { seed: 1, moves: 0 }));
    expect(schedule.value).toBeGreaterThan(1.05 * greedy.value);
  });

  it('is the same for the same seed', () => {
    const search = (seed: number) =>
      guidedSearch(problem, [], season.model, season.columns, { seed, moves: 2000 });
    expect(search(3)).toEqual(search(3));
    expect(search(4)?.opens).not.toEqual(search(3)?.opens);
  });

  it('keeps pins and leaves closed what is left out', async () => {
    const plain = madeProblem(sizes.S, 8);
    const rooms = plain.rooms.map((room, at) => (at === 3 ? { ...room, pinned: room.latest } : room));
    const pinned = { ...plain, rooms };
    const { model, columns } = await relaxed(pinned);
    const found = guidedSearch(pinned, [5], model, columns, { seed: 1, moves: 3000 });
    expect(found?.opens[3]).toBe(plain.rooms[3]?.latest);
    expect(found?.opens[5]).toBe(-1);
  });
});
