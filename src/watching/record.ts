import { type RunningRoom, withMore } from '../readings/running';
import type { Minute, RoomReadings } from '../readings/types';
import { newRoomWatch, type RoomWatchState, watchMore } from './room-watch';
import type { ExpectedFill, Track } from './types';

/** What a room's readings have come to: plain data that a shell can keep and go on from. */
export interface RoomRecord {
  readonly running: RunningRoom;
  readonly watch: RoomWatchState;
  /** What its readings were held against, up to the last of them, as a number made of all of it. */
  readonly against: number;
}

/** The record with more readings, all of them later than those before. The one that was given is not changed. */
export function recordMore(
  fills: readonly ExpectedFill[],
  before: RoomRecord | undefined,
  readings: RoomReadings,
): RoomRecord {
  const { running, watch } = before ?? { running: {}, watch: newRoomWatch(readings.room) };
  const watched = watchMore(fills, watch, readings);
  return {
    running: withMore(running, readings),
    watch: watched,
    against: fingerprint(fills, watched.last ?? 0),
  };
}

/** Whether the readings go on from the record: they are later, and what it was held against still stands. */
export function goesOn(
  fills: readonly ExpectedFill[],
  { watch, against }: RoomRecord,
  readings: RoomReadings | undefined,
): boolean {
  const last = watch.last ?? Number.NEGATIVE_INFINITY;
  const first = readings?.times[0] ?? Number.POSITIVE_INFINITY;
  return first > last && against === fingerprint(fills, watch.last ?? 0);
}

/** Of what readings up to `last` are held against: days and levels that come later change nothing. */
function fingerprint(fills: readonly ExpectedFill[], last: Minute): number {
  const past = (time: Minute | undefined) => (time !== undefined && time <= last ? time : undefined);
  const known = fills
    .filter(({ begins }) => begins <= last)
    .map((fill) => ({
      ...fill,
      sealed: past(fill.sealed),
      holds: past(fill.holds),
      cold: past(fill.cold),
      opened: past(fill.opened),
      emptied: past(fill.emptied),
      oxygen: fill.oxygen && until(fill.oxygen, last),
      carbonDioxide: fill.carbonDioxide && until(fill.carbonDioxide, last),
      temperature: until(fill.temperature, last),
    }));
  return numberOf(JSON.stringify(known));
}

/** The points that levels up to `last` lie between. */
function until({ times, values }: Track, last: Minute): Track {
  const after = times.findIndex((time) => time >= last);
  const count = after === -1 ? times.length : after + 1;
  return { times: times.slice(0, count), values: values.slice(0, count) };
}

/** FNV-1a over the text, in 53 bits by two halves. */
function numberOf(text: string): number {
  let [one, two] = [0x811c9dc5, 0x1000193];
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    one = Math.imul(one ^ code, 0x01000193);
    two = Math.imul(two ^ code, 0x85ebca6b) ^ (two >>> 13);
  }
  return (two >>> 11) * 4294967296 + (one >>> 0);
}
