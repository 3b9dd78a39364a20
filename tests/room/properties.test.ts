import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fruitData } from '../../src/fruit/data';
import { respirationInAir } from '../../src/fruit/respiration';
import { roomCapacity } from '../../src/room/capacity';
import { quickestFlush } from '../../src/room/nitrogen';
import { leakFlow, pressureHalfLife } from '../../src/room/tightness';
import { aBinType, aFill, aLot, aNitrogenSource, aPlan, aRoom, figure, known, onlyRoom } from './orchard';

const RUNS = { numRuns: 60 };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const sideM = number(4, 40);

function roomOf(bins: number, field: number, oxygen = 1.8) {
  return onlyRoom(
    aPlan({
      lots: [aLot('L1', 'Gala', field)],
      fills: [aFill({ lots: { L1: bins } })],
      regimes: { plain: { oxygen } },
    }),
  );
}

describe('more fruit', () => {
  it('never gives off less carbon dioxide, and never leaves more gas', () => {
    fc.assert(
      fc.property(fc.nat(800), fc.nat(96), number(5, 30), (bins, more, field) => {
        const [less, all] = [roomOf(bins + 1, field), roomOf(bins + 1 + more, field)];
        expect(known(all.carbonDioxideAtFilling)).toBeGreaterThanOrEqual(known(less.carbonDioxideAtFilling));
        expect(known(all.carbonDioxideInStore)).toBeGreaterThanOrEqual(known(less.carbonDioxideInStore));
        expect(known(all.freeGasVolume)).toBeLessThanOrEqual(known(less.freeGasVolume));
        expect(known(all.peakCooling)).toBeGreaterThanOrEqual(known(less.peakCooling));
        expect(known(all.nitrogenHours)).toBeLessThanOrEqual(known(less.nitrogenHours));
      }),
      RUNS,
    );
  });
});

describe('warmer fruit', () => {
  it('never gives off less carbon dioxide and never needs less cooling', () => {
    fc.assert(
      fc.property(number(1, 30), number(0, 8), (field, more) => {
        const [cool, warm] = [roomOf(400, field), roomOf(400, field + more)];
        expect(known(warm.carbonDioxideAtFilling)).toBeGreaterThanOrEqual(known(cool.carbonDioxideAtFilling));
        expect(known(warm.peakCooling)).toBeGreaterThanOrEqual(known(cool.peakCooling) - 1e-9);
      }),
      RUNS,
    );
  });

  it('of any variety, in air', () => {
    const fruit = fruitData(aPlan());
    for (const name of fruit.varietyNames) {
      const variety = fruit.variety(name);
      if (!variety) throw new Error(name);
      const rates = Array.from({ length: 31 }, (_, t) => respirationInAir(variety, figure('degC', t)).value);
      rates.slice(1).forEach((rate, index) => {
        expect(rate, `${name} at ${index + 1} °C`).toBeGreaterThanOrEqual(rates[index] ?? 0);
      });
    }
  });
});

describe('nitrogen', () => {
  const pull = (purity: number, flow: number, oxygen: number) => {
    const nitrogen = [aNitrogenSource([[purity, flow]])];
    const room = onlyRoom(aPlan({ nitrogen, regimes: { plain: { oxygen } } }));
    return known(room.nitrogenHours) + known(room.respirationHours);
  };

  it('never takes longer in all when it is purer, at the same flow', () => {
    fc.assert(
      fc.property(
        number(95, 99.9),
        number(0, 0.1),
        number(20, 300),
        number(1, 3),
        (purity, more, flow, oxygen) => {
          expect(pull(purity + more, flow, oxygen)).toBeLessThanOrEqual(
            pull(purity, flow, oxygen) * (1 + 1e-9),
          );
        },
      ),
      RUNS,
    );
  });

  it('never takes longer when the source has one more point', () => {
    const point = fc.tuple(number(90, 99.9), number(10, 200));
    fc.assert(
      fc.property(
        fc.array(point, { minLength: 1, maxLength: 6 }),
        point,
        number(1, 5),
        (points, more, level) => {
          const to = figure('%', level);
          const gas = figure('m3', 800);
          const few = quickestFlush(aNitrogenSource(points), gas, to);
          const many = quickestFlush(aNitrogenSource([...points, more]), gas, to);
          if (!few) return;
          expect(known(many?.hours)).toBeLessThanOrEqual(few.hours.value * (1 + 1e-6));
          expect(few.steps.length).toBeLessThanOrEqual(points.length);
          expect(few.steps.at(-1)?.oxygenTo.value).toBe(level);
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('a tighter room', () => {
  it('never leaks more', () => {
    fc.assert(
      fc.property(number(1, 120), number(0, 60), number(50, 5000), (minutes, longer, volume) => {
        const leak = (after: number) => {
          const at = { file: 'test', start: 0, end: 0 };
          const test = { at, from: figure('Pa', 250), to: figure('Pa', 125), after: figure('min', after) };
          const halfLife = pressureHalfLife(test);
          return known(halfLife && leakFlow(figure('m3', volume), test.from, halfLife));
        };
        expect(leak(minutes + longer)).toBeLessThanOrEqual(leak(minutes));
      }),
      RUNS,
    );
  });

  it('has no leak by a test whose pressure did not fall', () => {
    const at = { file: 'test', start: 0, end: 0 };
    for (const [from, to, after] of [
      [250, 250, 20],
      [125, 250, 20],
      [250, 0, 20],
      [250, 125, 0],
    ] as const) {
      const test = { at, from: figure('Pa', from), to: figure('Pa', to), after: figure('min', after) };
      expect(pressureHalfLife(test)).toBeUndefined();
    }
  });
});

describe('a bigger room', () => {
  it('never has fewer places, nor smaller bins fewer', () => {
    fc.assert(
      fc.property(sideM, sideM, number(2, 12), number(0, 4), (length, width, height, more) => {
        const places = (add: number, shrink = 0) =>
          known(
            roomCapacity(
              aRoom({
                length: figure('m', length + add),
                width: figure('m', width + add),
                height: figure('m', height + add),
              }),
              aBinType({ length: figure('m', 1.2 - shrink), width: figure('m', 1 - shrink) }),
            ).placesByGeometry,
          );
        expect(places(more)).toBeGreaterThanOrEqual(places(0));
        expect(places(0, 0.1)).toBeGreaterThanOrEqual(places(0));
      }),
      RUNS,
    );
  });

  it('never holds more bins than its floor and height have room for', () => {
    fc.assert(
      fc.property(sideM, sideM, number(2, 12), (length, width, height) => {
        const room = aRoom({
          length: figure('m', length),
          width: figure('m', width),
          height: figure('m', height),
        });
        const places = known(roomCapacity(room, aBinType()).placesByGeometry);
        expect(places * 1.2 * 1.0 * 0.78).toBeLessThanOrEqual(length * width * height);
        expect(Number.isInteger(places)).toBe(true);
      }),
      RUNS,
    );
  });
});
