import { describe, expect, it } from 'vitest';
import { fruitData } from '../../src/fruit/data';
import { respirationInAir } from '../../src/fruit/respiration';
import { aBinType, aFill, aPlan, aRoom, aScrubber, figure, filledRooms, known, onlyRoom } from './orchard';

describe('a filled room', () => {
  const plan = aPlan();
  const room = onlyRoom(plan);

  it('counts its bins and fruit', () => {
    expect(known(room.bins)).toBe(550);
    expect(known(room.fruit)).toBe(165);
    expect(known(room.utilisation)).toBeCloseTo((100 * 550) / 896, 9);
  });

  it('leaves the gas what fruit and bins do not take', () => {
    const bins = (550 * 38) / 950;
    expect(known(room.freeGasVolume)).toBeCloseTo(18.6 * 9 * 7.6 - 165_000 / 840 - bins, 9);
  });

  it('adds up each variety at its own respiration', () => {
    const fruit = fruitData(plan);
    const rates = ['Gala', 'Fuji'].map((name) => {
      const variety = fruit.variety(name);
      if (!variety) throw new Error(`${name} is not built in`);
      return respirationInAir(variety, figure('degC', 20)).value;
    });
    const [gala = 0, fuji = 0] = rates;
    expect(known(room.carbonDioxideAtFilling)).toBeCloseTo(((90_000 * gala + 75_000 * fuji) * 24) / 1e6, 9);
  });

  it('gives off far less in store than at filling, within the range of the sources', () => {
    const [low, expected, high] = [
      room.carbonDioxideInStoreLow,
      room.carbonDioxideInStore,
      room.carbonDioxideInStoreHigh,
    ].map(known);
    expect(low).toBeLessThan(expected ?? 0);
    expect(expected).toBeLessThan(high ?? 0);
    expect(high).toBeLessThan(known(room.carbonDioxideBeforePullDown));
    expect(known(room.carbonDioxideBeforePullDown)).toBeLessThan(known(room.carbonDioxideAtFilling));
  });

  it('weighs field temperatures by mass', () => {
    const lots = [...plan.lots.values()];
    const [first, second] = lots;
    if (!first || !second) throw new Error('two lots are wanted');
    const warm = { ...first, fieldTemperature: figure('degC', 25) };
    const mixed = onlyRoom(aPlan({ lots: [warm, second] }));
    expect(known(mixed.meanFieldTemperature)).toBeCloseTo((300 * 25 + 250 * 20) / 550, 9);
  });

  it('sets the oxygen that leaks in against what the fruit uses', () => {
    expect(known(room.leakShareOfFruitUse)).toBeCloseTo(
      (100 * known(room.oxygenLeak)) / known(room.oxygenUse),
      9,
    );
  });

  it('needs lime only where a lime scrubber serves it', () => {
    expect(room.limePerMonth).toBeUndefined();
    const limed = onlyRoom(aPlan({ scrubbers: [aScrubber({ kind: 'lime' })] }));
    const uses = (known(limed.carbonDioxideInStore) * (365.2425 / 12) * 1.6836) / 0.6;
    expect(known(limed.limePerMonth) / uses).toBeCloseTo(1, 4);
  });

  it('needs no gas figures when kept in air', () => {
    const air = onlyRoom(aPlan({ regimes: { plain: { oxygen: undefined, carbonDioxide: undefined } } }));
    expect(air.nitrogenHours).toBeUndefined();
    expect(air.freshAirVolumes).toBeUndefined();
    expect(air.leakShareOfFruitUse).toBeUndefined();
    expect(known(air.carbonDioxideInStore)).toBeCloseTo(known(air.carbonDioxideBeforePullDown), 9);
  });
});

describe('a half-written plan', () => {
  it('leaves out lots that are not defined, but not the places they take', () => {
    const room = onlyRoom(aPlan({ fills: [aFill({ lots: { L1: 300, nobody: 200 } })] }));
    expect(room.lots.map(({ lot }) => lot.id)).toEqual(['L1']);
    expect(known(room.bins)).toBe(500);
  });

  it('computes what it can without a regime, lots, bins or sizes', () => {
    const nothing = {
      regime: aFill({ regime: 'no such regime' }),
      lots: aFill({ lots: {} }),
    };
    expect(onlyRoom(aPlan({ fills: [nothing.regime] })).carbonDioxideInStore).toBeUndefined();
    expect(known(onlyRoom(aPlan({ fills: [nothing.lots] })).utilisation)).toBe(0);
    const noBin = onlyRoom(aPlan({ rooms: [aRoom({ binType: undefined })] }));
    expect(noBin.fruit).toBeUndefined();
    expect(known(noBin.bins)).toBe(550);
    const noFruit = onlyRoom(aPlan({ binType: aBinType({ netFruit: undefined, material: undefined }) }));
    expect(noFruit.freeGasVolume).toBeUndefined();
    expect(noFruit.intake).toEqual([]);
  });

  it('keeps two fills of one room apart', () => {
    const rooms = filledRooms(aPlan({ fills: [aFill(), aFill({ id: 'F2', lots: { L1: 10 } })] }));
    expect([...rooms.values()].map(({ bins }) => known(bins))).toEqual([550, 10]);
  });
});
