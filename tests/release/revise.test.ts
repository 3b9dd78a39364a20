import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkSchedule } from '../../src/release/checker';
import { packedIn } from '../../src/release/placing';
import { quickRelease } from '../../src/release/quick';
import { betterAround, reviseOpening, stateOf } from '../../src/release/revise';
import { CLOSED, SeasonState } from '../../src/release/season-state';
import { settledSchedule } from '../../src/release/settle';
import { madeProblem, sizes } from './generate';

const season = madeProblem(sizes.S, 7);
const found = quickRelease(season, { seed: 1, moves: 4000 }).schedule;
const large = madeProblem(sizes.M, 3);
const foundLarge = quickRelease(large, { seed: 1, moves: 20_000 }).schedule;

/** The value of the same openings and bins, worked out from nothing. */
function fromScratch(state: SeasonState): number {
  const fresh = new SeasonState(state.problem);
  fresh.load(state.opens.slice(), state.packed.slice());
  return fresh.value;
}

describe('an opening that is dragged', () => {
  it('is valued as from scratch, wherever it goes, one after another', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(11), fc.integer({ min: -1, max: 31 })), { maxLength: 8 }),
        (drags) => {
          const state = stateOf(season, found);
          for (const [room, week] of drags) {
            const before = state.value;
            const change = reviseOpening(state, room, week);
            if (change === undefined) expect(state.value).toBe(before);
            else {
              expect(state.opens[room]).toBe(week);
              expect(state.value - before).toBeCloseTo(change, 4);
            }
            expect(fromScratch(state)).toBeCloseTo(state.value, 3);
          }
          const settled = settledSchedule(season, { opens: state.opens, packed: packedIn(state) });
          expect(checkSchedule(season, settled)).toEqual([]);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('is refused outside its window, and changes nothing', () => {
    const state = stateOf(season, found);
    const before = state.value;
    expect(reviseOpening(state, 2, (season.rooms[2]?.latest ?? 0) + 1)).toBeUndefined();
    expect([state.value, fromScratch(state)]).toEqual([before, expect.closeTo(before, 3)]);
  });

  it('can be put back', () => {
    const state = stateOf(season, found);
    const [week, before] = [state.opens[4] ?? CLOSED, state.value];
    expect(reviseOpening(state, 4, CLOSED)).toBeLessThan(0);
    expect(reviseOpening(state, 4, week)).toBeGreaterThan(0);
    expect(state.value).toBeGreaterThan(before - 0.02 * Math.abs(before));
  });
});

describe('a better schedule around a dragged opening', () => {
  const moved = large.rooms.findIndex((room, at) => room.latest - (foundLarge.opens[at] ?? room.latest) > 3);
  const week = (foundLarge.opens[moved] ?? 0) + 3;

  it('keeps it, holds to the independent check, and makes up for some of what it costs', () => {
    const around = betterAround(large, foundLarge, [{ room: moved, week }], { seed: 1, moves: 8000 });
    expect(around?.schedule.opens[moved]).toBe(week);
    expect(around?.gain).toBeGreaterThan(0);
    expect(checkSchedule(large, around?.schedule ?? foundLarge)).toEqual([]);
  });

  it('is the same for the same seed', () => {
    const once = betterAround(large, foundLarge, [{ room: moved, week }], { seed: 5, moves: 2000 });
    expect(betterAround(large, foundLarge, [{ room: moved, week }], { seed: 5, moves: 2000 })).toEqual(once);
  });

  it('moves no pinned room, and none that is left out', () => {
    const pinnedWeek = foundLarge.opens[9] ?? null;
    const rooms = large.rooms.map((room, at) => (at === 9 ? { ...room, pinned: pinnedWeek } : room));
    const around = betterAround({ ...large, rooms }, foundLarge, [], { seed: 2, moves: 4000, unmet: [11] });
    expect(around?.schedule.opens[9]).toBe(pinnedWeek);
    expect(around?.schedule.opens[11]).toBe(foundLarge.opens[11]);
  });

  it('is not made where the opening itself cannot be', () => {
    const late = (large.rooms[moved]?.latest ?? 0) + 1;
    expect(
      betterAround(large, foundLarge, [{ room: moved, week: late }], { seed: 1, moves: 100 }),
    ).toBeUndefined();
  });
});
