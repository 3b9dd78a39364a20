import { describe, expect, it } from 'vitest';
import { quickRelease } from '../../src/release/quick';
import { salesOfRooms } from '../../src/release/room-sales';
import { cartonsPacked } from '../../src/release/settle';
import { madeProblem } from './generate';

const sum = (values: Iterable<number>) => [...values].reduce((all, one) => all + one, 0);

describe('where the cartons of a room go', () => {
  it('adds up over the rooms to what is packed and what goes to processing, in made-up seasons', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const size = { rooms: 8, weeks: 20, varieties: 2, weeksToEmpty: 2, demand: seed % 2 === 0 ? 0.5 : 1.2 };
      const problem = madeProblem(size, seed);
      const { schedule } = quickRelease(problem, { seed: 1, moves: 400 });
      const rooms = salesOfRooms(problem, schedule);
      const packed = sum(cartonsPacked(problem, schedule.packed).map(sum));
      const processed = sum(schedule.processed.map(sum));
      expect(sum(rooms.map((one) => one.packed))).toBeCloseTo(packed, 4);
      expect(sum(rooms.map((one) => one.unsold))).toBeCloseTo(processed, 4);
      rooms.forEach((one, at) => {
        expect(one.unsold).toBeGreaterThanOrEqual(0);
        expect(one.unsold).toBeLessThanOrEqual(one.packed + 1e-6);
        if (schedule.opens[at] === null) expect(one.packed).toBe(0);
        if (one.unsoldFrom !== undefined)
          expect(one.unsoldFrom).toBeGreaterThanOrEqual(schedule.opens[at] ?? 0);
      });
    }
  });
});
