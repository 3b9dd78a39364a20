/**
 * A sealed room as it might be, and sensors as they are: for testing what is learned from readings. It shares no code
 * with what it tests: balances of its own in small steps, controllers that switch, weather that comes and goes,
 * sensors with noise, drift between calibrations, an error of scale, coarse steps, spikes and gaps.
 */

/** Uniform numbers from 0 to 1: mulberry32. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** Standard normal numbers from uniform ones, by Box and Muller. */
export function normalFrom(random: () => number): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

export interface Truth {
  readonly gasVolumeM3: number;
  /** Carbon dioxide that the reference would have the fruit make at the set-point, per cent of the gas an hour. */
  readonly referenceRate: number;
  /** Oxygen at half the greatest respiration, per cent. */
  readonly halfAt: number;
  readonly share: number;
  readonly quotient: number;
  /** Mean exchange of air, volumes an hour. */
  readonly exchange: number;
  readonly oxygen: number;
  readonly carbonDioxide: number;
}

export interface Sensor {
  readonly noise: number;
  readonly resolution: number;
  readonly scale: number;
  /** Points a month, anew after each monthly calibration. */
  readonly driftAMonth: number;
  readonly spikes: number;
}

export interface Simulation {
  readonly truth: Truth;
  readonly days: number;
  readonly everyMinutes: number;
  readonly scrubbing: 'by level' | 'by night';
  readonly sensors: { readonly oxygen: Sensor; readonly carbonDioxide: Sensor };
  readonly gaps: number;
  readonly weather: Weather;
}

/** What makes the leak other than its mean from hour to hour, and how closely oxygen is held. */
export interface Weather {
  /** Hours after which a gust has fallen to a share of 1 / e, and how far gusts move the leak, as a share of it. */
  readonly gustHours: number;
  readonly gusts: number;
  /** How far it swings with the hour of the day, as a share of it. */
  readonly dailySwing: number;
  /** Oxygen that a valve lets it fall below the set-point before it lets in air, and raises it above that, points. */
  readonly valve: number;
}

export const ordinaryWeather: Weather = { gustHours: 12, gusts: 0.3, dailySwing: 0.1, valve: 0.15 };

/** Gusts last three times as long, days and nights differ three times as much, valves hold oxygen more closely. */
export const roughWeather: Weather = { gustHours: 36, gusts: 0.3, dailySwing: 0.3, valve: 0.1 };

export interface SimulatedReadings {
  readonly times: Float64Array;
  readonly oxygen: Float32Array;
  readonly carbonDioxide: Float32Array;
  /** Whether anything scrubbed, fed or let air in between a reading and the next: what no sensor tells. */
  readonly busy: Uint8Array;
  /** What there was, per cent. */
  readonly exact: { readonly oxygen: Float64Array; readonly carbonDioxide: Float64Array };
}

/** A room and its sensors drawn by chance, within what rooms and sensors are like. */
export function drawnSimulation(random: () => number, weather: Weather): Simulation {
  const normal = normalFrom(random);
  const between = (low: number, high: number) => low + (high - low) * random();
  const sensor = (): Sensor => ({
    noise: between(0.01, 0.035),
    resolution: [0.01, 0.01, 0.05, 0.1][Math.floor(4 * random() ** 1.5)] ?? 0.01,
    scale: 1 + 0.01 * normal(),
    driftAMonth: 0.05,
    spikes: between(0, 0.01),
  });
  const gasVolumeM3 = between(200, 3000);
  return {
    truth: {
      gasVolumeM3,
      referenceRate: between(0.011, 0.02),
      halfAt: between(1, 4),
      share: Math.exp(0.25 * normal()),
      quotient: between(1.03, 1.15),
      exchange: 3e-4 * Math.exp(0.6 * normal()),
      oxygen: between(1, 2.5),
      carbonDioxide: between(1, 3),
    },
    days: Math.round(between(40, 220)),
    everyMinutes: random() < 0.3 ? 30 : 60,
    scrubbing: random() < 0.5 ? 'by level' : 'by night',
    sensors: { oxygen: sensor(), carbonDioxide: sensor() },
    gaps: Math.round(between(2, 10)),
    weather,
  };
}

const STEP_MINUTES = 3;

/** The readings of a room that has been brought to its gas, from a minute on. */
export function simulate(simulation: Simulation, random: () => number, startsAt: number): SimulatedReadings {
  const { days, everyMinutes, sensors } = simulation;
  const count = Math.floor((days * 1440) / everyMinutes);
  const exact = gasCourse(simulation, random, count);
  const keep = keptRows(simulation, random, count);
  const oxygen = readBy(sensors.oxygen, exact.oxygen, simulation, random);
  const carbonDioxide = readBy(sensors.carbonDioxide, exact.carbonDioxide, simulation, random);
  return {
    times: Float64Array.from(keep, (row) => startsAt + row * everyMinutes),
    oxygen: Float32Array.from(keep, (row) => oxygen[row] ?? Number.NaN),
    carbonDioxide: Float32Array.from(keep, (row) => carbonDioxide[row] ?? Number.NaN),
    exact: {
      oxygen: Float64Array.from(keep, (row) => exact.oxygen[row] ?? Number.NaN),
      carbonDioxide: Float64Array.from(keep, (row) => exact.carbonDioxide[row] ?? Number.NaN),
    },
    busy: Uint8Array.from(keep, (row, index) =>
      exact.busy.slice(row, keep[index + 1]).reduce((a, b) => a | b, 0),
    ),
  };
}

function gasCourse(simulation: Simulation, random: () => number, count: number) {
  const { truth, everyMinutes, scrubbing } = simulation;
  const { gustHours, gusts, dailySwing, valve } = simulation.weather;
  const lasts = Math.exp(-1 / gustHours);
  const normal = normalFrom(random);
  const oxygen = new Float64Array(count);
  const carbonDioxide = new Float64Array(count);
  const busy = new Uint8Array(count);
  const step = STEP_MINUTES / 60;
  const phase = random();
  let [o, c, weather, letsIn, feeds, scrubs, minute] = [
    truth.oxygen,
    truth.carbonDioxide - 0.2,
    0,
    false,
    false,
    false,
    0,
  ];
  for (let row = 0; row < count; row++) {
    oxygen[row] = o;
    carbonDioxide[row] = c;
    for (let inside = 0; inside < everyMinutes; inside += STEP_MINUTES, minute += STEP_MINUTES) {
      if (minute % 60 === 0) weather = lasts * weather + Math.sqrt(1 - lasts ** 2) * normal();
      const hour = (minute / 60) % 24;
      const exchange =
        truth.exchange *
        Math.max(0, 1 + gusts * weather) *
        (1 + dailySwing * Math.sin((hour / 24 + phase) * 2 * Math.PI));
      const hungry = ((o / (truth.halfAt + o)) * (truth.halfAt + truth.oxygen)) / truth.oxygen;
      const made = truth.share * truth.referenceRate * hungry;
      const used = made / truth.quotient;
      if (scrubbing === 'by level')
        scrubs = scrubs ? c > truth.carbonDioxide - 0.2 : c > truth.carbonDioxide + 0.2;
      else
        scrubs = hour >= 22 && (c > truth.carbonDioxide - 0.2 || (scrubs && c > truth.carbonDioxide - 0.25));
      letsIn = letsIn ? o < truth.oxygen + valve : o < truth.oxygen - valve;
      feeds = feeds ? o > truth.oxygen - 0.05 : o > truth.oxygen + 2 * valve;
      busy[row] = (busy[row] ?? 0) | (scrubs ? 1 : 0) | (letsIn ? 2 : 0) | (feeds ? 4 : 0);
      const scrubbed = scrubs ? 0.16 * (c / truth.carbonDioxide) : 0;
      const blown = letsIn ? 0.01 : 0;
      const fed = feeds ? 0.05 : 0;
      // Volumes an hour: what comes in beside what the fruit turns over, and goes out again with the room's gas.
      const turned = (made - used - scrubbed) / 100;
      const air = Math.max(0, exchange - turned / 2) + blown;
      const out = air + fed + turned;
      c += step * (made - scrubbed + air * 0.04 - out * c);
      o += step * (-used + air * 20.95 + fed * 0.5 - out * o);
    }
  }
  return { oxygen, carbonDioxide, busy };
}

/** What a sensor shows of what there is. */
function readBy(
  sensor: Sensor,
  exact: Float64Array,
  { everyMinutes }: Simulation,
  random: () => number,
): Float32Array {
  const normal = normalFrom(random);
  const rowsAMonth = (30 * 1440) / everyMinutes;
  const sinceCalibration = Math.floor(rowsAMonth * random());
  let [zero, slope, spike] = [0, sensor.driftAMonth * normal(), 0];
  return Float32Array.from(exact, (value, row) => {
    if ((row + sinceCalibration) % Math.floor(rowsAMonth) === 0)
      [zero, slope] = [0, sensor.driftAMonth * normal()];
    zero += slope / rowsAMonth + (0.02 / Math.sqrt(rowsAMonth)) * normal();
    if (spike > 0) spike--;
    else if (random() < sensor.spikes) spike = random() < 0.2 ? 2 : 1;
    const shown = value * sensor.scale + zero + sensor.noise * normal() + (spike > 0 ? 4 * random() - 1 : 0);
    return Math.round(shown / sensor.resolution) * sensor.resolution;
  });
}

/** Rows that the record has: without some gaps of hours to days, and one here and there. */
function keptRows({ gaps, everyMinutes }: Simulation, random: () => number, count: number): number[] {
  const missing = new Uint8Array(count);
  for (let gap = 0; gap < gaps; gap++) {
    const from = Math.floor(count * random());
    const rows = (60 / everyMinutes) * (6 + 66 * random());
    missing.fill(1, from, Math.min(count, Math.floor(from + rows)));
  }
  return Array.from({ length: count }, (_, row) => row).filter(
    (row) => missing[row] === 0 && random() > 0.01,
  );
}
