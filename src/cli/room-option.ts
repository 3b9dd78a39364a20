import type { Plan } from '../plan/model';
import { nearest } from '../plan/nearest';
import { CannotRun } from './io';

/** Throws `CannotRun` where a room is asked for that the plan does not have. */
export function mustHaveRoom(plan: Plan, room: string | undefined): void {
  if (room === undefined || plan.rooms.has(room)) return;
  const meant = nearest(room, plan.rooms.keys());
  throw new CannotRun(`The plan has no room ${room}.${meant ? ` Is ${meant} meant?` : ''}`);
}
