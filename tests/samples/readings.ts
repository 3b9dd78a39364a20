import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Plan } from '../../src/plan/model';
import { byRoom } from '../../src/readings/combine';
import { readReadings } from '../../src/readings/read-readings';
import type { RoomReadings } from '../../src/readings/types';
import { root } from '../cli/in-process';

/** What was read in the rooms of a sample plan, by room. */
export function sampleReadings(name: string, plan: Plan): Map<string, RoomReadings> {
  const rooms = new Set(plan.rooms.keys());
  return byRoom(
    [...plan.readings.values()].map((layout) => {
      const file = path.join(root, 'sample-plans', name, layout.file?.value ?? '');
      return readReadings(readFileSync(file, 'utf8'), layout, rooms).rooms;
    }),
  );
}
