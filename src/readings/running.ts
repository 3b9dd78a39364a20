import { type DayOfReadings, type Minute, quantities, type ReadQuantity, type RoomReadings } from './types';

/** What has been read of one quantity so far; plain data, which a shell can keep and go on from. */
export interface RunningQuantity {
  readonly first: Minute;
  readonly last: Minute;
  /** The value at `last`. */
  readonly latest: number;
  /** The longest time between two readings, in minutes, and where it begins. */
  readonly gap: number;
  readonly gapFrom: Minute;
  /** Day by day, days without a reading left out. */
  readonly days: readonly DayOfReadings[];
}

/** By quantity, what has been read of a room so far. */
export type RunningRoom = Readonly<Partial<Record<ReadQuantity, RunningQuantity>>>;

const MINUTES_A_DAY = 1440;

/** The same with more readings, all of them later than those before. */
export function withMore(before: RunningRoom, more: RoomReadings): RunningRoom {
  const all = quantities.flatMap((quantity) => {
    const running = quantityWithMore(before[quantity], more.times, more.values[quantity]);
    return running ? [[quantity, running] as const] : [];
  });
  return Object.fromEntries(all);
}

function quantityWithMore(
  before: RunningQuantity | undefined,
  times: Float64Array,
  values: Float32Array,
): RunningQuantity | undefined {
  let { first, last, latest, gap, gapFrom } = before ?? {
    first: Number.NaN,
    last: Number.NaN,
    latest: Number.NaN,
    gap: 0,
    gapFrom: 0,
  };
  const days = [...(before?.days ?? [])];
  let open = days.pop();
  let [day, count, sum] = open ? [open.day, open.count, open.mean * open.count] : [Number.NaN, 0, 0];
  let [lowest, highest] = [open?.lowest ?? 0, open?.highest ?? 0];
  for (let index = 0; index < times.length; index++) {
    const value = values[index] ?? Number.NaN;
    if (Number.isNaN(value)) continue;
    const time = times[index] ?? 0;
    const on = Math.floor(time / MINUTES_A_DAY);
    if (on !== day) {
      if (count > 0) days.push({ day, count, mean: sum / count, lowest, highest });
      [day, count, sum, lowest, highest] = [on, 0, 0, value, value];
    }
    count++;
    sum += value;
    if (value < lowest) lowest = value;
    if (value > highest) highest = value;
    if (Number.isNaN(first)) first = time;
    else if (time - last > gap) [gap, gapFrom] = [time - last, last];
    [last, latest] = [time, value];
  }
  if (count === 0) return before;
  open = { day, count, mean: sum / count, lowest, highest };
  return { first, last, latest, gap, gapFrom, days: [...days, open] };
}
