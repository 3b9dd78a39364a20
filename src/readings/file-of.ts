import type { ReadingsLayout } from '../plan/table-model';
import type { FileReadings, Minute, ReadQuantity, RoomReadings } from './types';

/** A file of readings that the plan names, as it was read. */
export interface FileRead extends Pick<FileReadings, 'rooms' | 'notTaken' | 'faults'> {
  /** Identifier of its layout in the plan. */
  readonly readings: string;
  /** Its path, beside those of the plan's files. */
  readonly file: string;
  /** It could not be read, and nothing is known of it. */
  readonly isMissing: boolean;
}

/** A row of such a file. */
export interface ReadingRow {
  readonly readings: string;
  readonly file: string;
  /** Counted from 1. */
  readonly line: number;
  readonly time: Minute;
}

/** The path of a layout's file: from the folder of the plan file that names it. Undefined where it names none. */
export function fileOfReadings({ file }: ReadingsLayout): string | undefined {
  if (!file) return undefined;
  const folder = file.at.file.slice(0, file.at.file.lastIndexOf('/') + 1);
  const steps: string[] = [];
  for (const step of `${folder}${file.value}`.split('/')) {
    if (step === '.' || (step === '' && steps.length > 0)) continue;
    if (step === '..' && steps.length > 0 && steps.at(-1) !== '..' && steps.at(-1) !== '') steps.pop();
    else steps.push(step);
  }
  return steps.join('/');
}

/**
 * The first row of a room with a reading of the quantity at `from` or after it; `before` the last one before it. Of
 * several files that have the time, the last one's counts.
 */
export function rowOf(
  files: readonly FileRead[],
  room: string,
  quantity: ReadQuantity,
  from: Minute,
  before = false,
): ReadingRow | undefined {
  let found: ReadingRow | undefined;
  for (const { rooms, readings, file } of files) {
    const read = rooms.get(room);
    const index = read ? indexOf(read, quantity, from, before) : -1;
    const [time, line] = [read?.times[index], read?.lines?.[index]];
    if (time === undefined || !line) continue;
    const isNearer = !found || (before ? time >= found.time : time <= found.time);
    if (isNearer) found = { readings, file, line, time };
  }
  return found;
}

/** -1, or beyond the last, where there is none. */
function indexOf(
  { times, values }: RoomReadings,
  quantity: ReadQuantity,
  from: Minute,
  before: boolean,
): number {
  let [low, high] = [0, times.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((times[middle] ?? 0) < from) low = middle + 1;
    else high = middle;
  }
  const step = before ? -1 : 1;
  let index = before ? low - 1 : low;
  while (Number.isNaN(values[quantity][index] ?? 0)) index += step;
  return index;
}
