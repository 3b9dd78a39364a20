import { expect, it } from 'vitest';
import type { Figure } from '../../src/plan/figure';
import { aBinType, aPlan, aRoom, onlyRoom, written } from './orchard';

/** The same room written in metric and in US units, each with the rounding a planner would use. */
const METRIC = {
  length: '18.6182 m',
  bin: '1.2192 m',
  height: '0.7366 m',
  net: '399.1613 kg',
  tare: '63.5029 kg',
  pressure: '249.08891 Pa',
  cooler: '77.37076 kW',
};
const US = {
  length: '61.0833 ft',
  bin: '48 in',
  height: '29 in',
  net: '880 lb',
  tare: '140 lb',
  pressure: '1 inH2O',
  cooler: '22 TR',
};

function computed(units: typeof METRIC) {
  const room = aRoom({
    length: written(units.length, 'length'),
    coolerCapacity: written(units.cooler, 'power'),
    tightness: {
      at: { file: 'test', start: 0, end: 0 },
      from: written(units.pressure, 'pressure'),
      to: written('124.544 Pa', 'pressure'),
      after: written('22 min', 'short time'),
    },
  });
  const binType = aBinType({
    length: written(units.bin, 'length'),
    width: written(units.bin, 'length'),
    height: written(units.height, 'length'),
    netFruit: written(units.net, 'mass'),
    tare: written(units.tare, 'mass'),
  });
  return onlyRoom(aPlan({ rooms: [room], binType }));
}

/** The figures a result holds directly, by name. */
function figuresOf(result: object): Map<string, Figure> {
  const isFigure = (value: unknown): value is Figure =>
    typeof value === 'object' && value !== null && 'unit' in value && 'origin' in value;
  return new Map(Object.entries(result).filter((pair): pair is [string, Figure] => isFigure(pair[1])));
}

it('comes to the same in metric and in US units', () => {
  const [metric, us] = [computed(METRIC), computed(US)];
  const inMetric = figuresOf({ ...metric, ...metric.capacity });
  const inUs = figuresOf({ ...us, ...us.capacity });
  expect(inMetric.size).toBeGreaterThan(20);
  expect([...inUs.keys()]).toEqual([...inMetric.keys()]);
  for (const [name, { value, unit }] of inMetric) {
    // What was written agrees to five digits or more.
    expect(Math.abs((inUs.get(name)?.value ?? 0) - value), name).toBeLessThanOrEqual(2e-5 * Math.abs(value));
    expect(inUs.get(name)?.unit).toBe(unit);
  }
  expect(us.capacity.places?.value).toBe(metric.capacity.places?.value);
});
