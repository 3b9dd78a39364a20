import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { balanceLevel, hoursByFruit, levelAfter } from '../../../src/room/course/closed/levels';
import { figure } from '../orchard';

/** A room that is left to its fruit and its leak: volume m3, use and leak m3/h, levels per cent. */
const rooms = fc.record({
  volume: fc.double({ min: 50, max: 2000, noNaN: true }),
  use: fc.double({ min: 0.02, max: 2, noNaN: true }),
  leak: fc.oneof(fc.constant(0), fc.double({ min: 1e-3, max: 1, noNaN: true })),
  from: fc.double({ min: 3, max: 20.9, noNaN: true }),
  share: fc.double({ min: 0.2, max: 0.99, noNaN: true }),
});

function hoursOf(room: { volume: number; use: number; leak: number; from: number; share: number }) {
  return hoursByFruit(
    figure('%', room.from),
    figure('%', room.from * room.share),
    figure('m3/h', room.use),
    figure('m3/h', room.leak),
    figure('m3', room.volume),
  );
}

describe('oxygen of a room left to its fruit and its leak', () => {
  it('is after the hours it takes to a level at that level', () => {
    fc.assert(
      fc.property(rooms, (room) => {
        const hours = hoursOf(room);
        fc.pre(hours !== undefined);
        const after = levelAfter(
          figure('%', room.from),
          figure('m3/h', room.use),
          figure('m3/h', room.leak),
          figure('m3', room.volume),
          figure('h', hours?.value ?? 0),
        );
        expect(after.value).toBeCloseTo(room.from * room.share, 6);
      }),
    );
  });

  it('falls no quicker with a larger leak, and never below where both balance', () => {
    fc.assert(
      fc.property(rooms, fc.double({ min: 0, max: 1, noNaN: true }), (room, more) => {
        const hours = hoursOf(room)?.value ?? Number.POSITIVE_INFINITY;
        const leakier = hoursOf({ ...room, leak: room.leak + more })?.value ?? Number.POSITIVE_INFINITY;
        expect(leakier).toBeGreaterThanOrEqual(hours * (1 - 1e-7));
        if (room.leak === 0) return;
        const rest = balanceLevel(figure('m3/h', room.use), figure('m3/h', room.leak)).value;
        if (rest >= room.from * room.share) expect(hours).toBe(Number.POSITIVE_INFINITY);
      }),
    );
  });
});
