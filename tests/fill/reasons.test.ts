import { describe, expect, test } from 'vitest';
import { proposeFill } from '../../src/fill/propose';
import { reasonsFor, whyUnplaced } from '../../src/fill/reasons';
import type { FillProblem, FillResult, LotToPlace } from '../../src/fill/types';
import { formatDay, parseDay } from '../../src/plan/dates';
import { lot, problemOf, room, smallHarvest } from './small';

const DAY = parseDay('2026-09-10') ?? 0;
const propose = (problem: FillProblem) => proposeFill(problem, { seed: 1, moves: 100 });
const sealedOnly: LotToPlace['keeps'] = [null, { latest: 30, costABin: 0 }];

describe('what would place a lot that finds no room', () => {
  const why = async (problem: FillProblem) => whyUnplaced(problem, await propose(problem), 'L1');

  test('the room ready sooner, by as little as it takes', async () => {
    const rooms = [room('R1', { ready: DAY + 5 }), room('R2', { ready: DAY + 9 })];
    const text = await why(problemOf({ rooms, lots: [lot('L1', [[DAY, 4]])] }));
    expect(text).toBe(
      `no room is ready by its picking; R1 could take it, were it ready on ${formatDay(DAY)} instead of ${formatDay(DAY + 5)}`,
    );
  });

  test('more bins let in on a day: as many as it takes, and not one fewer', async () => {
    // Twelve bins of one day, of which two days at five a day take ten.
    const lots = [lot('L1', [[DAY, 12]])];
    const problem = problemOf({ rooms: [room('R1')], lots });
    expect(await why(problem)).toContain('R1 could take it, were 6 bins let in on a day instead of 5');
    const left = async (binsADay: number) =>
      (await propose({ ...problem, rooms: [room('R1', { binsADay })] })).proposal.unplaced.length;
    expect([await left(5), await left(6)]).toEqual([1, 0]);
  });

  test('a longer wait, where that is enough', async () => {
    const problem = problemOf({ rooms: [room('R1', { ready: DAY + 3 })], lots: [lot('L1', [[DAY, 4]])] });
    expect(await why(problem)).toContain('might its bins wait 3 days instead of 1');
  });

  test('growers who may share a room', async () => {
    const lots = [
      lot('L0', [[DAY, 5]], { grower: 'Larkfield', apart: true }),
      lot('L1', [[DAY, 4]], { grower: 'Weir Orchard' }),
    ];
    const problem = problemOf({ rooms: [room('R1', { binsADay: 10 })], lots });
    expect(await why(problem)).toContain('R1 could take it, might its growers share a room');
    const free = lots.map((one) => ({ ...one, apart: false }));
    expect((await propose({ ...problem, lots: free })).proposal.unplaced).toEqual([]);
  });

  test('nothing that asks for a day that is past', async () => {
    const rooms = [room('R1', { ready: DAY + 5 }), room('R2', { ready: DAY + 9 })];
    const late = problemOf({ rooms, lots: [lot('L1', [[DAY, 4]])] });
    const kinds = async (problem: FillProblem) => (await propose(problem)).remedies.map(({ kind }) => kind);
    const ready = async (today: number) => {
      const [remedy] = (await propose({ ...late, today })).remedies;
      return remedy?.kind === 'ready' ? remedy.day : remedy?.kind;
    };
    expect(await ready(DAY - 1)).toBe(DAY);
    // A day later its bins can wait no longer: R1 would have had to be ready before.
    expect(await ready(DAY + 1)).toBe(DAY + 1);
    expect(await ready(DAY + 2)).toBe('room');
    const many = problemOf({ rooms: [room('R1')], lots: [lot('L1', [[DAY, 12]])] });
    expect(await kinds({ ...many, today: DAY })).toEqual(['intake', 'waiting']);
    // Five are in, five come in today, the last two could tomorrow.
    expect(await kinds({ ...many, today: DAY + 1 })).toEqual(['waiting']);
    expect(await kinds({ ...many, today: DAY + 3 })).toEqual(['room']);
    const slow = { ...many, rooms: [room('R1', { binsADay: 1 })] };
    expect(await kinds({ ...slow, today: DAY })).toEqual(['intake']);
    expect(await why({ ...slow, today: DAY + 3 })).toContain('no limit that can still be eased alone');
    const waits = problemOf({ rooms: [room('R1', { ready: DAY + 3 })], lots: [lot('L1', [[DAY, 4]])] });
    expect(await kinds({ ...waits, today: DAY + 2 })).toEqual(['waiting']);
    expect(await kinds({ ...waits, today: DAY + 4 })).toEqual(['room']);
    const lots = [
      lot('L0', [[DAY, 5]], { grower: 'Larkfield', apart: true }),
      lot('L1', [[DAY, 4]], { grower: 'Weir Orchard' }),
    ];
    const apart = problemOf({ rooms: [room('R1', { binsADay: 10 })], lots });
    expect(await kinds({ ...apart, today: DAY })).toEqual(['growers']);
    expect(await kinds({ ...apart, today: DAY + 1 })).toEqual(['room']);
  });

  test('another room, where nothing less would do', async () => {
    const lots = [lot('L0', [[DAY, 5]], { keeps: sealedOnly }), lot('L1', [[DAY, 4]], { keeps: sealedOnly })];
    const text = await why(problemOf({ rooms: [room('R1', { places: 5 })], lots }));
    expect(text).toBe('every room that is ready by its picking is used; it takes another room with 4 places');
  });
});

describe('why a room is filled as it is', () => {
  test('what would be worse without it and with a lot elsewhere is what comes of placing them anew', async () => {
    const problem = smallHarvest(2, 8, 0.7);
    const result = await propose(problem);
    expect(result.withoutRoom.map(({ room: id }) => id)).toEqual(
      result.proposal.rooms.map(({ room: id }) => id),
    );
    for (const proposed of result.proposal.rooms) {
      const other = result.otherPlaces.find((one) => one.room === proposed.room);
      expect(proposed.entries.map((entry) => entry.lot)).toContain(other?.lot);
      expect(other?.into).not.toContain(proposed.room);
      const text = reasonsFor(problem, result, proposed).join(' ');
      expect(text).toContain('Without it ');
      expect(text).toContain(other?.lot ?? '?');
    }
  });

  test('the alternative is told with what it costs', async () => {
    const lots = ['L1', 'L2', 'L3', 'L4'].map((id, index) =>
      lot(id, [[DAY, 9]], { keeps: sealedOnly, term: index < 2 ? 0 : 2 }),
    );
    const rooms = ['R1', 'R2', 'R3'].map((id) => room(id, { binsADay: 20 }));
    const problem = problemOf({ rooms, lots });
    const result: FillResult = await propose(problem);
    expect(result.proposal.rooms.map(({ entries }) => entries.map((entry) => entry.lot))).toEqual([
      ['L1', 'L2'],
      ['L3', 'L4'],
    ]);
    const [first] = result.proposal.rooms;
    const reasons = first ? reasonsFor(problem, result, first) : [];
    expect(reasons).toContain('Without it R3 would take its place.');
    expect(reasons).toContain(
      'Of its lots L1 could most easily be elsewhere: in R3, at one room more and 2 rooms more partly filled.',
    );
  });
});
