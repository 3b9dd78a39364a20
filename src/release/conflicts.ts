import { formatWeek } from '../plan/dates';
import { orderConflicts } from './order-conflicts';
import { packableBins } from './packing-weeks';
import { type PinnedRoom, packPinned, pinnedRooms, withinOpenLimit } from './pins';
import type { ProblemRoom, ReleaseProblem } from './types';

export interface Conflicts {
  readonly messages: readonly string[];
  /** Rooms that are left closed because of them. */
  readonly unmet: readonly number[];
}

/**
 * Pins and windows that no schedule can keep. Of pins that collide the smallest set is named, and one room of it (that
 * with the fewest bins) is left closed so that the others can be planned; never is a pin moved.
 */
export function findConflicts(problem: ReleaseProblem): Conflicts {
  const messages: string[] = [];
  const unmet: number[] = [];
  problem.rooms.forEach((room, index) => {
    // Fruit from the field that cannot be packed goes to processing; no wish is broken.
    const message = room.fromField ? undefined : alone(problem, room);
    if (message === undefined) return;
    messages.push(message);
    unmet.push(index);
  });
  for (const { message, room } of orderConflicts(problem, unmet)) {
    messages.push(message);
    unmet.push(room);
  }
  let pinned = pinnedRooms(problem).filter(({ room }) => !unmet.includes(room));
  while (!fits(problem, pinned)) {
    const colliding = smallestColliding(problem, pinned);
    const left = leastOf(problem, colliding);
    messages.push(together(problem, colliding, left));
    unmet.push(left.room);
    pinned = pinned.filter((one) => one !== left);
  }
  return { messages, unmet: unmet.sort((a, b) => a - b) };
}

/** Why a room cannot be opened at all, whatever the others do. */
function alone(problem: ReleaseProblem, room: ProblemRoom): string | undefined {
  const week = (index: number) => formatWeek(problem.firstWeek + index);
  const { earliest, latest, pinned } = room;
  const name = `Room ${room.room} (${room.fill})`;
  if (earliest > latest)
    return `${name} has no week in which it can be opened: not before ${week(earliest)}, and not after ${week(latest)}.`;
  if (pinned !== null && (pinned < earliest || pinned > latest))
    return `${name} is pinned to ${week(pinned)}, but can be opened only from ${week(earliest)} to ${week(latest)}.`;
  const weeks = pinned === null ? range(earliest, latest) : [pinned];
  const most = Math.max(...weeks.map((opens) => packableBins(problem, opens, room.weeksToEmpty)));
  if (most + 1e-9 * room.bins >= room.bins) return undefined;
  return (
    `${name} holds ${whole(room.bins)} bins, but the packhouse can run at most ${whole(most)} in the ` +
    `${room.weeksToEmpty} ${room.weeksToEmpty === 1 ? 'week' : 'weeks'} that its emptying may take` +
    `${pinned === null ? ', in any week of its window' : ` from ${week(pinned)}, to which it is pinned`}.`
  );
}

function fits(problem: ReleaseProblem, pinned: readonly PinnedRoom[]): boolean {
  return withinOpenLimit(problem, pinned) && packPinned(problem, pinned) !== undefined;
}

/** Leaves out one room after the other as long as the rest still collides: what remains collides, and less does not. */
function smallestColliding(problem: ReleaseProblem, pinned: readonly PinnedRoom[]): readonly PinnedRoom[] {
  let colliding = pinned;
  for (const one of pinned) {
    const without = colliding.filter((other) => other !== one);
    if (!fits(problem, without)) colliding = without;
  }
  return colliding;
}

function leastOf(problem: ReleaseProblem, pinned: readonly PinnedRoom[]): PinnedRoom {
  const fill = (one: PinnedRoom) => problem.rooms[one.room]?.fill ?? '';
  const [least] = [...pinned].sort((a, b) => a.bins - b.bins || (fill(a) < fill(b) ? -1 : 1));
  if (!least) throw new RangeError('no rooms collide');
  return least;
}

function together(problem: ReleaseProblem, colliding: readonly PinnedRoom[], left: PinnedRoom): string {
  const name = (one: PinnedRoom) => problem.rooms[one.room]?.room ?? '';
  const week = (index: number) => formatWeek(problem.firstWeek + index);
  const first = Math.min(...colliding.map((one) => one.week));
  const last = Math.max(...colliding.map((one) => one.until));
  const pins = colliding.map((one) => `${name(one)} (${week(one.week)})`);
  const why = withinOpenLimit(problem, colliding)
    ? `together they hold ${whole(colliding.reduce((sum, one) => sum + one.bins, 0))} bins, more than the packhouse ` +
      `can run in the weeks they must be emptied in, ${week(first)} to ${week(last)}`
    : `more rooms would stand open at once than the ${problem.roomsOpenAtOnce} that may`;
  return `The pins of ${listed(pins)} cannot all be kept: ${why}. Room ${name(left)} is left closed here.`;
}

function listed(items: readonly string[]): string {
  return items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

function whole(bins: number): string {
  return String(Math.round(bins));
}

function range(from: number, to: number): number[] {
  return Array.from({ length: to - from + 1 }, (_, index) => from + index);
}
