import { describe, expect, it } from 'vitest';
import { checkSchedule } from '../../src/release/checker';
import { findConflicts } from '../../src/release/conflicts';
import { quickRelease } from '../../src/release/quick';
import type { ProblemRoom, ReleaseProblem } from '../../src/release/types';
import { madeProblem } from './generate';

const base = madeProblem({ rooms: 4, weeks: 20, varieties: 1, weeksToEmpty: 2 }, 1);

/** Four rooms of 1000 bins with a window of weeks 3 to 12, and a packhouse for 1500 bins a week. */
function season(
  change: (room: ProblemRoom, index: number) => Partial<ProblemRoom>,
  more: Partial<ReleaseProblem> = {},
): ReleaseProblem {
  const rooms = base.rooms.map((room, index) => {
    const plain = { ...room, bins: 1000, earliest: 3, latest: 12, pinned: null };
    return { ...plain, ...change(plain, index) };
  });
  return { ...base, rooms, packingBins: base.packingBins.map(() => 1500), ...more };
}

function expectLeftClosed(problem: ReleaseProblem, rooms: number[]): void {
  const result = quickRelease(problem, { seed: 1, moves: 500 });
  expect(result.unmet).toEqual(rooms);
  for (const room of rooms) expect(result.schedule.opens[room]).toBeNull();
  expect(checkSchedule(problem, result.schedule, result.unmet)).toEqual([]);
}

describe('pins and windows that cannot be kept', () => {
  it('are none in a season where all can', () => {
    expect(findConflicts(season((_, index) => ({ pinned: 3 + 2 * index }))).messages).toEqual([]);
  });

  it('a pin outside its window is named with the window', () => {
    const problem = season((_, index) => (index === 1 ? { pinned: 15 } : {}));
    const { messages } = findConflicts(problem);
    expect(messages).toEqual([
      // Week 0 is 2026-W36, and 2026 has 53 weeks.
      'Room R2 (fill-002) is pinned to 2026-W51, but can be opened only from 2026-W39 to 2026-W48.',
    ]);
    expectLeftClosed(problem, [1]);
  });

  it('an empty window is named', () => {
    const problem = season((_, index) => (index === 2 ? { earliest: 9, latest: 7 } : {}));
    expect(findConflicts(problem).messages).toEqual([
      'Room R3 (fill-003) has no week in which it can be opened: not before 2026-W45, and not after 2026-W43.',
    ]);
    expectLeftClosed(problem, [2]);
  });

  it('a room too large for the packhouse is named with what it can run', () => {
    const problem = season((_, index) => (index === 0 ? { bins: 3200 } : {}));
    expect(findConflicts(problem).messages).toEqual([
      'Room R1 (fill-001) holds 3200 bins, but the packhouse can run at most 3000 in the 2 weeks that its emptying ' +
        'may take, in any week of its window.',
    ]);
    expectLeftClosed(problem, [0]);
  });

  it('of pins that collide in the packhouse only those that do are named', () => {
    // Rooms 1 to 3 must be packed in weeks 5 to 7: 4200 bins into 4500, which fits; with room 4 it does not.
    const problem = season((_, index) => ({
      pinned: index === 1 ? 6 : 5,
      bins: [1400, 1500, 1300, 1250][index] ?? 0,
    }));
    const { messages, unmet } = findConflicts(problem);
    expect(messages).toEqual([
      'The pins of R1 (2026-W41), R3 (2026-W41) and R4 (2026-W41) cannot all be kept: together they ' +
        'hold 3950 bins, more than the packhouse can run in the weeks they must be emptied in, 2026-W41 to 2026-W42. ' +
        'Room R4 is left closed here.',
    ]);
    expect(unmet).toEqual([3]);
    expectLeftClosed(problem, [3]);
  });

  it('an order that the windows leave no weeks for is named, and the smallest room without a pin left closed', () => {
    const problem = season(
      (_, index) => [{ earliest: 8 }, { pinned: 9 }, { latest: 9, bins: 900 }, {}][index] ?? {},
      {
        opensBefore: [
          [0, 1],
          [1, 2],
          [3, 0],
        ],
      }, // R4 before R1 before R2 before R3
    );
    const { messages } = findConflicts(problem);
    expect(messages).toEqual([
      'fill-002 before fill-003 cannot be kept: fill-002 is pinned to 2026-W45, and fill-003 may open no later ' +
        'than 2026-W45. fill-003 is left closed here.',
    ]);
    expectLeftClosed(problem, [2]);
  });

  it('a chain that is too short by a week is named as a whole', () => {
    const problem = season((_, index) => (index === 2 ? { latest: 4, bins: 1100 } : {}), {
      opensBefore: [
        [0, 1],
        [1, 2],
      ],
    });
    expect(findConflicts(problem).messages).toEqual([
      'fill-001 before fill-002 before fill-003 cannot be kept: fill-001 may not open before 2026-W39, and ' +
        'fill-003 may open no later than 2026-W40. fill-001 is left closed here.',
    ]);
    expectLeftClosed(problem, [0]);
  });

  it('an order in a circle is named, the shortest circle first', () => {
    const problem = season(() => ({}), {
      opensBefore: [
        [0, 1],
        [1, 2],
        [2, 0],
        [1, 0],
      ],
    });
    const { messages, unmet } = findConflicts(problem);
    expect(messages[0]).toContain('cannot be kept: it goes round in a circle.');
    expect(messages[0]).toMatch(
      /^(fill-001 before fill-002 before fill-001|fill-002 before fill-001 before fill-002) /,
    );
    expectLeftClosed(problem, [...unmet]);
  });

  it('pins that would leave too many rooms open at once are named', () => {
    const problem = season((_, index) => (index < 2 ? { pinned: 5 + index } : {}), { roomsOpenAtOnce: 1 });
    const { messages } = findConflicts(problem);
    expect(messages).toEqual([
      'The pins of R1 (2026-W41) and R2 (2026-W42) cannot all be kept: more rooms would stand open at ' +
        'once than the 1 that may. Room R1 is left closed here.',
    ]);
    expectLeftClosed(problem, [0]);
  });
});
