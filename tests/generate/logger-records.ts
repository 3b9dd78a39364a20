import { type Day, formatDay, parseDay } from '../../src/plan/dates';
import {
  normalFrom,
  ordinaryWeather,
  randomFrom,
  type Sensor,
  type Simulation,
  simulate,
} from '../learning/simulated-room';

/**
 * Some weeks in which a logger wrote down two of the sample season's rooms every hour, and their scrubbers rested for most
 * of a day at a time. Invented, by the simulator that the fits are tested on, which shares no code with the tool.
 */
interface LoggedRoom {
  readonly room: string;
  readonly first: Day;
  readonly days: number;
  readonly air: number;
  readonly seed: number;
  readonly truth: Simulation['truth'];
}

const day = (text: string): Day => parseDay(text) ?? Number.NaN;

/** What was put into the simulation: R2 breathes a fifth more than its variety does, R4 leaks more than it was tested for. */
export const LOGGED: readonly LoggedRoom[] = [
  {
    room: 'R2',
    first: day('2026-10-05'),
    days: 35,
    air: 0.8,
    seed: 2027,
    truth: {
      gasVolumeM3: 271,
      referenceRate: 0.0164,
      halfAt: 2,
      share: 1.2,
      quotient: 1.08,
      exchange: 2.4e-4,
      oxygen: 1.5,
      carbonDioxide: 1.8,
    },
  },
  {
    room: 'R4',
    first: day('2026-11-09'),
    days: 35,
    air: 1.0,
    seed: 2028,
    truth: {
      gasVolumeM3: 337,
      referenceRate: 0.0154,
      halfAt: 2,
      share: 0.95,
      quotient: 1.08,
      exchange: 3.2e-4,
      oxygen: 1.8,
      carbonDioxide: 0.8,
    },
  },
];

const SENSOR: Sensor = { noise: 0.015, resolution: 0.01, scale: 1, driftAMonth: 0.03, spikes: 0.0005 };

/** Whether the logger had the room on a day: then nobody wrote it down by hand. */
export function isLogged(room: string, on: Day): boolean {
  return LOGGED.some((one) => one.room === room && one.first <= on && on < one.first + one.days);
}

/** Hour, room, oxygen, carbon dioxide and air of the days up to one, earliest first. */
export function loggerRows(until: Day): string[] {
  const rows = LOGGED.flatMap((logged) => rowsOf(logged));
  return rows
    .filter((row) => row.day <= until)
    .sort((a, b) => (a.cells < b.cells ? -1 : 1))
    .map(({ cells }) => cells);
}

function rowsOf({ room, first, days, air, seed, truth }: LoggedRoom) {
  const random = randomFrom(seed);
  const normal = normalFrom(random);
  const { times, oxygen, carbonDioxide } = simulate(
    {
      truth,
      days,
      everyMinutes: 60,
      scrubbing: 'by level',
      sensors: { oxygen: SENSOR, carbonDioxide: SENSOR },
      gaps: 0,
      weather: ordinaryWeather,
    },
    random,
    1440 * first,
  );
  return [...times].map((time, row) => {
    const on = Math.floor(time / 1440);
    const hour = String(Math.floor((time % 1440) / 60)).padStart(2, '0');
    const read = [oxygen[row] ?? 0, Math.max(0, carbonDioxide[row] ?? 0)].map((value) => value.toFixed(2));
    return {
      day: on,
      cells: [`${formatDay(on)} ${hour}:00`, room, ...read, (air + 0.12 * normal()).toFixed(1)].join(','),
    };
  });
}
