import { RoomColumn } from './room-column';
import { quantities, type ReadQuantity, type RoomReadings } from './types';

type Parts = readonly [RoomReadings, ...RoomReadings[]];

/** The readings of one room out of several files, as one; of one time that two files have, the later file's. */
export function combined(parts: Parts): RoomReadings {
  const [only, second] = parts;
  if (!second) return only;
  const column = new RoomColumn(only.room);
  for (const { times, values, lines } of parts)
    times.forEach((time, index) => {
      const read = quantities.flatMap((quantity) => {
        const value = values[quantity][index] ?? Number.NaN;
        return Number.isNaN(value) ? [] : [[quantity, value] as const];
      });
      column.push(time, Object.fromEntries(read), lines?.[index]);
    });
  return column.sorted().readings;
}

/** The same of parts of one file: where each is later than the one before, they are put together as they are. */
export function appended(parts: Parts): RoomReadings {
  const [only, ...more] = parts.filter(({ times }) => times.length > 0);
  if (!only || more.length === 0) return only ?? parts[0];
  const isInOrder = more.every(({ times }, index) => {
    const before = [only, ...more][index]?.times.at(-1) ?? Number.POSITIVE_INFINITY;
    return (times[0] ?? 0) > before;
  });
  if (!isInOrder) return combined([only, ...more]);
  const count = parts.reduce((sum, { times }) => sum + times.length, 0);
  const joined = <T extends Float64Array | Float32Array | Uint32Array>(
    into: T,
    of: (part: RoomReadings) => T,
  ): T => {
    let at = 0;
    for (const part of parts) {
      into.set(of(part), at);
      at += part.times.length;
    }
    return into;
  };
  const values = (quantity: ReadQuantity) => joined(new Float32Array(count), (part) => part.values[quantity]);
  return {
    room: only.room,
    times: joined(new Float64Array(count), ({ times }) => times),
    lines: joined(new Uint32Array(count), ({ lines, times }) => lines ?? new Uint32Array(times.length)),
    values: {
      oxygen: values('oxygen'),
      'carbon-dioxide': values('carbon-dioxide'),
      temperature: values('temperature'),
      humidity: values('humidity'),
    },
  };
}

/** By room, what all files have of it. */
export function byRoom(files: readonly ReadonlyMap<string, RoomReadings>[]): Map<string, RoomReadings> {
  const rooms = new Set(files.flatMap((file) => [...file.keys()]));
  return new Map(
    [...rooms].flatMap((room) => {
      const [first, ...more] = files.flatMap((file) => file.get(room) ?? []);
      return first ? [[room, combined([first, ...more])] as const] : [];
    }),
  );
}
