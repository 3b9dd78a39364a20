import { type FileRead, type ReadingRow, rowOf } from '../readings/file-of';
import type { Minute } from '../readings/types';
import { type Causes, causesOf } from './causes';
import type { RoomRecord } from './record';
import { sightingsOf } from './room-watch';
import { gapsTogether, type Seen } from './told';
import type { ExpectedFill } from './types';
import { type UnreadRoom, unreadRooms } from './unread';

/** Something seen in a room, with what is probably behind it, and the row of the file that shows it first. */
export interface SeenInRoom extends Seen {
  readonly room: string;
  readonly causes: Causes;
  readonly row: ReadingRow | undefined;
}

/** A file as it was read, with the rooms that it has readings of. */
export interface SeenFile extends Omit<FileRead, 'rooms'> {
  readonly roomsRead: readonly string[];
}

/** What the readings of a plan's rooms come to. */
export interface SeenReadings {
  readonly files: readonly SeenFile[];
  readonly sightings: readonly SeenInRoom[];
  /** Sealed rooms of which no file has a reading; see `unreadRooms`. */
  readonly unread: readonly UnreadRoom[];
}

/** `records` are what the rooms of `files` came to, held against `expected`. */
export function seenReadings(
  files: readonly FileRead[],
  expected: ReadonlyMap<string, readonly ExpectedFill[]>,
  records: ReadonlyMap<string, RoomRecord>,
): SeenReadings {
  const now = lastOf(records);
  return {
    files: files.map(({ rooms, ...file }) => ({ ...file, roomsRead: [...rooms.keys()] })),
    unread: unreadRooms(files, expected, records),
    sightings: [...records].flatMap(([room, { watch }]) => {
      const seen = gapsTogether(sightingsOf(watch, expected.get(room) ?? [], now));
      return seen.map((one) => ({
        ...one,
        room,
        causes: causesOf(one, seen),
        row: rowOfSeen(files, room, one),
      }));
    }),
  };
}

/** The last reading of all rooms: what is missing since is a gap. */
export function lastOf(records: ReadonlyMap<string, RoomRecord>): Minute {
  return Math.max(...[...records.values()].map(({ watch }) => watch.last ?? 0));
}

/** Of a gap the last row before it. */
function rowOfSeen(files: readonly FileRead[], room: string, { kind, quantity, from }: Seen) {
  return rowOf(files, room, quantity, from, kind === 'record-gap');
}
