import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareIds, nitrogenQueue, type QueueOrder } from '../../src/plant/nitrogen-queue';
import { aFill, aNitrogenSource, aPlan, aRoom, filledRooms, known, type PlanSpec } from '../room/orchard';

/** Three rooms on one slow source: R2 is small, R3 follows Washington's rule. */
const rooms = [aRoom(), aRoom({ id: 'R2' }), aRoom({ id: 'R3', law: 'washington' })];
const fills = [
  aFill({ id: 'F1', room: 'R1', sealed: '2026-09-10' }),
  aFill({ id: 'F2', room: 'R2', sealed: '2026-09-11', lots: { L1: 900 } }),
  aFill({ id: 'F3', room: 'R3', sealed: '2026-09-11' }),
];

function queueOf(flow: number, order?: QueueOrder, spec: PlanSpec = {}) {
  const source = aNitrogenSource([[99, flow]]);
  const filled = filledRooms(aPlan({ rooms, fills, nitrogen: [source], ...spec }));
  return nitrogenQueue(source, [...filled.values()], order);
}

const names = (queue: ReturnType<typeof queueOf>) => queue.turns.map(({ room }) => room.fill.id);

describe('the queue of rooms for nitrogen', () => {
  it('is none where the source is quick enough', () => {
    const queue = queueOf(1000);
    expect(queue.turns.every(({ waits }) => waits.value < 24)).toBe(true);
    expect(queue.turns[0]?.waits.value).toBe(0);
    expect(queue.turns[0]?.flushed.value).toBe(queue.turns[0]?.flush.value);
  });

  it('goes by sealing, each room from where the last one ends', () => {
    const { turns, longestWait } = queueOf(40);
    expect(names({ turns } as ReturnType<typeof queueOf>)).toEqual(['F1', 'F2', 'F3']);
    const [first, second, third] = turns;
    if (!first || !second || !third) throw new Error('three rooms');
    expect(first.waits.value).toBe(0);
    // F2 is sealed a day after F1.
    expect(second.waits.value).toBeCloseTo(first.flush.value - 24, 9);
    expect(third.waits.value).toBeCloseTo(first.flush.value + second.flush.value - 24, 9);
    expect(known(third.toSetPoint)).toBeCloseTo(
      third.waits.value + third.flush.value + known(third.room.respirationHours),
      9,
    );
    expect(longestWait).toBe(third);
    expect(third.days.first).toBe(third.sealed + Math.floor(third.waits.value / 24));
  });

  it('can take the shortest flush first, or a room under a state rule', () => {
    // F2 is the fullest, so it has the least gas.
    expect(names(queueOf(40, 'shortest flush first'))).toEqual(['F1', 'F2', 'F3']);
    expect(names(queueOf(40, 'room under a state rule first'))).toEqual(['F1', 'F3', 'F2']);
  });

  it('never takes a room before it is sealed, nor two at once', () => {
    for (const order of [
      'first sealed first',
      'shortest flush first',
      'room under a state rule first',
    ] as const) {
      let freeFrom = Number.NEGATIVE_INFINITY;
      for (const { sealed, waits, flushed } of queueOf(25, order).turns) {
        const starts = 24 * sealed + waits.value;
        expect(starts).toBeGreaterThanOrEqual(Math.max(24 * sealed, freeFrom) - 1e-9);
        freeFrom = 24 * sealed + flushed.value;
      }
    }
  });

  it('allows 20 days to 5 % oxygen where the room follows a state rule', () => {
    const [, , third] = queueOf(40).turns;
    expect(third?.allowed?.value).toBe(480);
    expect(queueOf(40).turns[0]?.allowed).toBeUndefined();
  });
});

it('orders identifiers as the language does, whatever they differ by', () => {
  const ids = fc.stringMatching(/^[A-Za-z0-9 _.-]{0,6}$/);
  fc.assert(
    fc.property(ids, ids, (a, b) => {
      expect(Math.sign(compareIds(a, b))).toBe(Math.sign(a.localeCompare(b)));
    }),
    { numRuns: 2000 },
  );
});
