import { describe, expect, it } from 'vitest';
import { aFill, aLot, aPlan, aRoom, day, figure, known, onlyRoom } from './orchard';

describe('the intake of a room', () => {
  const room = onlyRoom(aPlan());

  it('spreads the bins evenly from the first to the last day', () => {
    expect(room.intake.map(({ day }) => day)).toEqual(
      ['03', '04', '05', '06', '07', '08'].map((date) => day(`2026-09-${date}`)),
    );
    const bins = room.intake.map(({ bins }) => bins);
    expect(bins.reduce((sum, one) => sum + one, 0)).toBe(550);
    expect(Math.max(...bins) - Math.min(...bins)).toBeLessThanOrEqual(1);
  });

  it('adds up its terms', () => {
    for (const one of room.intake) {
      const parts = [
        one.fieldHeat,
        one.binHeat,
        one.respirationHeat,
        one.transmissionHeat,
        one.airChangeHeat,
        one.fanHeat,
      ];
      expect(one.heat.value).toBeCloseTo(
        parts.reduce((sum, part) => sum + part.value, 0),
        9,
      );
    }
  });

  it('takes no more field heat out than the fruit brings, and nearly all of it by the end', () => {
    const brought = (165_000 * 3.81 * (20 - 1)) / 86_400;
    const taken = room.intake.reduce((sum, { fieldHeat }) => sum + fieldHeat.value, 0);
    expect(taken).toBeLessThan(brought);
    expect(taken).toBeGreaterThan(0.9 * brought);
  });

  it('peaks on its last day and is set against the cooler', () => {
    expect(known(room.peakCooling)).toBe(room.intake.at(-1)?.heat.value);
    expect(known(room.coolerLoad)).toBeCloseTo((100 * known(room.peakCooling)) / 90, 9);
  });

  it('brings no field heat with fruit colder than the room', () => {
    const cold = onlyRoom(aPlan({ lots: [aLot('L1', 'Gala', 0), aLot('L2', 'Fuji', 0)], outside: -5 }));
    for (const one of cold.intake) {
      expect(one.fieldHeat.value).toBe(0);
      expect(one.transmissionHeat.value).toBe(0);
      expect(one.airChangeHeat.value).toBe(0);
    }
  });

  it('is left out where its dates cannot be meant', () => {
    const backwards = onlyRoom(aPlan({ fills: [aFill({ first: '2026-09-08', last: '2026-09-03' })] }));
    expect(backwards.intake).toEqual([]);
    const centuries = onlyRoom(aPlan({ fills: [aFill({ first: '1970-01-01', last: '2926-09-03' })] }));
    expect(centuries.intake).toEqual([]);
    expect(centuries.peakCooling).toBeUndefined();
  });
});

describe('a warm hold before cooling', () => {
  const conditioning = { temperature: 10, days: 7 };
  const held = onlyRoom(aPlan({ regimes: { plain: { temperature: 3, conditioning } } }));
  const direct = onlyRoom(aPlan({ regimes: { plain: { temperature: 3 } } }));

  it('takes the intake only to the warm temperature', () => {
    expect(held.intake.at(-1)?.fieldHeat.value).toBeCloseTo(
      ((direct.intake.at(-1)?.fieldHeat.value ?? 0) * 10) / 17,
      9,
    );
  });

  it('steps down by a kelvin a day when it is over', () => {
    expect(held.stepDown?.first).toBe(day('2026-09-16'));
    expect(held.stepDown?.last).toBe(day('2026-09-22'));
    expect(known(held.stepDown?.cooling)).toBeGreaterThan(known(held.holdingCooling));
    expect(direct.stepDown).toBeUndefined();
  });
});

it('holds a sealed room without the air changes of an open one', () => {
  const sealed = onlyRoom(aPlan());
  const open = onlyRoom(aPlan({ fills: [aFill({ sealed: undefined })] }));
  expect(known(sealed.holdingCooling)).toBeLessThan(known(open.holdingCooling));
});

it('has no cooling where the room has no size', () => {
  const room = onlyRoom(
    aPlan({ rooms: [aRoom({ height: undefined, statedPlaces: figure('places', 800) })] }),
  );
  expect(room.intake).toEqual([]);
  expect(room.holdingCooling).toBeUndefined();
  expect(known(room.utilisation)).toBeCloseTo(68.75, 9);
});
