import { evaluate } from 'mathjs';
import { describe, expect, it } from 'vitest';
import type { Figure } from '../../src/plan/figure';
import { bedAir } from '../../src/plant/carbon';
import { oxygenBalance } from '../../src/plant/oxygen-balance';
import { removalPerLevel } from '../../src/plant/scrubber';
import { usualAssumptions } from '../../src/room/assumptions';
import { roomCourse } from '../../src/room/course/room-course';
import { halfLifeNeeded, leakFlow, oxygenLeak } from '../../src/room/tightness';
import { aFill, aPlan, aRoom, aScrubber, day, figure, known, onlyRoom } from '../room/orchard';

const beds = (voidVolume: number) => ({
  at: { file: 'test', start: 0, end: 0 },
  number: 2,
  carbon: figure('kg' as const, 140),
  adsorb: figure('min' as const, 8),
  regenerate: figure('min' as const, 8),
  voidVolume: figure('m3' as const, voidVolume),
});

function balanceWith(voidVolume: number, carbonDioxide = 0.6) {
  const scrubber = aScrubber({ beds: beds(voidVolume) });
  const plan = aPlan({
    scrubbers: [scrubber],
    regimes: { plain: { carbonDioxide } },
    fills: [aFill({ lots: { L1: 900 } })],
  });
  const room = onlyRoom(plan);
  const balance = oxygenBalance(room, scrubber);
  if (!balance) throw new Error('no balance');
  return { balance, room, scrubber };
}

describe('oxygen in a room that is held', () => {
  it('is kept down by the fruit where the beds carry in little', () => {
    const { balance } = balanceWith(0.05);
    expect(balance.surplus.value).toBeLessThan(0);
    expect(balance.settlesAt.value).toBeLessThan(1.8);
    expect(balance.bedAirBorne.value).toBeGreaterThan(balance.atBeds.value);
  });

  it('climbs where a low carbon dioxide keeps the beds changing, to the level of the course', () => {
    const { balance, room, scrubber } = balanceWith(0.5);
    expect(balance.surplus.value).toBeGreaterThan(0);
    const course = roomCourse(room, day('2027-06-01'), {
      law: 'share',
      scrubbing: {
        kgPerDayPerPercent: known(removalPerLevel(scrubber)),
        passive: false,
        bedAirM3h: bedAir(scrubber.beds).value,
        turns: [],
      },
    });
    expect(course?.course.events.some(({ kind }) => kind === 'oxygen-climbs')).toBe(true);
    // The scrubber has a little less to do than the fruit makes, for some goes out with the gas.
    expect(known(course?.oxygenAtEnd) / balance.settlesAt.value).toBeGreaterThan(0.9);
    expect(known(course?.oxygenAtEnd) / balance.settlesAt.value).toBeLessThan(1.1);
  });

  it('says how much air from the beds the room bears', () => {
    const { balance } = balanceWith(0.5);
    const without = balance.air.value - balance.atBeds.value;
    const level = (air: number) => (air * 20.9 - 100 * balance.use.value) / (air - balance.drawn.value);
    expect(level(without + balance.bedAirBorne.value)).toBeCloseTo(1.8, 6);
  });

  it('is what its formulas say', () => {
    const { balance } = balanceWith(0.5);
    for (const one of Object.values(balance) as Figure[]) {
      if (one.origin.kind !== 'computed') continue;
      const scope = Object.fromEntries(
        Object.entries(one.origin.inputs).map(([key, { value }]) => [key, value]),
      );
      expect(Number(evaluate(one.origin.formula, scope))).toBeCloseTo(one.value, 9);
    }
  });
});

describe('the half-life a regime needs', () => {
  it('is the one at which leak and weather bring in just what the fruit uses', () => {
    const room = onlyRoom(aPlan({ fills: [aFill({ lots: { L1: 900 } })] }));
    const [volume, gas, use, oxygen] = [
      room.capacity.volume,
      room.freeGasVolume,
      room.oxygenUse,
      room.regime?.oxygen,
    ];
    if (!volume || !gas || !use || !oxygen) throw new Error('figures are absent');
    const halfLife = halfLifeNeeded(volume, gas, use, oxygen, usualAssumptions);
    if (!halfLife) throw new Error('no half-life');
    const from = figure('Pa', 250);
    const leak = leakFlow(volume, from, halfLife);
    if (!leak) throw new Error('no leak');
    expect(oxygenLeak(leak, from, gas, oxygen, usualAssumptions).value).toBeCloseTo(use.value, 9);
    expect(halfLifeNeeded(volume, gas, figure('m3/h', 0.001), oxygen, usualAssumptions)).toBeUndefined();
    expect(aRoom().tightness?.after.value).toBeGreaterThan(0);
  });
});
