import type { Steps } from '../plan/steps';
import type { ReadingsLayout } from '../plan/table-model';
import { appended } from './combine';
import { ReadingStream, type ReadSoFar } from './reading-stream';
import type { FileReadings, RoomReadings } from './types';

type Taken = Pick<FileReadings, 'rooms' | 'notTaken' | 'faults'>;

/** A file as far as it has been read: enough to go on when it has grown. */
export interface ReadPart {
  /** Of whole lines. */
  readonly taken: Taken;
  /** Undefined where nothing can follow: then the file is to be read from its beginning. */
  readonly soFar: ReadSoFar | undefined;
  /** What quotes keep open. */
  readonly waiting: string;
}

/** Letters that are read in one step. */
const LETTERS_A_STEP = 40_000;
const MOST_FAULTS = 50;
const NOTHING: Taken = { rooms: new Map(), notTaken: 0, faults: [] };

/** Reads lines on from what was read before, in steps of some milliseconds. What was given is not changed. */
export function* readOnSteps(
  layout: ReadingsLayout,
  rooms: ReadonlySet<string>,
  before: ReadPart | undefined,
  lines: string,
): Steps<ReadPart> {
  const stream = new ReadingStream(layout, rooms, { from: before?.soFar });
  const parts: Taken[] = [before?.taken ?? NOTHING];
  for (let at = 0; at < lines.length || at === 0; at += LETTERS_A_STEP) {
    yield;
    stream.push(`${at === 0 ? (before?.waiting ?? '') : ''}${lines.slice(at, at + LETTERS_A_STEP)}`);
    parts.push(stream.taken());
  }
  return { taken: yield* together(parts), soFar: stream.soFar, waiting: stream.waiting };
}

/** With a last line that has not ended. */
export function* withRestSteps(
  layout: ReadingsLayout,
  rooms: ReadonlySet<string>,
  { taken, soFar, waiting }: ReadPart,
  rest: string,
): Steps<Taken> {
  if (waiting + rest === '') return taken;
  const stream = new ReadingStream(layout, rooms, { from: soFar });
  stream.push(waiting + rest);
  stream.end();
  return yield* together([taken, stream.taken()]);
}

function* together(parts: readonly Taken[]): Steps<Taken> {
  const byRoom = new Map<string, RoomReadings[]>();
  for (const { rooms } of parts)
    for (const [room, readings] of rooms) {
      const known = byRoom.get(room);
      if (known) known.push(readings);
      else byRoom.set(room, [readings]);
    }
  const rooms = new Map<string, RoomReadings>();
  for (const [room, [first, ...more]] of byRoom) {
    yield;
    if (first) rooms.set(room, appended([first, ...more]));
  }
  return {
    rooms,
    notTaken: parts.reduce((sum, { notTaken }) => sum + notTaken, 0),
    faults: parts.flatMap(({ faults }) => faults).slice(0, MOST_FAULTS),
  };
}
