import { formatWeek } from '../plan/dates';
import type { ReleaseProblem } from './types';

export interface OrderConflict {
  readonly message: string;
  /** The room that is left closed, so that the others can be planned. */
  readonly room: number;
}

type Pairs = NonNullable<ReleaseProblem['opensBefore']>;

/**
 * Orders of opening that cannot be kept: rooms each to open before the next in a circle, or a chain of rooms for which
 * windows and pins leave too few weeks. The shortest is named first, and one of its rooms left closed: one without a
 * pin before one with, then that with the fewest bins.
 */
export function orderConflicts(problem: ReleaseProblem, unmet: readonly number[]): OrderConflict[] {
  const found: OrderConflict[] = [];
  const closed = new Set(unmet);
  for (;;) {
    const pairs = (problem.opensBefore ?? []).filter(
      ([first, later]) => !closed.has(first) && !closed.has(later),
    );
    const chain = shortestBroken(problem, pairs);
    if (!chain) return found;
    const room = leastOf(problem, chain);
    closed.add(room);
    found.push({
      message: `${chainText(problem, chain)} ${problem.rooms[room]?.fill} is left closed here.`,
      room,
    });
  }
}

/** Rooms in the order they must open in, which cannot be kept; the first once more at the end for a circle. */
function shortestBroken(problem: ReleaseProblem, pairs: Pairs): number[] | undefined {
  // Chains grow by one room at a time; of those that end in a room only the one that starts latest matters.
  let chains = new Map<number, readonly number[]>(problem.rooms.map((_, room) => [room, [room]]));
  for (let length = 0; length < problem.rooms.length && pairs.length > 0; length++) {
    const longer = new Map<number, readonly number[]>();
    for (const [first, later] of pairs) {
      const before = chains.get(first);
      if (!before) continue;
      const chain = [...before, later];
      const again = before.indexOf(later);
      if (again >= 0) return chain.slice(again);
      if (earliestEnd(problem, chain) > lastWeek(problem, later)) return chain;
      const known = longer.get(later);
      if (!known || earliestEnd(problem, chain) > earliestEnd(problem, known)) longer.set(later, chain);
    }
    chains = longer;
  }
  return undefined;
}

function earliestEnd(problem: ReleaseProblem, chain: readonly number[]): number {
  return firstWeek(problem, chain[0] ?? 0) + chain.length - 1;
}

function firstWeek({ rooms }: ReleaseProblem, room: number): number {
  return rooms[room]?.pinned ?? rooms[room]?.earliest ?? 0;
}

function lastWeek({ rooms }: ReleaseProblem, room: number): number {
  return rooms[room]?.pinned ?? rooms[room]?.latest ?? 0;
}

function chainText(problem: ReleaseProblem, chain: readonly number[]): string {
  // By fill, as the planner wrote the order.
  const name = (room: number) => problem.rooms[room]?.fill ?? '';
  const [first, last] = [chain[0] ?? 0, chain.at(-1) ?? 0];
  const order = chain.map(name).join(' before ');
  if (first === last) return `${order} cannot be kept: it goes round in a circle.`;
  const week = (index: number) => formatWeek(problem.firstWeek + index);
  const pinned = (room: number) => problem.rooms[room]?.pinned !== null;
  const from = pinned(first) ? 'is pinned to' : 'may not open before';
  const to = pinned(last) ? 'is pinned to' : 'may open no later than';
  return (
    `${order} cannot be kept: ${name(first)} ${from} ${week(firstWeek(problem, first))}, ` +
    `and ${name(last)} ${to} ${week(lastWeek(problem, last))}.`
  );
}

function leastOf({ rooms }: ReleaseProblem, chain: readonly number[]): number {
  const rank = (room: number) => (rooms[room]?.pinned === null ? 0 : 1);
  const bins = (room: number) => rooms[room]?.bins ?? 0;
  const fill = (room: number) => rooms[room]?.fill ?? '';
  const [least] = [...chain].sort(
    (a, b) => rank(a) - rank(b) || bins(a) - bins(b) || (fill(a) < fill(b) ? -1 : fill(a) > fill(b) ? 1 : 0),
  );
  return least ?? 0;
}
