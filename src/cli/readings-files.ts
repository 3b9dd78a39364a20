import path from 'node:path';
import type { Plan } from '../plan/model';
import type { ReadingsLayout } from '../plan/table-model';
import { byRoom } from '../readings/combine';
import { readReadings } from '../readings/read-readings';
import type { RoomReadings } from '../readings/types';
import type { ReadFile } from '../report/readings-report';
import { CannotRun, type Io } from './io';

/** Reads every file of readings that the plan names, and puts the readings together by room. */
export function readingsOfPlan(
  io: Io,
  plan: Plan,
): { readonly files: ReadFile[]; readonly rooms: Map<string, RoomReadings> } {
  const known = new Set(plan.rooms.keys());
  const files = [...plan.readings.values()].flatMap((layout): ReadFile[] => {
    const file = fileOf(layout);
    if (file === undefined) return [];
    return [{ readings: layout.id, file, read: readReadings(textOf(io, file), layout, known) }];
  });
  return { files, rooms: byRoom(files.map(({ read }) => read.rooms)) };
}

/** From the folder of the plan file that names it. */
function fileOf({ file }: ReadingsLayout): string | undefined {
  return file && path.posix.join(path.posix.dirname(file.at.file), file.value);
}

function textOf(io: Io, file: string): string {
  const text = io.files.read(path.resolve(io.cwd, file));
  if (typeof text === 'string') return text;
  throw new CannotRun(`${file} could not be read: ${text.failure}. The plan names it under \`readings\`.`);
}
