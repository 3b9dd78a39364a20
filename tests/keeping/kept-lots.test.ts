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
    const day = 20_800;
    expect(a?.firmnessOn(day)).toBe(b?.firmnessOn(day));
    expect(a?.withinStandard(2972)).toBe(b?.withinStandard(2972));
    expect(c?.firmnessOn(day)).not.toBe(a?.firmnessOn(day));
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

  it("has a window's edges that tell the figure behind them when they are asked, let go or not", () => {
    const { window } = made();
    expect([window?.bestBefore.lot?.id, window?.latest.lot?.id]).toEqual(['A', 'A']);
    const full = JSON.parse(JSON.stringify(window)) as unknown;
    let asked = 0;
    const held = folded(made(), () => {
      asked++;
      return made();
    });
    expect([held.window?.bestBefore.week, held.window?.latest.week]).toEqual([
      window?.bestBefore.week,
      window?.latest.week,
    ]);
    expect(asked).toBe(0);
    expect(JSON.parse(JSON.stringify(held.window))).toEqual(full);
    // Of a plan that has gone on its week is known, whose Monday the days come to.
    const gone = folded(made(), () => undefined).window?.latest.because;
    expect(gone?.value).toBe(window?.latest.because.value);
    expect(gone?.name).toBe('days from the picking of lot A to the week by which it called for opening');
  });
});
