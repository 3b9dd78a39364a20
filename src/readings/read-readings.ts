import type { ReadingsLayout } from '../plan/table-model';
import { ReadingStream } from './reading-stream';
import type { FileReadings } from './types';

/** Reads the whole text of a file of readings, see `ReadingStream`. */
export function readReadings(text: string, layout: ReadingsLayout, rooms: ReadonlySet<string>): FileReadings {
  const stream = new ReadingStream(layout, rooms);
  stream.push(text);
  stream.end();
  return stream.taken();
}
