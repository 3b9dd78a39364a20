import { type PinnedRoom, packPinned, withinOpenLimit } from './pins';
import type { ReleaseProblem } from './types';

/** True where the packhouse can empty all these rooms, and no more stand open than may. */
export function fits(problem: ReleaseProblem, pinned: readonly PinnedRoom[]): boolean {
  return withinOpenLimit(problem, pinned) && packPinned(problem, pinned) !== undefined;
}

/**
 * The smallest set of rooms that collide, of rooms that do not all fit: too many open in one week, or more bins than
 * the packhouse can run in the weeks they must all be packed in. Where neither shows by itself, rooms are left out one by
 * one as long as the rest collides. Without any one of them the others fit.
 */
export function smallestColliding(
  problem: ReleaseProblem,
  pinned: readonly PinnedRoom[],
): readonly PinnedRoom[] {
  const seen = [...tooManyOpen(problem, pinned), ...tooManyBins(problem, pinned)];
  const [smallest] = seen.sort((a, b) => a.length - b.length);
  let colliding = smallest ?? pinned;
  for (const one of colliding) {
    const without = colliding.filter((other) => other !== one);
    if (!fits(problem, without)) colliding = without;
  }
  return [...colliding].sort((a, b) => a.room - b.room);
}

/** Sets of rooms that collide, each the smallest there is beside those left closed before, and the room of each left closed. */
export interface Collision {
  readonly colliding: readonly PinnedRoom[];
  readonly leftClosed: PinnedRoom;
}

/** Times that rooms are looked at for fewer to be left closed; beyond it, one of each set is, without looking for fewer. */
const MOST_LOOKS = 300;

/**
 * As few rooms left closed as let all others be opened as pinned, and of such choices that with the fewest bins; `order`
 * puts those first that are sooner left closed. Each room left closed comes with a set it collides in. Of more rooms than
 * can be looked at, those with the fewest bins of set after set. A room that `isOpen` is left closed only where all that it
 * collides with are open too.
 */
export function fewestLeftClosed(
  problem: ReleaseProblem,
  pinned: readonly PinnedRoom[],
  order: (a: PinnedRoom, b: PinnedRoom) => number,
  isOpen: (one: PinnedRoom) => boolean = () => false,
): readonly Collision[] {
  let looks = 0;
  const bins = (some: readonly Collision[]) => some.reduce((sum, one) => sum + one.leftClosed.bins, 0);
  /** The best choice of at most so many; every choice leaves a room of the smallest colliding set closed. */
  const search = (rooms: readonly PinnedRoom[], most: number): readonly Collision[] | undefined => {
    looks += 1;
    if (fits(problem, rooms)) return [];
    if (most === 0 || looks > MOST_LOOKS) return undefined;
    const colliding = smallestColliding(problem, rooms);
    let best: readonly Collision[] | undefined;
    for (const leftClosed of toClose(colliding, order, isOpen)) {
      const rest = search(
        rooms.filter((one) => one !== leftClosed),
        most - 1,
      );
      const all = rest && [{ colliding, leftClosed }, ...rest];
      if (all && (!best || all.length < best.length || bins(all) < bins(best))) best = all;
    }
    return best;
  };
  for (let most = 0; most <= pinned.length && looks <= MOST_LOOKS; most++) {
    const found = search(pinned, most);
    if (found && looks <= MOST_LOOKS) return found;
  }
  return oneOfEach(problem, pinned, order, isOpen);
}

function toClose(
  colliding: readonly PinnedRoom[],
  order: (a: PinnedRoom, b: PinnedRoom) => number,
  isOpen: (one: PinnedRoom) => boolean,
): PinnedRoom[] {
  const shut = colliding.filter((one) => !isOpen(one));
  return [...(shut.length > 0 ? shut : colliding)].sort(order);
}

function oneOfEach(
  problem: ReleaseProblem,
  pinned: readonly PinnedRoom[],
  order: (a: PinnedRoom, b: PinnedRoom) => number,
  isOpen: (one: PinnedRoom) => boolean,
): readonly Collision[] {
  const found: Collision[] = [];
  let rooms = pinned;
  while (!fits(problem, rooms)) {
    const colliding = smallestColliding(problem, rooms);
    const [leftClosed] = toClose(colliding, order, isOpen);
    if (!leftClosed) break;
    found.push({ colliding, leftClosed });
    rooms = rooms.filter((one) => one !== leftClosed);
  }
  return found;
}

/** For each week with more rooms open than may: one more than may, those with the fewest weeks first. */
function tooManyOpen(problem: ReleaseProblem, pinned: readonly PinnedRoom[]): PinnedRoom[][] {
  const limit = problem.roomsOpenAtOnce;
  if (limit === null) return [];
  return Array.from({ length: problem.weeks }, (_, week) =>
    pinned.filter((one) => one.week <= week && week <= one.until),
  ).flatMap((open) => (open.length > limit ? [open.slice(0, limit + 1)] : []));
}

/** For each span of weeks with more bins than it takes, of rooms packed within it: as few rooms as do it. */
function tooManyBins(problem: ReleaseProblem, pinned: readonly PinnedRoom[]): PinnedRoom[][] {
  const found: PinnedRoom[][] = [];
  const largestFirst = [...pinned].sort((a, b) => b.bins - a.bins || a.room - b.room);
  for (const from of new Set(pinned.map(({ week }) => week))) {
    let before = 0;
    for (let until = from; until < problem.weeks; until++) {
      const week = problem.packingBins[until] ?? 0;
      const within = largestFirst.filter((one) => one.week >= from && one.until <= until);
      const onLastDays = within.filter((one) => one.until < until || one.endsWithin);
      const all = fewest(within, before + week);
      const late = fewest(onLastDays, before + Math.min(week, problem.lastWeekBins?.[until] ?? week));
      found.push(...[all, late].filter((one) => one !== undefined));
      before += week;
    }
  }
  return found;
}

/** As few of the rooms, largest first, as hold more bins than that; undefined where all together do not. */
function fewest(rooms: readonly PinnedRoom[], most: number): PinnedRoom[] | undefined {
  let bins = 0;
  const slack = 1e-9 * Math.max(1, most);
  const end = rooms.findIndex((one) => {
    bins += one.bins;
    return bins > most + slack;
  });
  return end < 0 ? undefined : rooms.slice(0, end + 1);
}
