import { RoomColumn } from './room-column';
import { quantities, type RoomReadings } from './types';

/** The readings of one room out of several files, as one; of one time that two files have, the later file's. */
export function combined(parts: readonly [RoomReadings, ...RoomReadings[]]): RoomReadings {
  const [only, second] = parts;
  if (!second) return only;
  const column = new RoomColumn(only.room);
  for (const { times, values } of parts)
    times.forEach((time, index) => {
      const read = quantities.flatMap((quantity) => {
        const value = values[quantity][index] ?? Number.NaN;
        return Number.isNaN(value) ? [] : [[quantity, value] as const];
      });
      column.push(time, Object.fromEntries(read));
    });
  return column.sorted().readings;
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
