import { describe, expect, it } from 'vitest';
import { ascend } from '../../src/release/ascent';
import { checkSchedule } from '../../src/release/checker';
import { guidedSearch } from '../../src/release/guided';
import { searchSchedule } from '../../src/release/search';
import { settledSchedule } from '../../src/release/settle';
import type { ReleaseProblem } from '../../src/release/types';
import { madeProblem, sizes } from './generate';

function likely(problem: ReleaseProblem, unmet: readonly number[] = []) {
  return ascend(problem, unmet, { turns: 300, known: 0 }).openings;
}

describe('a search from the likeliest weeks', () => {
  const problem = madeProblem({ ...sizes.M, demand: 1 / 0.85 }, 5);
  const options = { seed: 1, moves: 30_000 };
  const openings = likely(problem);

  it('finds a good deal more than placing room by room, and holds to the independent check', () => {
    const found = guidedSearch(problem, [], openings, options);
    if (!found) throw new Error('no room is pinned, so there is a start');
    const schedule = settledSchedule(problem, found);
    expect(checkSchedule(problem, schedule)).toEqual([]);
    const greedy = settledSchedule(problem, searchSchedule(problem, [], { seed: 1, moves: 0 }));
    expect(schedule.value).toBeGreaterThan(1.05 * greedy.value);
  });

  it('is the same for the same seed', () => {
    const search = (seed: number) => guidedSearch(problem, [], openings, { seed, moves: 2000 });
    expect(search(3)).toEqual(search(3));
    expect(search(4)?.opens).not.toEqual(search(3)?.opens);
  });

  it('keeps pins and leaves closed what is left out', () => {
    const plain = madeProblem(sizes.S, 8);
    const rooms = plain.rooms.map((room, at) => (at === 3 ? { ...room, pinned: room.latest } : room));
    const pinned = { ...plain, rooms };
    const found = guidedSearch(pinned, [5], likely(pinned, [5]), { seed: 1, moves: 3000 });
    expect(found?.opens[3]).toBe(plain.rooms[3]?.latest);
    expect(found?.opens[5]).toBe(-1);
  });
});
