import type { RoomRecord } from './record';
import type { ExpectedFill } from './types';

/** A sealed room of which nothing has been read since it was sealed. Plain data. */
export interface UnreadRoom {
  readonly room: string;
  readonly fill: string;
}

const MINUTES_A_DAY = 1440;

/**
 * Without `files` none; with them rooms sealed a whole day before the last reading of all, and not opened by then, with no reading since they were
 * sealed. Where nothing at all was read, of any room, it is every room with a day of sealing: no reading says then how far
 * the season has come, so that whoever tells it looks at what is on record.
 */
export function unreadRooms(
  files: readonly object[],
  expected: ReadonlyMap<string, readonly ExpectedFill[]>,
  records: ReadonlyMap<string, RoomRecord>,
): UnreadRoom[] {
  if (files.length === 0) return [];
  const isRead = [...records.values()].some(({ watch }) => watch.last !== null);
  const now = Math.max(...[...records.values()].map(({ watch }) => watch.last ?? Number.NEGATIVE_INFINITY));
  return [...expected].flatMap(([room, fills]) => {
    const last = records.get(room)?.watch.last ?? Number.NEGATIVE_INFINITY;
    return fills
      .filter((fill) => isClosed(fill, isRead ? now : Number.POSITIVE_INFINITY))
      .filter(({ sealed = 0 }) => last < sealed)
      .slice(-1)
      .map(({ fill }) => ({ room, fill }));
  });
}

/** Sealed a whole day before `now`, and not on record as opened or empty. */
function isClosed({ sealed, opened, emptied }: ExpectedFill, now: number): boolean {
  return (
    sealed !== undefined && sealed + MINUTES_A_DAY <= now && opened === undefined && emptied === undefined
  );
}
