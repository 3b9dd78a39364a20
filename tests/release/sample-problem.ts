import fs from 'node:fs';
import path from 'node:path';
import { fruitData } from '../../src/fruit/data';
import { roomKeeping } from '../../src/keeping/room-keeping';
import type { RoomKeeping } from '../../src/keeping/types';
import type { Plan } from '../../src/plan/model';
import { readPlan } from '../../src/plan/read';
import { releaseProblem } from '../../src/release/problem';
import type { ReleaseProblem } from '../../src/release/types';
import { roomCapacity } from '../../src/room/capacity';
import { filledRoom } from '../../src/room/filled-room';

const folder = 'sample-plans/first-season';
export const files = fs.readdirSync(folder).map((name) => ({
  path: name,
  text: fs.readFileSync(path.join(folder, name), 'utf8'),
}));

export function keepingOf(plan: Plan): Map<string, RoomKeeping> {
  const fruit = fruitData(plan);
  const keeping = new Map<string, RoomKeeping>();
  for (const [id, fill] of plan.fills) {
    const room = plan.rooms.get(fill.room?.value ?? '');
    if (!room) continue;
    const capacity = roomCapacity(room, plan.binTypes.get(room.binType?.value ?? ''));
    keeping.set(id, roomKeeping(plan, filledRoom(plan, fruit, fill, capacity)));
  }
  return keeping;
}

/** The problem of the sample with some of its text replaced. */
export function problemOf(...changes: [string | RegExp, string][]): ReleaseProblem | undefined {
  const changed = files.map(({ path: name, text }) => ({
    path: name,
    text: changes.reduce((now, [from, to]) => now.replace(from, to), text),
  }));
  const plan = readPlan(changed);
  return releaseProblem(plan, keepingOf(plan));
}

export function the(problem: ReleaseProblem | undefined): ReleaseProblem {
  if (!problem) throw new Error('no problem');
  return problem;
}
