import { describe, expect, it } from 'vitest';
import { watchDelays } from '../../src/watching/delays';
import { newRoomWatch, sightingsOf, watchMore } from '../../src/watching/room-watch';
import type { Sighting, WatchedQuantity, WatchKind } from '../../src/watching/types';
import { type Fault, type Simulated, simulate } from './simulate';

const SEASONS = 320;
const SEASON_DAYS = 200;
const PLANTED = 40;
const AT = 55 * 1440 + 7 * 60;

function seen({ expected, readings }: Simulated): Sighting[] {
  return sightingsOf(watchMore([expected], newRoomWatch('R1'), readings), [expected]);
}

describe('rooms in which nothing is wrong', () => {
  it(`give less than one sighting a season, over ${SEASONS} seasons with outages, drift and single wild readings`, () => {
    const counts: Partial<Record<WatchKind, number>> = {};
    let most = 0;
    for (let seed = 1; seed <= SEASONS; seed++) {
      const all = seen(simulate(seed, SEASON_DAYS));
      most = Math.max(most, all.length);
      for (const { kind } of all) counts[kind] = (counts[kind] ?? 0) + 1;
    }
    const total = Object.values(counts).reduce((sum, count) => sum + count, 0);
    expect(total / SEASONS, JSON.stringify(counts)).toBeLessThan(0.1);
    expect(most).toBeLessThanOrEqual(6);
  }, 240_000);
});

interface Planted {
  readonly name: string;
  readonly fault: Fault;
  readonly kind: WatchKind;
  readonly quantity: WatchedQuantity;
  /** How far from the true beginning the onset may be told, hours. */
  readonly onset: number;
  readonly can?: (simulated: Simulated) => boolean;
}

/** Rests of six readings once the fruit breathes faster, and a swing of seven times the analyser's scatter. */
const restsShow = ({ swing, riseADay, scatter }: Simulated) =>
  swing / ((riseADay / 24) * 1.7 * 0.85) >= 8 && swing > 7 * scatter;

const STUCK_HOURS = 20 * 24;
const planted: readonly Planted[] = [
  ...(['oxygen', 'carbon-dioxide', 'temperature'] as const).flatMap((quantity): Planted[] => [
    {
      name: `${quantity}: a sensor stands still`,
      fault: { kind: 'stuck', at: AT, quantity, hours: STUCK_HOURS },
      kind: 'sensor-stuck',
      quantity,
      onset: 12,
    },
    {
      name: `${quantity}: a sensor jumps`,
      fault: { kind: 'jumps', at: AT, quantity, share: 0.125 },
      kind: 'sensor-jumps',
      quantity,
      onset: 120,
    },
    {
      name: `${quantity}: three days are missing`,
      fault: { kind: 'missing', at: 55 * 1440 - 60, days: 3 },
      kind: 'record-gap',
      quantity,
      onset: 2,
    },
  ]),
  {
    name: 'air leaks in',
    fault: { kind: 'leak', at: AT, percentADay: 0.25 },
    kind: 'oxygen-high',
    quantity: 'oxygen',
    onset: 240,
  },
  {
    name: 'too little air is let in',
    fault: { kind: 'oxygen-set-low', at: AT, by: 0.4 },
    kind: 'oxygen-low',
    quantity: 'oxygen',
    onset: 240,
  },
  {
    name: 'the scrubber stands still',
    fault: { kind: 'scrubber-off', at: AT },
    kind: 'carbon-dioxide-high',
    quantity: 'carbon-dioxide',
    onset: 72,
  },
  {
    name: 'the scrubber does not stop',
    fault: { kind: 'scrubber-stays-on', at: AT },
    kind: 'carbon-dioxide-low',
    quantity: 'carbon-dioxide',
    onset: 24,
  },
  {
    name: 'the air warms',
    fault: { kind: 'air-off', at: AT, by: 1.2 },
    kind: 'temperature-high',
    quantity: 'temperature',
    onset: 48,
  },
  {
    name: 'the air cools',
    fault: { kind: 'air-off', at: AT, by: -1.2 },
    kind: 'temperature-low',
    quantity: 'temperature',
    onset: 48,
  },
  {
    name: 'the fruit breathes faster',
    fault: { kind: 'faster', at: AT, factor: 1.7 },
    kind: 'breathes-faster',
    quantity: 'carbon-dioxide',
    onset: 240,
    can: restsShow,
  },
];

describe('what is planted is found within the stated delay', () => {
  it.each(planted)('$name', ({ fault, kind, quantity, onset, can = () => true }) => {
    let [rooms, knownBefore, onsets] = [0, 0, 0];
    for (let seed = 1; rooms < PLANTED; seed++) {
      const simulated = simulate(seed, 75, fault);
      if (!can(simulated)) continue;
      rooms++;
      const begins = fault.kind === 'missing' ? fault.at + fault.days * 1440 : fault.at;
      const told = seen(simulated).filter(
        (one) => one.kind === kind && one.quantity === quantity && (one.until ?? begins) >= begins - 1440,
      );
      const first = told.find((one) => one.told >= begins);
      if (!first && told.length > 0) knownBefore++;
      else if (!first) throw new Error(`not found in room ${seed}`);
      else {
        expect(first.told - begins, `room ${seed}`).toBeLessThanOrEqual(watchDelays[kind].hours * 60);
        if (Math.abs(first.from - fault.at) <= onset * 60) onsets++;
      }
    }
    // An instrument that had begun to drift the same way has its onset told too early.
    expect(onsets).toBeGreaterThanOrEqual(0.95 * PLANTED - knownBefore);
    // What was going on already, rightly or not, cannot begin.
    expect(knownBefore).toBeLessThanOrEqual(1);
  });
});

describe('a state that is kept', () => {
  it('goes on to what the whole record comes to, wherever it is cut, also as JSON', () => {
    const faults: readonly (Fault | undefined)[] = [
      { kind: 'leak', at: AT, percentADay: 0.25 },
      { kind: 'stuck', at: AT, quantity: 'temperature', hours: 40 },
      { kind: 'missing', at: AT, days: 3 },
      undefined,
    ];
    for (const [index, fault] of faults.entries())
      for (const share of [0.01, 0.5, 0.74, 0.9]) {
        const { expected, readings } = simulate(index + 1, 75, fault);
        const whole = watchMore([expected], newRoomWatch('R1'), readings);
        const at = Math.floor(share * readings.times.length);
        const before = watchMore([expected], newRoomWatch('R1'), part(readings, 0, at));
        const given = JSON.stringify(before);
        const after = watchMore([expected], JSON.parse(given), part(readings, at));
        expect(after).toEqual(whole);
        expect(JSON.stringify(before)).toBe(given);
      }
  });
});

function part(readings: Simulated['readings'], from: number, to?: number): Simulated['readings'] {
  const { values } = readings;
  return {
    room: readings.room,
    times: readings.times.slice(from, to),
    values: {
      oxygen: values.oxygen.slice(from, to),
      'carbon-dioxide': values['carbon-dioxide'].slice(from, to),
      temperature: values.temperature.slice(from, to),
      humidity: values.humidity.slice(from, to),
    },
  };
}
