import { describe, expect, test } from 'vitest';
import { type FittedGas, fitRoomGas, type RoomGas } from '../../src/learning/room-gas';
import type { RoomReadings } from '../../src/readings/types';
import { drawnSimulation, randomFrom, type Simulation, simulate } from './simulated-room';

const ROOMS = 500;
const STATED = 0.93;
const STARTS_AT = 29_700_000;

describe('respiration and leakage of simulated rooms', () => {
  test('lie within their stated intervals at least 93 times in 100', { timeout: 300_000 }, () => {
    const told = Array.from({ length: ROOMS }, (_, seed) => learnFrom(7919 * (seed + 1)));
    const fitted = told.flatMap(({ truth, fit }) => (typeof fit === 'string' ? [] : [{ truth, fit }]));
    // A room of which nothing can be told is no success.
    expect(fitted.length).toBeGreaterThan(0.98 * ROOMS);
    const respiration = fitted.filter(({ truth, fit }) => within(truth.share, fit.respiration));
    expect(respiration.length / fitted.length).toBeGreaterThan(STATED);
    const leaks = fitted.flatMap(({ truth, fit }) =>
      fit.exchange ? [{ truth, exchange: fit.exchange }] : [],
    );
    expect(leaks.length).toBeGreaterThan(0.9 * ROOMS);
    const held = leaks.filter(({ truth, exchange }) => within(truth.exchange * truth.gasVolumeM3, exchange));
    expect(held.length / leaks.length).toBeGreaterThan(STATED);
    // An interval that holds everything would tell nothing.
    const halfWidths = fitted.map(
      ({
        fit: {
          respiration: { low, high, value },
        },
      }) => (high - low) / 2 / value,
    );
    expect(halfWidths.reduce((sum, width) => sum + width, 0) / halfWidths.length).toBeLessThan(0.1);
    const leakWidths = leaks.map(
      ({ truth, exchange }) => (exchange.high - exchange.low) / 2 / truth.exchange / truth.gasVolumeM3,
    );
    expect(leakWidths.reduce((sum, width) => sum + width, 0) / leakWidths.length).toBeLessThan(0.5);
  });

  test('spans hold next to nothing in which something scrubbed, fed or let air in', () => {
    const busy = Array.from({ length: 30 }, (_, seed) => {
      const { fit, read } = learnFrom(104_729 * (seed + 1));
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

describe('a room of which little is known', () => {
  const simulation = { ...drawnSimulation(randomFrom(11)), days: 60, everyMinutes: 60 };

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

function within(truth: number, { low, high }: { readonly low: number; readonly high: number }): boolean {
  return low <= truth && truth <= high;
}

function learnFrom(seed: number) {
  const random = randomFrom(seed);
  const simulation = drawnSimulation(random);
  const read = simulate(simulation, random, STARTS_AT);
  const { truth } = simulation;
  return { truth, read, fit: fitRoomGas(asReadings(read), roomOf(simulation)) };
}

function learn(
  simulation: Simulation,
  seed: number,
  change: (readings: RoomReadings) => RoomReadings,
): FittedGas | string {
  const read = simulate(simulation, randomFrom(seed), STARTS_AT);
  return fitRoomGas(change(asReadings(read)), roomOf(simulation));
}

/** What a plan would say of the room: its gas volume, its fruit's rate by a reference, a leak by a test that is off. */
function roomOf({ truth }: Simulation): RoomGas {
  const { gasVolumeM3, referenceRate, halfAt, oxygen: setPoint } = truth;
  const hungry = (oxygen: number) => oxygen / (halfAt + oxygen);
  return {
    gasVolumeM3,
    from: STARTS_AT,
    to: STARTS_AT + 400 * 1440,
    exchangeByTest: 3e-4 * gasVolumeM3,
    oxygen: setPoint,
    quotientMeasured: false,
    reference: (_hours, oxygen) => {
      const made = ((gasVolumeM3 / 100) * referenceRate * hungry(oxygen)) / hungry(setPoint);
      return { carbonDioxide: made, oxygen: made / 1.05 };
    },
  };
}

function notRead({ times }: RoomReadings): Float32Array {
  return new Float32Array(times.length).fill(Number.NaN);
}

function asReadings(read: ReturnType<typeof simulate>): RoomReadings {
  const nothing = new Float32Array(read.times.length).fill(Number.NaN);
  return {
    room: 'R1',
    times: read.times,
    values: {
      oxygen: read.oxygen,
      'carbon-dioxide': read.carbonDioxide,
      temperature: nothing,
      humidity: nothing,
    },
  };
}
