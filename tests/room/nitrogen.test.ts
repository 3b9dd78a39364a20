import { describe, expect, it } from 'vitest';
import { lowestSensibleLevel, quickestFlush } from '../../src/room/nitrogen';
import { aNitrogenSource, aPlan, figure, known, onlyRoom } from './orchard';

const gas = figure('m3', 1000);

describe('the quickest flush', () => {
  it('starts with lean gas and ends with rich', () => {
    const flush = quickestFlush(aNitrogenSource(), gas, figure('%', 1.8));
    expect(flush?.steps.map(({ purity }) => purity.value)).toEqual([97, 99, 99.5]);
    // Each change is where both points take out as much: 150 (C - 3) = 80 (C - 1) at C = 370 / 70.
    expect(flush?.steps[1]?.oxygenFrom.value).toBeCloseTo(370 / 70, 12);
    expect(flush?.steps.at(-1)?.oxygenTo.value).toBe(1.8);
  });

  it('is no slower than any one purity, nor than changing at any other level', () => {
    const points = [
      [97, 150],
      [99, 80],
      [99.5, 55],
    ] as const;
    const best = known(quickestFlush(aNitrogenSource(points), gas, figure('%', 1.8))?.hours);
    for (const point of points.slice(1)) {
      const alone = known(quickestFlush(aNitrogenSource([point]), gas, figure('%', 1.8))?.hours);
      expect(best).toBeLessThanOrEqual(alone + 1e-9);
    }
    for (let level = 3.2; level < 20; level += 0.4) {
      const lean = (1000 / 150) * Math.log((20.9 - 3) / (level - 3));
      const rich = (1000 / 55) * Math.log((level - 0.5) / (1.8 - 0.5));
      expect(best).toBeLessThanOrEqual(lean + rich + 1e-9);
    }
  });

  it('needs no order in the points of the source', () => {
    const forward = quickestFlush(aNitrogenSource(), gas, figure('%', 1.8));
    const backward = quickestFlush(
      aNitrogenSource([
        [99.5, 55],
        [99, 80],
        [97, 150],
      ]),
      gas,
      figure('%', 1.8),
    );
    expect(known(backward?.hours)).toBeCloseTo(known(forward?.hours), 12);
  });

  it('is not made with gas that holds too much oxygen, or with none', () => {
    expect(quickestFlush(aNitrogenSource([[98, 100]]), gas, figure('%', 2))).toBeUndefined();
    expect(quickestFlush(aNitrogenSource([[99, 0]]), gas, figure('%', 2))).toBeUndefined();
    expect(quickestFlush(aNitrogenSource([]), gas, figure('%', 2))).toBeUndefined();
  });
});

describe('a set-point that the purity cannot reach', () => {
  const lean = aPlan({ nitrogen: [aNitrogenSource([[97, 120]])] });
  const room = onlyRoom(lean);

  it('is said, with the level it is run to and the hours the fruit takes', () => {
    expect(room.nitrogenShortfall).toMatch(/^The purest gas of N1 still carries 3 % oxygen/);
    expect(room.nitrogenShortfall).toMatch(
      /it is run to 3\.08 %.* the fruit would take about \d+ h to 1\.8 % if no air leaked in\.$/,
    );
  });

  it('is flushed to where the fruit is quicker, and left to the fruit', () => {
    const use = room.oxygenUse ?? figure('m3/h', 0);
    expect(known(room.flushTo)).toBeCloseTo(3 + (100 * use.value) / 120, 12);
    expect(known(room.nitrogenHours)).toBeGreaterThan(0);
    const points = known(room.flushTo) - 1.8;
    expect(known(room.respirationHours)).toBeCloseTo(
      ((points / 100) * known(room.freeGasVolume)) / use.value,
      9,
    );
  });

  it('has no level to run to in a room of unknown fruit', () => {
    const unknown = onlyRoom(aPlan({ nitrogen: [aNitrogenSource([[97, 120]])], lots: [] }));
    expect(unknown.nitrogenHours).toBeUndefined();
    expect(unknown.nitrogenShortfall).toContain('cannot bring the room to 1.8 %');
  });

  it('takes no longer in all than stopping anywhere else', () => {
    const use = known(room.oxygenUse);
    const volume = known(room.freeGasVolume);
    const total = known(room.nitrogenHours) + known(room.respirationHours);
    for (let stop = 3.01; stop < 6; stop += 0.05) {
      const hours = (volume / 120) * Math.log(17.9 / (stop - 3)) + (volume * (stop - 1.8)) / 100 / use;
      expect(total).toBeLessThanOrEqual(hours + 1e-9);
    }
  });
});

it('compares points of a source for the lowest sensible level', () => {
  const source = aNitrogenSource();
  expect(known(lowestSensibleLevel(source, figure('m3/h', 0.1)))).toBeCloseTo(0.5 + 10 / 55, 12);
});
