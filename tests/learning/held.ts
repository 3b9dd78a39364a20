import { expect } from 'vitest';
import { fitRoomGas, type RoomGas } from '../../src/learning/room-gas';
import type { RoomReadings } from '../../src/readings/types';
import { drawnSimulation, randomFrom, type Simulation, simulate, type Weather } from './simulated-room';

const ROOMS = 500;
const STATED = 0.93;
export const STARTS_AT = 29_700_000;

/** Rooms drawn by chance have their respiration and leakage within the stated intervals, which are no wider than helps. */
export function holdsStated(weather: Weather): void {
  const told = Array.from({ length: ROOMS }, (_, seed) => learnFrom(7919 * (seed + 1), weather));
  const fitted = told.flatMap(({ truth, fit }) => (typeof fit === 'string' ? [] : [{ truth, fit }]));
  // A room of which nothing can be told is no success.
  expect(fitted.length).toBeGreaterThan(0.98 * ROOMS);
  const respiration = fitted.filter(({ truth, fit }) => within(truth.share, fit.respiration));
  expect(respiration.length / fitted.length).toBeGreaterThan(STATED);
  const leaks = fitted.flatMap(({ truth, fit }) => (fit.exchange ? [{ truth, exchange: fit.exchange }] : []));
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
  expect(middle(halfWidths)).toBeLessThan(0.06);
  const leakWidths = leaks.map(
    ({ truth, exchange }) => (exchange.high - exchange.low) / 2 / truth.exchange / truth.gasVolumeM3,
  );
  expect(middle(leakWidths)).toBeLessThan(0.35);
}

function middle(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
}

export function within(
  truth: number,
  { low, high }: { readonly low: number; readonly high: number },
): boolean {
  return low <= truth && truth <= high;
}

export function learnFrom(seed: number, weather: Weather) {
  const random = randomFrom(seed);
  const simulation = drawnSimulation(random, weather);
  const read = simulate(simulation, random, STARTS_AT);
  const { truth } = simulation;
  return { truth, read, fit: fitRoomGas(asReadings(read), roomOf(simulation)) };
}

/** What a plan would say of the room: its gas volume, its fruit's rate by a reference, a leak by a test that is off. */
export function roomOf({ truth }: Simulation): RoomGas {
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

export function asReadings(read: ReturnType<typeof simulate>): RoomReadings {
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
