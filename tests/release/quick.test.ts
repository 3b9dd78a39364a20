import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkSchedule } from '../../src/release/checker';
import { quickRelease } from '../../src/release/quick';
import type { ReleaseProblem } from '../../src/release/types';
import { madeProblem, sizes } from './generate';

const season = madeProblem(sizes.S, 7);

/** The season with its rooms, products and demands listed in another order. */
function shuffled(problem: ReleaseProblem): ReleaseProblem {
  const last = problem.products.length - 1;
  return {
    ...problem,
    rooms: [...problem.rooms]
      .reverse()
      .map((room) => ({ ...room, cartonsABin: room.cartonsABin.map((week) => [...week].reverse()) })),
    products: [...problem.products].reverse(),
    demands: [...problem.demands].reverse().map((demand) => ({ ...demand, product: last - demand.product })),
  };
}

describe('a quick schedule', () => {
  it.each(['tiny', 'S', 'M', 'L'] as const)(
    'of size %s passes the independent check below its bound',
    (size) => {
      const problem = madeProblem(sizes[size], 5);
      const result = quickRelease(problem, { seed: 1, moves: 5000 });
      expect(checkSchedule(problem, result.schedule, result.unmet)).toEqual([]);
      expect(result.schedule.value).toBeLessThanOrEqual(result.bound);
      expect(result.provenOptimal).toBe(false);
    },
  );

  it('is the same for the same seed, and another for another', () => {
    const once = quickRelease(season, { seed: 4, moves: 3000 });
    expect(quickRelease(season, { seed: 4, moves: 3000 })).toEqual(once);
    expect(quickRelease(season, { seed: 5, moves: 3000 }).schedule).not.toEqual(once.schedule);
  });

  it('does not depend on the order of rooms, products and demands', () => {
    const once = quickRelease(season, { seed: 1, moves: 3000 });
    const again = quickRelease(shuffled(season), { seed: 1, moves: 3000 });
    expect(again.schedule.value).toBe(once.schedule.value);
    expect([...again.schedule.opens].reverse()).toEqual(once.schedule.opens);
    expect(again.bound).toBeCloseTo(once.bound, 3);
  });

  it('keeps every pin, wherever in its window it lies', () => {
    fc.assert(
      fc.property(fc.nat(11), fc.double({ min: 0, max: 1, noNaN: true }), (index, share) => {
        const rooms = season.rooms.map((room, at) =>
          at === index
            ? { ...room, pinned: room.earliest + Math.round(share * (room.latest - room.earliest)) }
            : room,
        );
        const problem = { ...season, rooms };
        const { schedule, conflicts } = quickRelease(problem, { seed: 1, moves: 200 });
        expect(conflicts).toEqual([]);
        expect(schedule.opens[index]).toBe(rooms[index]?.pinned);
        expect(checkSchedule(problem, schedule)).toEqual([]);
      }),
      { numRuns: 25 },
    );
  });

  it('never sells a carton for less than processing brings', () => {
    const cheap = { ...season, processingPrice: 100 };
    const { schedule } = quickRelease(cheap, { seed: 1, moves: 500 });
    expect(schedule.sold.flat().every((cartons) => cartons === 0)).toBe(true);
  });

  it('opens no more rooms at once than may stand open', () => {
    const limited = { ...season, roomsOpenAtOnce: 2 };
    const result = quickRelease(limited, { seed: 1, moves: 5000 });
    expect(checkSchedule(limited, result.schedule)).toEqual([]);
    // Without the limit more would stand open, so it was the limit that held.
    const free = quickRelease(season, { seed: 1, moves: 5000 });
    expect(checkSchedule(limited, free.schedule).map((one) => one.kind)).toContain('rooms-open');
  });

  it('opens rooms in the order asked for, whatever pair is asked', () => {
    fc.assert(
      fc.property(fc.nat(11), fc.nat(11), fc.nat(11), (one, two, three) => {
        const pairs = [
          [one, two],
          [two, three],
        ] as const;
        const problem = { ...season, opensBefore: pairs };
        const { schedule, conflicts, unmet } = quickRelease(problem, { seed: 1, moves: 400 });
        expect(checkSchedule(problem, schedule, unmet)).toEqual([]);
        for (const [first, later] of pairs) {
          const [before, after] = [schedule.opens[first] ?? null, schedule.opens[later] ?? null];
          if (before !== null && after !== null) expect(before).toBeLessThan(after);
        }
        if (one === two || two === three || one === three) expect(conflicts.length).toBeGreaterThan(0);
      }),
      { numRuns: 25 },
    );
  });

  it('stays nearer to a published schedule the more a change costs', () => {
    const weeks = season.rooms.map((room, index) => room.earliest + (index % 4));
    const movedAt = (price: number) => {
      const rooms = season.rooms.map((room, at) => ({ ...room, published: { week: weeks[at] ?? 0, price } }));
      const problem = { ...season, rooms };
      const { schedule, bound } = quickRelease(problem, { seed: 1, moves: 4000 });
      expect(checkSchedule(problem, schedule)).toEqual([]);
      expect(schedule.value).toBeLessThanOrEqual(bound);
      return schedule.opens.filter((week, at) => week !== weeks[at]).length;
    };
    expect(movedAt(0)).toBeGreaterThan(6);
    expect(movedAt(1e6)).toBe(0);
  });

  it('leaves a room closed where there is nothing to gain', () => {
    const worthless = {
      ...season,
      processingPrice: 0,
      demands: season.demands.map((one) => ({ ...one, price: 0, priceOfShortage: 0 })),
    };
    const { schedule } = quickRelease(worthless, { seed: 1, moves: 500 });
    expect(schedule.opens.every((week) => week === null)).toBe(true);
    expect(schedule.value).toBe(0);
  });
});
