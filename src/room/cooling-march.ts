import type { Day } from '../plan/dates';
import { roomCelsius } from './course/fruit-temperature';
import type { RoomTemperature } from './course/types';

/** Hours after the last bin past which fruit that is still warm is given up on. */
const MOST_HOURS = 24 * 60;
/** One hour is short against any half-time, and the step itself is exact. */
const STEP_HOURS = 1;

/** What a room's cooling is counted from, in plain numbers; hours from the start of the first bin's day. */
export interface MarchRoom {
  readonly firstDay: Day;
  /** Bins of each day, at the start of the day. */
  readonly loads: readonly number[];
  readonly fruitKgInBin: number;
  /** Heat of a full bin for each kelvin, kJ. */
  readonly heatOfBin: number;
  readonly fieldCelsius: number;
  readonly roomTemperature: RoomTemperature;
  readonly halfTimeHours: number;
  readonly lag: number;
  /** Heat of respiration in air at a temperature. */
  readonly wattsPerKg: (celsius: number) => number;
  /** Heat through the fabric, of air changes and fans, while loading and after. */
  readonly loadingKw: number;
  readonly holdingKw: number;
  readonly capacityKw: (day: Day) => number;
}

export interface MarchedBatch {
  readonly day: Day;
  readonly bins: number;
  readonly loadedAtHours: number;
  /** When it has lost seven eighths of its difference to the room's first temperature. */
  readonly sevenEighthsAtHours: number | undefined;
  readonly ends: readonly { readonly day: Day; readonly celsius: number }[];
}

/** Heat of a day, mean kW: what the fruit would give up by the law with all else, and what the cooler took. */
export interface MarchedDay {
  readonly day: Day;
  readonly wantedKw: number;
  readonly takenKw: number;
}

interface Batch {
  readonly day: Day;
  readonly bins: number;
  readonly loadedAtHours: number;
  celsius: number;
  sevenEighthsAtHours: number | undefined;
  readonly ends: { readonly day: Day; readonly celsius: number }[];
}

/** All batches, hour by hour, until the last one is seven-eighths cool and its day is over. */
export function march(room: MarchRoom): {
  readonly batches: readonly MarchedBatch[];
  readonly days: readonly MarchedDay[];
  readonly shortHours: number;
} {
  const waiting = room.loads.map(
    (bins, index): Batch => ({
      day: room.firstDay + index,
      bins,
      loadedAtHours: 24 * index,
      celsius: room.fieldCelsius,
      sevenEighthsAtHours: undefined,
      ends: [],
    }),
  );
  const days: { day: Day; wantedKw: number; takenKw: number }[] = [];
  const until = 24 * room.loads.length + MOST_HOURS;
  let shortHours = 0;
  for (let hours = 0; hours < until; hours += STEP_HOURS) {
    const here = waiting.filter(({ loadedAtHours }) => loadedAtHours <= hours);
    const { wantedKw, takenKw, short } = step(room, here, hours);
    shortHours += short ? STEP_HOURS : 0;
    const day = days[Math.floor(hours / 24)] ?? { day: room.firstDay + days.length, wantedKw: 0, takenKw: 0 };
    if (hours % 24 === 0) days.push(day);
    day.wantedKw += (wantedKw * STEP_HOURS) / 24;
    day.takenKw += (takenKw * STEP_HOURS) / 24;
    if ((hours + STEP_HOURS) % 24 !== 0) continue;
    for (const { ends, celsius } of here) ends.push({ day: day.day, celsius });
    if (waiting.every(({ sevenEighthsAtHours }) => sevenEighthsAtHours !== undefined)) break;
  }
  return { batches: waiting, days, shortHours };
}

/**
 * One hour. Each batch goes its way by the law; where all heat is more than the cooler takes, all of them go the same
 * part of their way, and they warm where the cooler does not even take what comes in beside them.
 */
function step(room: MarchRoom, batches: readonly Batch[], hours: number) {
  const day = room.firstDay + Math.floor(hours / 24);
  const target = roomCelsius(room.roomTemperature, hours + STEP_HOURS / 2);
  const rate = Math.LN2 / room.halfTimeHours;
  const wait = Math.log(Math.max(room.lag, 1)) / rate;
  const drops = batches.map(({ celsius, loadedAtHours }) => {
    const cooling = Math.min(STEP_HOURS, Math.max(0, hours + STEP_HOURS - loadedAtHours - wait));
    return (celsius - target) * (1 - Math.exp(-rate * cooling));
  });
  let [sensibleKw, respirationKw] = [0, 0];
  batches.forEach(({ bins, celsius }, index) => {
    sensibleKw += (bins * room.heatOfBin * (drops[index] ?? 0)) / (STEP_HOURS * 3600);
    respirationKw += (bins * room.fruitKgInBin * room.wattsPerKg(celsius - (drops[index] ?? 0) / 2)) / 1000;
  });
  const otherKw = (hours < 24 * room.loads.length ? room.loadingKw : room.holdingKw) + respirationKw;
  const wantedKw = sensibleKw + otherKw;
  const most = room.capacityKw(day);
  const short = wantedKw > most * (1 + 1e-9);
  const leftKw = most - otherKw;
  const part = short ? Math.max(0, leftKw) / sensibleKw : 1;
  const heatOfAll = batches.reduce((sum, { bins }) => sum + bins * room.heatOfBin, 0);
  const warming = short && leftKw < 0 ? (-leftKw * STEP_HOURS * 3600) / heatOfAll : 0;
  batches.forEach((batch, index) => {
    const before = batch.celsius;
    const cooled = before - (warming > 0 ? 0 : part * (drops[index] ?? 0));
    batch.celsius = warming > 0 ? Math.min(Math.max(before, room.fieldCelsius), cooled + warming) : cooled;
    noteSevenEighths(room, batch, before, hours);
  });
  return { wantedKw: Math.max(0, wantedKw), takenKw: Math.max(0, Math.min(wantedKw, most)), short };
}

/** Between two hours the difference falls exponentially, so that the time is exact where the law alone decides. */
function noteSevenEighths(room: MarchRoom, batch: Batch, before: number, hours: number): void {
  if (batch.sevenEighthsAtHours !== undefined) return;
  const target = room.roomTemperature.knots[0]?.celsius ?? 0;
  const eighth = (room.fieldCelsius - target) / 8;
  const [from, to] = [before - target, batch.celsius - target];
  if (to > eighth + 1e-12) return;
  const share = from > eighth && to > 0 ? Math.log(from / eighth) / Math.log(from / to) : 0;
  batch.sevenEighthsAtHours = Math.max(batch.loadedAtHours, hours + share * STEP_HOURS);
}
