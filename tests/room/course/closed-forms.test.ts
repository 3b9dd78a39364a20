import { describe, expect, it } from 'vitest';
import { batchTemperature } from '../../../src/room/course/fruit-temperature';
import { CARBON_DIOXIDE_KG, molesPerCubicMetre } from '../../../src/room/course/state';
import { aCourseRoom, eventAt, feedOf, integrate, scrubbing } from './rooms';

/** Where a course has a closed form, the integration must come to it: to 0.1 %, and mostly far closer. */
const WITHIN = 0.001;

function close(actual: number, expected: number, within = WITHIN): void {
  expect(Math.abs(actual - expected) / Math.abs(expected), `${actual}, not ${expected}`).toBeLessThan(within);
}

const tight = { leakM3h: 0, weatherM3h: 0 };
const perPercent = (gasVolumeM3: number) => 0.01 * gasVolumeM3 * molesPerCubicMetre(1) * CARBON_DIOXIDE_KG;

describe('a flush without fruit', () => {
  // Purging by dilution, perfect mixing: volumes = ln((C0 - Cp) / (Ct - Cp)).
  it.each([
    [0, 5, 1.43],
    [0.5, 3, 2.099],
    [1, 2, 2.991],
    [2, 2.5, 3.632],
  ])('with %s per cent oxygen in the nitrogen, to %s per cent, takes %s volumes', (inGas, to, printed) => {
    const room = aCourseRoom({ ...tight, kg: 0, untilHours: 60, feed: feedOf(inGas, 80, to) });
    const hours = eventAt(integrate(room), 'feed-stops');
    const volumes = Math.log((20.9 - inGas) / (to - inGas));
    close(hours, (800 * volumes) / 80, 1e-6);
    expect((hours * 80) / 800).toBeCloseTo(printed, 3);
  });

  it('falls along the exponential all the way', () => {
    const { points } = integrate(aCourseRoom({ ...tight, kg: 0, untilHours: 20, feed: feedOf(1, 80, 1.2) }));
    for (const { hours, oxygen } of points) close(oxygen, 1 + 19.9 * Math.exp((-80 * hours) / 800), 1e-5);
  });

  it('changes its purity where the level says', () => {
    const steps = [
      { oxygenInGas: 3, flowM3h: 150, untilOxygen: 6 },
      { oxygenInGas: 1, flowM3h: 80, untilOxygen: 2 },
    ];
    const course = integrate(
      aCourseRoom({ ...tight, kg: 0, untilHours: 60, feed: { startsAtHours: 5, steps } }),
    );
    const first = (800 / 150) * Math.log(17.9 / 3);
    close(eventAt(course, 'feed-starts'), 5, 1e-9);
    close(eventAt(course, 'purity-raised'), 5 + first, 1e-6);
    close(eventAt(course, 'feed-stops'), 5 + first + (800 / 80) * Math.log(5 / 1), 1e-6);
  });
});

describe('a pull-down by the fruit alone', () => {
  it('goes straight down where respiration does not heed oxygen', () => {
    const room = aCourseRoom({ ...tight, quotient: 1, law: { kind: 'air' }, untilHours: 900 });
    const course = integrate(room);
    // dO2/dt = -100 m r / (RQ 1e6 rho) / Vg, per cent an hour; 1.9563 mg/mL at 1 °C.
    const fall = (100 * 250_000 * 3) / 1e6 / 1.9563 / 800;
    close(eventAt(course, 'set-point-reached'), (20.9 - 1.5) / fall, 1e-4);
    for (const { hours, oxygen } of course.points.filter((one) => one.hours < 300)) {
      close(oxygen, 20.9 - fall * hours, 1e-4);
    }
  });

  it('takes the time of Michaelis and Menten where it does', () => {
    const room = aCourseRoom({ ...tight, quotient: 1, law: { kind: 'curve' }, untilHours: 2000 });
    const fall = (100 * 250_000 * 3) / 1e6 / 1.9563 / 800;
    // With RQ 1 the gas keeps its volume, so k t = Km ln(C0 / C) + C0 - C, k the rate at unlimited oxygen.
    const atMost = (fall * (5 + 20.9)) / 20.9;
    close(
      eventAt(integrate(room), 'set-point-reached'),
      (5 * Math.log(20.9 / 1.5) + 20.9 - 1.5) / atMost,
      1e-4,
    );
  });
});

describe('a scrubber that removes in proportion to the level', () => {
  const removal = 20;
  const room = aCourseRoom({
    quotient: 1,
    share: 0.35,
    law: { kind: 'share' },
    scrubbing: scrubbing(removal),
    stages: [{ fromHours: 0, oxygen: 2 }],
    untilHours: 24 * 150,
    ...tight,
  });
  const course = integrate(room);
  const madeADay = (250_000 * 3 * 0.35 * 24) / 1e6;

  it('comes to the level where removal and production balance', () => {
    // As much as is made is scrubbed, save what goes out with the gas that makes way for air, which is what the
    // oxygen the fruit uses comes back with.
    const end = course.points.at(-1);
    const before = course.points.at(-2);
    const days = ((end?.hours ?? 0) - (before?.hours ?? 0)) / 24;
    close(
      ((end?.scrubbedKg ?? 0) - (before?.scrubbedKg ?? 0)) / days,
      removal * (end?.carbonDioxide ?? 0),
      1e-5,
    );
    // Air let in: use / (0.209 - 0.02) less what is drawn in for the gas that is scrubbed.
    const used = madeADay / 44.0095e-3;
    const drawn = (scrubbed: number) => scrubbed / 44.0095e-3;
    const letIn = (scrubbed: number) => (used - 0.209 * drawn(scrubbed)) / (0.209 - 0.02);
    // Balance: made + 0.0004 air = scrubbed + level * gas let out, solved by halving.
    let [low, high] = [0, 10];
    while (high - low > 1e-12) {
      const level = (low + high) / 2;
      const air = letIn(removal * level) + drawn(removal * level);
      const left = used + 0.0004 * air - drawn(removal * level) - (level / 100) * letIn(removal * level);
      if (left > 0) low = level;
      else high = level;
    }
    close(end?.carbonDioxide ?? 0, low, 1e-4);
    // Pocket calculator: production over removal is at most a few per cent above it.
    expect(madeADay / removal / (end?.carbonDioxide ?? 1)).toBeCloseTo(1, 1);
  });

  it('rises to it along the exponential while the room is shut tight and the fruit has oxygen', () => {
    // Before the set-point no air is let in; the room draws in as much air as the scrubber takes gas out, and that
    // air carries 0.04 %: dC/dt = (made - removal (1 - 0.0004) C) / (kg for each per cent).
    const early = course.points.filter(({ hours }) => hours > 0 && hours < 200);
    const rate = (removal * (1 - 0.0004)) / 24 / perPercent(800);
    for (const { hours, carbonDioxide } of early) {
      const settles = madeADay / 24 / perPercent(800) / rate;
      close(carbonDioxide, settles + (0.04 - settles) * Math.exp(-rate * hours), 2e-4);
    }
  });
});

describe('cooling', () => {
  it('halves the difference in each half-time', () => {
    // Half-time of 8 h from 20 °C to a room at 0 °C: 2.5 °C at 24 h, 2 °C at 26.575 h.
    const at = batchTemperature(0, 20, { knots: [{ hours: -1, celsius: 0 }] }, 8);
    close(at(24), 2.5, 1e-12);
    close(at(26.575), 2, 1e-4);
  });

  it('waits for its lag: seven-eighths cool after ln(8 j) / C', () => {
    const at = batchTemperature(0, 20, { knots: [{ hours: -1, celsius: 0 }] }, 8, 1.3);
    close(at((Math.log(8 * 1.3) / Math.LN2) * 8), 2.5, 1e-12);
    expect(at(1)).toBe(20);
  });

  it('follows a room that is brought down by a degree a day a half-time behind', () => {
    const knots = [
      { hours: 0, celsius: 10 },
      { hours: 240, celsius: 0 },
    ];
    const at = batchTemperature(-1000, 20, { knots }, 12);
    // After the first days the lag behind a ramp is slope / C.
    close(at(200) - (10 - 200 / 24), 12 / Math.LN2 / 24, 1e-4);
    close(at(240 + 12), (at(240) - 0) / 2, 1e-9);
  });
});
