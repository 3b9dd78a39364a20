import { describe, expect, test } from 'vitest';
import type { FittedGas } from '../../src/learning/room-gas';
import { fitRoomGas } from '../../src/learning/room-gas';
import type { RoomReadings } from '../../src/readings/types';
import { asReadings, holdsStated, learnFrom, roomOf, STARTS_AT, within } from './held';
import { drawnSimulation, ordinaryWeather, randomFrom, type Simulation, simulate } from './simulated-room';

describe('respiration and leakage of simulated rooms', () => {
  test('lie within their stated intervals at least 93 times in 100', { timeout: 300_000 }, () => {
    holdsStated(ordinaryWeather);
  });

  test('spans hold next to nothing in which something scrubbed, fed or let air in', () => {
    const busy = Array.from({ length: 30 }, (_, seed) => {
      const { fit, read } = learnFrom(104_729 * (seed + 1), ordinaryWeather);
      if (typeof fit === 'string') return [];
      return fit.spans.map(({ span }) =>
        read.busy.some(
          (one, row) =>
            one > 0 &&
            (read.times[row] ?? 0) >= span.from &&
            (read.times[row + 1] ?? Number.POSITIVE_INFINITY) <= span.to,
        ),
      );
    }).flat();
    expect(busy.length).toBeGreaterThan(1000);
    expect(busy.filter(Boolean).length / busy.length).toBeLessThan(0.03);
  });
});

describe('what an interval is made of', () => {
  test('no cause alone reaches further than the limits, and what is fitted lies in the middle', () => {
    const fits = Array.from({ length: 25 }, (_, seed) => learnFrom(15_485_863 * (seed + 1), ordinaryWeather));
    const told = fits.flatMap(({ fit }) => (typeof fit !== 'string' && fit.exchange ? [fit] : []));
    expect(told.length).toBeGreaterThan(15);
    for (const { respiration, respirationParts, exchange, exchangeParts } of told) {
      const range = exchangeParts.find(({ cause }) => cause === 'respiratory quotient');
      expect(range?.above).toBeGreaterThan(0);
      expect(range?.below).toBe(range?.above);
      for (const [interval, parts] of [
        [respiration, respirationParts],
        [exchange, exchangeParts],
      ] as const) {
        const [down, up] = interval ? [interval.value - interval.low, interval.high - interval.value] : [];
        for (const { below, above } of parts) {
          expect(above).toBeLessThanOrEqual((up ?? 0) + 1e-9);
          // No leak is less than nothing: there the limit is cut off.
          if ((interval?.low ?? 0) > 0) expect(below).toBeLessThanOrEqual((down ?? 0) + 1e-9);
        }
      }
    }
  });
});

describe('a room of which little is known', () => {
  const simulation = { ...drawnSimulation(randomFrom(11), ordinaryWeather), days: 60, everyMinutes: 60 };

  test('without readings of oxygen respiration is fitted with the leak of the pressure test, and no leak', () => {
    const fit = learn(simulation, 11, (readings) => ({
      ...readings,
      values: { ...readings.values, oxygen: notRead(readings) },
    }));
    if (typeof fit === 'string') throw new Error(fit);
    expect(fit.exchange).toBeUndefined();
    expect(fit.whyNoExchange).toBe('no oxygen');
    expect(within(simulation.truth.share, fit.respiration)).toBe(true);
    expect(fit.respirationParts.some(({ cause }) => cause === 'leak')).toBe(true);
  });

  test('without readings of carbon dioxide nothing is fitted', () => {
    const fit = learn(simulation, 11, (readings) => ({
      ...readings,
      values: { ...readings.values, 'carbon-dioxide': notRead(readings) },
    }));
    expect(fit).toBe('no carbon dioxide');
  });

  test('where carbon dioxide is held level nothing rests', () => {
    const random = randomFrom(5);
    const fit = learn(simulation, 11, (readings) => ({
      ...readings,
      values: {
        ...readings.values,
        'carbon-dioxide': Float32Array.from(readings.times, () => 1.8 + 0.02 * (random() - 0.5)),
      },
    }));
    expect(fit).toBe('nothing rests');
  });

  test('two days are too few', () => {
    const fit = learn({ ...simulation, days: 2 }, 11, (readings) => readings);
    expect(['too few spans', 'nothing rests']).toContain(fit);
  });

  test('oxygen that a valve holds at one level tells of no leak', () => {
    const random = randomFrom(6);
    const fit = learn(simulation, 11, (readings) => ({
      ...readings,
      values: {
        ...readings.values,
        oxygen: Float32Array.from(readings.times, () => 1.5 + 0.02 * (random() - 0.5)),
      },
    }));
    if (typeof fit === 'string') throw new Error(fit);
    expect(fit.whyNoExchange).toBe('oxygen held');
  });
});

function learn(
  simulation: Simulation,
  seed: number,
  change: (readings: RoomReadings) => RoomReadings,
): FittedGas | string {
  const read = simulate(simulation, randomFrom(seed), STARTS_AT);
  return fitRoomGas(change(asReadings(read)), roomOf(simulation));
}

function notRead({ times }: RoomReadings): Float32Array {
  return new Float32Array(times.length).fill(Number.NaN);
}
