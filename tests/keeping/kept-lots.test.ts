import { describe, expect, it } from 'vitest';
import { folded } from '../../src/findings/again/folded';
import { roomKeeping } from '../../src/keeping/room-keeping';
import type { RoomKeeping } from '../../src/keeping/types';
import { roomOf } from './rooms';

/** Lots that are alike, and one that was picked later and is threatened by a disorder that the others are too. */
function made(): RoomKeeping {
  const { plan, filled } = roomOf({
    regime: 'granny-smith-standard',
    lots: [
      { id: 'A', variety: 'Granny Smith', firmnessLbf: 17 },
      { id: 'B', variety: 'Granny Smith', firmnessLbf: 17 },
      { id: 'C', variety: 'Granny Smith', firmnessLbf: 16, picked: '2026-09-03' },
    ],
  });
  return roomKeeping(plan, filled);
}

describe('lots of a room', () => {
  it('share how long they last where their numbers are the same, and say it of themselves', () => {
    const [a, b, c] = made().lots;
    expect(a?.firmnessOn).toBe(b?.firmnessOn);
    expect(a?.withinStandard).toBe(b?.withinStandard);
    expect(c?.firmnessOn).not.toBe(a?.firmnessOn);
    expect([a?.storageLife.name, b?.storageLife.name]).toEqual([
      'storage life of lot A',
      'storage life of lot B',
    ]);
  });

  it('that have let go say what they said', () => {
    const whole = made();
    const full = whole.lots.map((one) => JSON.parse(JSON.stringify(one)) as unknown);
    const values = whole.lots.map(({ disorders, storageLife }) => [
      storageLife.value,
      disorders.map(({ begins }) => begins.value),
    ]);
    expect(whole.lots[0]?.disorders.length).toBeGreaterThan(0);
    let asked = 0;
    const held = folded(whole, () => {
      asked++;
      return made();
    });
    expect(
      held.lots.map(({ disorders, storageLife }) => [
        storageLife.value,
        disorders.map(({ begins }) => begins.value),
      ]),
    ).toEqual(values);
    expect(asked).toBe(0);
    expect(held.lots.map((one) => JSON.parse(JSON.stringify(one)) as unknown)).toEqual(full);
    expect(asked).toBeGreaterThan(0);
  });
});
