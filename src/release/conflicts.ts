import { formatWeek } from '../plan/dates';
import { fixed } from '../plan/display';
import { counted } from '../plan/wording';
import { fewestLeftClosed } from './colliding';
import { orderConflicts } from './order-conflicts';
import { lessText, packhouseText } from './packhouse-text';
import { packableBins } from './packing-weeks';
import { isOpened, mostPacked, type PinnedRoom, pinnedRooms, withinOpenLimit } from './pins';
import type { Packhouse, ProblemRoom, ReleaseProblem } from './types';

export interface Conflicts {
  readonly messages: readonly string[];
  /** Rooms that are left closed because of them. */
  readonly unmet: readonly number[];
}

/**
 * Pins and windows that no schedule can keep. Of pins that collide the smallest set is named, and one room of it is left
 * closed so that the others can be planned: as few rooms in all as there can be, with the fewest bins. Never is a pin
 * moved.
 */
export function findConflicts(problem: ReleaseProblem): Conflicts {
  const messages: string[] = [];
  const unmet: number[] = [];
  problem.rooms.forEach((room, index) => {
    // Fruit from the field that cannot be packed goes to processing; no wish is broken.
    const message = room.fromField ? undefined : neverOpensText(problem, room);
    if (message === undefined) return;
    messages.push(message);
    unmet.push(index);
  });
  for (const { message, room } of orderConflicts(problem, unmet)) {
    messages.push(message);
    unmet.push(room);
  }
  const pinned = pinnedRooms(problem).filter(({ room }) => !unmet.includes(room));
  const fill = (one: PinnedRoom) => problem.rooms[one.room]?.fill ?? '';
  const fewestBins = (a: PinnedRoom, b: PinnedRoom) => a.bins - b.bins || (fill(a) < fill(b) ? -1 : 1);
  const isOpen = ({ room }: PinnedRoom) => isOpened(problem, room);
  for (const { colliding, leftClosed } of fewestLeftClosed(problem, pinned, fewestBins, isOpen)) {
    messages.push(together(problem, colliding, leftClosed));
    unmet.push(leftClosed.room);
  }
  return { messages, unmet: unmet.sort((a, b) => a - b) };
}

/** What is asked of a room to tell whether it can be opened. */
export type EmptiedRoom = Pick<
  ProblemRoom,
  'fill' | 'room' | 'bins' | 'weeksToEmpty' | 'earliest' | 'latest' | 'pinned'
>;

/** Why a room cannot be opened at all, whatever the others do and whatever is sold; undefined where it can. */
export function neverOpensText(problem: Packhouse, room: EmptiedRoom): string | undefined {
  const week = (index: number) => formatWeek(problem.firstWeek + index);
  const { earliest, latest, pinned } = room;
  const name = `Room ${room.room} (${room.fill})`;
  if (earliest > latest)
    return `${name} has no week in which it can be opened: not before ${week(earliest)}, and not after ${week(latest)}. Take its weakest lot out, choose another regime, or empty it faster.`;
  if (pinned !== null && (pinned < earliest || pinned > latest))
    return `${name} is pinned to ${week(pinned)}, but can be opened only from ${week(earliest)} to ${week(latest)}. Move the pin, or take it out.`;
  const weeks = pinned === null ? range(earliest, latest) : [pinned];
  const can = (opens: number) => packableBins(problem, opens, room.weeksToEmpty);
  const best = weeks.reduce((one, other) => (can(other) > can(one) ? other : one));
  if (can(best) + 1e-9 * room.bins >= room.bins) return undefined;
  return (
    `${name} holds ${counted(room.bins, 'bin')}, but in the ` +
    `${room.weeksToEmpty} ${room.weeksToEmpty === 1 ? 'week' : 'weeks'} that its emptying may take the packhouse can run ` +
    `${can(best) < 0.5 ? '' : 'at most '}${packhouseText(problem, best, room.weeksToEmpty)}` +
    `${pinned === null ? '; in no week of its window more' : `; it is pinned to ${week(pinned)}`}. ` +
    'Raise `bins-a-week` or `days-to-empty`, or put its fruit into two rooms.'
  );
}

/** "R7, R12 and R30 all have to open in 2027-W18, and the packhouse can take two: ..." */
function together(problem: ReleaseProblem, colliding: readonly PinnedRoom[], left: PinnedRoom): string {
  const name = (one: PinnedRoom) => problem.rooms[one.room]?.room ?? '';
  const taken = numberText(colliding.length - 1);
  const why = withinOpenLimit(problem, colliding)
    ? `and the packhouse can take ${taken}: ${packingText(problem, colliding)}`
    : `and ${limitText(problem)}`;
  return `${pinsText(problem, colliding)}, ${why}. Room ${name(left)} is left closed here.`;
}

/** The rooms that stand open, then each week with the rooms that have to open in it. */
function pinsText(problem: ReleaseProblem, colliding: readonly PinnedRoom[]): string {
  const open = colliding.filter(({ room }) => isOpened(problem, room));
  const toOpen = colliding.filter((one) => !open.includes(one));
  const weeks = [...new Set(toOpen.map(({ week }) => week))].sort((a, b) => a - b);
  const standing = listed(open.map(({ room }) => problem.rooms[room]?.room ?? ''));
  const parts = weeks.map((week) => {
    const rooms = toOpen.filter((one) => one.week === week).map((one) => problem.rooms[one.room]?.room ?? '');
    const have =
      rooms.length > 2 ? 'all have to open' : rooms.length > 1 ? 'both have to open' : 'has to open';
    return `${listed(rooms)} ${have} in ${formatWeek(problem.firstWeek + week)}`;
  });
  if (open.length === 0) return listed(parts);
  return listed([`${standing} ${open.length > 1 ? 'stand open' : 'stands open'}`, ...parts]);
}

function packingText(problem: ReleaseProblem, colliding: readonly PinnedRoom[]): string {
  const first = Math.min(...colliding.map((one) => one.week));
  const last = Math.max(...colliding.map((one) => one.until));
  const ends = colliding.some((one) => one.until === last && one.endsWithin);
  const week = (index: number) => formatWeek(problem.firstWeek + index);
  const span = first === last ? week(first) : `${week(first)} to ${week(last)}`;
  const bins = colliding.reduce((sum, one) => sum + one.bins, 0);
  const most = mostPacked(problem, colliding);
  return (
    `they hold ${counted(bins, 'bin')}, and in the weeks they must be emptied in it runs ` +
    `${most < 0.5 ? 'none' : `at most ${whole(most)}`} of them, ${span}${lessText(problem, first, last, ends)}`
  );
}

function limitText({ roomsOpenAtOnce: limit }: ReleaseProblem): string {
  return limit === 1
    ? 'only one room may stand open at once'
    : `only ${numberText(limit ?? 0)} rooms may stand open at once`;
}

const NUMBERS = ['none', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

function numberText(count: number): string {
  return NUMBERS[count] ?? String(count);
}

function listed(items: readonly string[]): string {
  return items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

function whole(bins: number): string {
  return fixed(bins, 0);
}

function range(from: number, to: number): number[] {
  return Array.from({ length: to - from + 1 }, (_, index) => from + index);
}
