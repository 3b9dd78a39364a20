import fc from 'fast-check';
import { expect, test } from 'vitest';
import { leastUnplaced } from '../../src/fill/bound';
import { checkFill } from '../../src/fill/checker';
import { proposeFill } from '../../src/fill/propose';
import { smallHarvest } from './small';

const harvests = fc.record({
  seed: fc.integer({ min: 1, max: 1_000_000 }),
  rooms: fc.integer({ min: 1, max: 6 }),
  load: fc.double({ min: 0.2, max: 1.4, noNaN: true }),
});

test('every proposal passes the check, and leaves over no fewer bins than the least', async () => {
  await fc.assert(
    fc.asyncProperty(harvests, async ({ seed, rooms, load }) => {
      const problem = smallHarvest(seed, rooms, load);
      const { proposal, leastUnplaced: least } = await proposeFill(problem, { seed, moves: 25 });
      expect(checkFill(problem, proposal)).toEqual([]);
      expect(proposal.unplaced.reduce((sum, { bins }) => sum + bins, 0)).toBeGreaterThanOrEqual(least);
    }),
    { numRuns: 60, seed: 20260901 },
  );
});

test('more moves never find a worse fill', async () => {
  await fc.assert(
    fc.asyncProperty(harvests, async ({ seed, rooms, load }) => {
      const problem = smallHarvest(seed, rooms, load);
      const start = await proposeFill(problem, { seed, moves: 0 });
      const found = await proposeFill(problem, { seed, moves: 40 });
      expect(found.proposal.cost).toBeLessThanOrEqual(start.proposal.cost + 1e-6);
    }),
    { numRuns: 25, seed: 20260902 },
  );
});

test('another room, or a room ready sooner, never raises the least that is left over', () => {
  fc.assert(
    fc.property(harvests, ({ seed, rooms, load }) => {
      const problem = smallHarvest(seed, rooms + 1, load);
      const fewer = { ...problem, rooms: problem.rooms.slice(1) };
      const sooner = { ...problem, rooms: problem.rooms.map((room) => ({ ...room, ready: null })) };
      expect(leastUnplaced(problem)).toBeLessThanOrEqual(leastUnplaced(fewer));
      expect(leastUnplaced(sooner)).toBeLessThanOrEqual(leastUnplaced(problem));
    }),
    { numRuns: 60, seed: 20260903 },
  );
});
