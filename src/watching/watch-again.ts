import type { Steps } from '../plan/steps';
import { byRoom } from '../readings/combine';
import type { FileRead } from '../readings/file-of';
import { quantities, type RoomReadings } from '../readings/types';
import type { RoomCourse } from '../room/course/types';
import type { FilledRoom } from '../room/types';
import { expectedFill } from './expected';
import { goesOn, type RoomRecord, recordMore } from './record';
import { type SeenReadings, seenReadings } from './seen-readings';
import type { ExpectedFill } from './types';
import { type UnreadRoom, unreadRooms } from './unread';

/** Readings that are watched in one step: some milliseconds. */
const READINGS_A_STEP = 400;

interface Known {
  readonly readings: RoomReadings;
  readonly fills: readonly ExpectedFill[];
  readonly record: RoomRecord;
}

/** What readings are held against. */
export interface Against {
  readonly filled: ReadonlyMap<string, FilledRoom>;
  readonly courseOf: (fill: string) => RoomCourse | undefined;
}

/**
 * Rooms' readings watched again and again while files grow and the plan is edited: what was watched is not watched once
 * more where it still says the same and is held against the same, and of a file that has grown only what was added is.
 */
export class WatchAgain {
  private readonly rooms = new Map<string, Known>();
  private expected = new Map<
    string,
    {
      readonly room: FilledRoom;
      readonly course: RoomCourse | undefined;
      readonly fill: ExpectedFill | undefined;
    }
  >();
  private last: { readonly files: readonly FileRead[]; readonly seen: SeenReadings } | undefined;

  /** What all rooms come to; the very same object where nothing differs. */
  *steps(files: readonly FileRead[], against: Against): Steps<SeenReadings> {
    const expected = yield* this.expectedSteps(against);
    const readings = byRoom(files.map(({ rooms }) => rooms));
    const records = new Map<string, RoomRecord>();
    let isSame = this.last?.files === files;
    for (const [room, one] of readings) {
      yield;
      const before = this.rooms.get(room);
      const record = yield* this.recordSteps(room, expected.get(room) ?? [], one);
      isSame &&= before?.record === record;
      records.set(room, record);
    }
    for (const room of this.rooms.keys()) if (!readings.has(room)) this.rooms.delete(room);
    if (this.last && isSame && sameUnread(this.last.seen.unread, unreadRooms(files, expected, records)))
      return this.last.seen;
    const seen = seenReadings(files, expected, records);
    this.last = { files, seen: sameSeen(this.last?.seen, seen) ? this.last.seen : seen };
    return this.last.seen;
  }

  /** What a room's readings come to. */
  *recordSteps(room: string, fills: readonly ExpectedFill[], readings: RoomReadings): Steps<RoomRecord> {
    const known = this.rooms.get(room);
    const isAsBefore = known && sameItems(known.fills, fills);
    if (isAsBefore && known.readings === readings) return known.record;
    const count = known && begins(readings, known.readings) ? known.readings.times.length : 0;
    const more = part(readings, count, readings.times.length);
    const goes = known && count > 0 && goesOn(fills, known.record, more.times.length > 0 ? more : undefined);
    let record = goes ? known.record : undefined;
    for (let at = goes ? count : 0; at < readings.times.length; at += READINGS_A_STEP) {
      yield;
      record = recordMore(fills, record, part(readings, at, at + READINGS_A_STEP));
    }
    const made = record ?? recordMore(fills, undefined, readings);
    this.rooms.set(room, { readings, fills, record: made });
    return made;
  }

  /** By room, the first to begin first; made again only for fills whose room or course is another. */
  private *expectedSteps({ filled, courseOf }: Against): Steps<Map<string, ExpectedFill[]>> {
    const [before, now] = [this.expected, new Map<string, Known['fills'][number]>()];
    this.expected = new Map();
    for (const [id, room] of filled) {
      const course = courseOf(id);
      let known = before.get(id);
      if (known?.room !== room || known.course !== course) {
        yield;
        known = { room, course, fill: expectedFill(room, course) };
      }
      this.expected.set(id, known);
      if (known.fill) now.set(id, known.fill);
    }
    const rooms = new Map<string, ExpectedFill[]>();
    for (const fill of now.values()) rooms.set(fill.room, [...(rooms.get(fill.room) ?? []), fill]);
    for (const fills of rooms.values()) fills.sort((a, b) => a.begins - b.begins);
    return rooms;
  }
}

/** The readings from one to before another. */
function part({ room, times, values }: RoomReadings, from: number, until: number): RoomReadings {
  return {
    room,
    times: times.subarray(from, until),
    values: {
      oxygen: values.oxygen.subarray(from, until),
      'carbon-dioxide': values['carbon-dioxide'].subarray(from, until),
      temperature: values.temperature.subarray(from, until),
      humidity: values.humidity.subarray(from, until),
    },
  };
}

/** Whether all of `before` stands at the beginning of `readings`, to the last bit. */
function begins(readings: RoomReadings, before: RoomReadings): boolean {
  const count = before.times.length;
  if (readings.times.length < count) return false;
  for (let index = 0; index < count; index++) if (readings.times[index] !== before.times[index]) return false;
  return quantities.every((quantity) => {
    const [now, then] = [readings.values[quantity], before.values[quantity]];
    for (let index = 0; index < count; index++) if (!Object.is(now[index], then[index])) return false;
    return true;
  });
}

function sameItems(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((item, index) => item === b[index]);
}

function sameUnread(a: readonly UnreadRoom[], b: readonly UnreadRoom[]): boolean {
  return (
    a.length === b.length &&
    a.every(({ room, fill }, index) => room === b[index]?.room && fill === b[index]?.fill)
  );
}

function sameSeen(a: SeenReadings | undefined, b: SeenReadings): a is SeenReadings {
  return a !== undefined && JSON.stringify(a) === JSON.stringify(b);
}
