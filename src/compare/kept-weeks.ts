import type { Week } from '../plan/dates';
import { findConflicts } from '../release/conflicts';
import { gapOf, isProven } from '../release/gap';
import { greedyOrder, placeBest, weeksOf } from '../release/greedy';
import { packPinned, pinnedRooms } from '../release/pins';
import { bestPlacement, movable, packedIn } from '../release/placing';
import { CLOSED, type Placement, SeasonState, spreadBins } from '../release/season-state';
import { settledSchedule } from '../release/settle';
import { SIMPLE_BOUND_RESTS_ON, simpleBound } from '../release/simple-bound';
import type { ProblemRoom, ReleaseProblem, ReleaseResult } from '../release/types';

/** A schedule whose weeks another plan is to keep. */
export interface Reference {
  /** By fill; fills left closed are not in it. */
  readonly rooms: ReadonlyMap<string, ReferenceRoom>;
  /** The problem it was found for. */
  readonly problem: ReleaseProblem;
}

interface ReferenceRoom {
  readonly week: Week;
  /** Bins packed in the week it opens and in those after. */
  readonly packed: readonly number[];
}

export function referenceOf(problem: ReleaseProblem, { schedule }: ReleaseResult): Reference {
  const rooms = new Map<string, ReferenceRoom>();
  problem.rooms.forEach(({ fill }, room) => {
    const opens = schedule.opens[room] ?? null;
    if (opens !== null)
      rooms.set(fill, {
        week: problem.firstWeek + opens,
        packed: (schedule.packed[room] ?? []).slice(opens),
      });
  });
  // A room that was opened in fact has that week, also where nothing is left in it that could be released.
  for (const { fill, week } of problem.standing?.opened ?? [])
    rooms.set(fill, { week: problem.firstWeek + week, packed: rooms.get(fill)?.packed ?? [] });
  return { rooms, problem };
}

/** Rounds in which each room may move once more. */
const MOST_ROUNDS = 3;

/** A room that keeps its week is spread over its weeks anew only for more than this share of all it brings. */
const LEAST_GAIN = 1e-4;

/**
 * The reference's weeks in a problem: each room keeps its week and its shares of packing. It moves only where its week
 * is outside its window, or other rooms leave no packing for it; or where it gains more than moving costs, the price of
 * change by which the problem counts weeks moved from the reference (`problem` must have been made with its weeks as
 * published). Only rooms that sell what something has changed for are asked, or all. No chance is in it: the same problem and
 * reference give the same, and a reference kept in its own problem stays as it is.
 */
export function keptResult(
  problem: ReleaseProblem,
  plain: ReleaseProblem,
  reference: Reference,
  asksAll: boolean,
): ReleaseResult {
  const { messages, unmet } = findConflicts(problem);
  const { state, displaced } = placedAsBefore(problem, reference, unmet);
  if (displaced.length > 0) placeBest(state, greedyOrder(state, displaced));
  const asked = new Set([...roomsToAsk(problem, reference), ...displaced]);
  const free = movable(problem, unmet);
  let rooms = free.filter((room) => asksAll || asked.has(room));
  for (let round = 0; round < MOST_ROUNDS && rooms.length > 0; round++) {
    const moved = moveWhereItPays(state, rooms);
    const touched = new Set(moved.flatMap((room) => varietiesOf(problem, room)));
    rooms = free.filter((room) => varietiesOf(problem, room).some((name) => touched.has(name)));
  }
  const schedule = settledSchedule(plain, { opens: state.opens.slice(), packed: packedIn(state) });
  const bound = simpleBound(plain, unmet);
  const gap = gapOf(schedule.value, bound);
  return {
    schedule,
    bound,
    gap,
    boundRestsOn: SIMPLE_BOUND_RESTS_ON,
    provenOptimal: isProven(gap),
    conflicts: messages,
    unmet,
  };
}

function placedAsBefore(
  problem: ReleaseProblem,
  reference: Reference,
  unmet: readonly number[],
): { readonly state: SeasonState; readonly displaced: readonly number[] } {
  const known = new Map(reference.problem.rooms.map((room) => [room.fill, room]));
  const same = (room: number) => {
    const one = problem.rooms[room];
    return one !== undefined && sameRoom(one, known.get(one.fill));
  };
  const open = problem.rooms.map((_, room) => room).filter((room) => !unmet.includes(room));
  const pinned = pinnedRooms(problem).filter(({ room }) => open.includes(room));
  const isPinned = new Set(pinned.map(({ room }) => room));
  const byFill = (a: number, b: number) => compareText(problem.rooms[a]?.fill, problem.rooms[b]?.fill);
  // Pins first, then rooms that nothing has changed for: those that have changed find what packing is left.
  const order = open
    .filter((room) => reference.rooms.has(problem.rooms[room]?.fill ?? ''))
    .sort((a, b) => rank(a) - rank(b) || byFill(a, b));
  function rank(room: number): number {
    return (isPinned.has(room) ? 0 : 2) + (same(room) ? 0 : 1);
  }
  const state = new SeasonState(problem);
  const displaced = order.filter((room) => !placeAsBefore(state, room, reference));
  if (
    displaced.every((room) => !isPinned.has(room)) &&
    pinned.every(({ room }) => state.opens[room] !== CLOSED)
  )
    return { state, displaced };
  // A pin has no place in the shares of before: pinned rooms are packed anew, then the others.
  const fresh = new SeasonState(problem);
  placePinned(fresh, pinned);
  const others = order.filter((room) => !isPinned.has(room));
  return { state: fresh, displaced: others.filter((room) => !placeAsBefore(fresh, room, reference)) };
}

/** Opens a room in its week of before, or in the week it is pinned to now. False where it may not or does not fit. */
function placeAsBefore(state: SeasonState, room: number, reference: Reference): boolean {
  const { problem } = state;
  const one = problem.rooms[room];
  const before = one && reference.rooms.get(one.fill);
  const weeks = weeksOf(state, room);
  if (!one || !before || !weeks) return false;
  const week = one.pinned ?? before.week - problem.firstWeek;
  if (week < weeks.first || week > weeks.last || !state.mayOpen(room, week)) return false;
  const packed = before.packed.reduce((sum, bins) => sum + bins, 0);
  const share = one.fromField && one.bins > 0 ? Math.min(1, packed / one.bins) : 1;
  const weights = Array.from({ length: state.span }, (_, since) => before.packed[since] ?? 0);
  const bins = new Float64Array(state.span);
  if (!spreadBins(state, room, weights, week, bins, share)) return false;
  commit(state, { room, week, bins });
  return true;
}

function placePinned(state: SeasonState, pinned: ReturnType<typeof pinnedRooms>): void {
  const { problem } = state;
  const packed = packPinned(problem, pinned);
  for (const { room, week } of pinned) {
    const bins = new Float64Array(state.span);
    bins.set(packed?.get(room)?.subarray(week, week + state.emptyingWeeks(room, week)) ?? []);
    commit(state, { room, week, bins });
  }
}

function commit(state: SeasonState, placement: Placement): void {
  state.commit([placement], state.try([placement]));
}

/** Each room takes the week that is best for it, where that is worth more than a trifle. Returns those that moved. */
function moveWhereItPays(state: SeasonState, rooms: readonly number[]): number[] {
  const { problem } = state;
  const moved: number[] = [];
  for (const room of rooms) {
    const weeks = weeksOf(state, room);
    if (!weeks) continue;
    state.lift(room);
    let best: { readonly placement: Placement; readonly change: number } | undefined;
    for (let week = weeks.first; week <= weeks.last; week++) {
      const found = bestPlacement(state, { room, week }, true);
      if (found && found.change > (best?.change ?? trifle(problem, room))) best = found;
    }
    if (!best) {
      state.putBack(room);
      continue;
    }
    state.commit([best.placement], state.try([best.placement]));
    moved.push(room);
  }
  return moved;
}

/** Money that is not worth another spread: a share of what the room's cartons would bring at the best price. */
function trifle({ rooms, demands }: ReleaseProblem, room: number): number {
  const one = rooms[room];
  if (!one) return 0;
  const price = Math.max(0, ...demands.map((demand) => demand.price));
  const cartons = (one.cartonsABin[Math.max(0, one.earliest)] ?? []).reduce((sum, aBin) => sum + aBin, 0);
  return Math.max(1e-6, LEAST_GAIN * one.bins * cartons * price);
}

/** Rooms that give what is sold under other conditions than in the reference's problem; all where the packhouse differs. */
function roomsToAsk(problem: ReleaseProblem, { problem: before, rooms }: Reference): number[] {
  const all = problem.rooms.map((_, room) => room);
  if (!samePackhouse(problem, before)) return all;
  const touched = new Set<string>();
  const known = new Map(before.rooms.map((room) => [room.fill, room]));
  const now = new Set(problem.rooms.map(({ fill }) => fill));
  for (const room of problem.rooms)
    if (!sameRoom(room, known.get(room.fill)))
      for (const name of varietiesIn(problem, room)) touched.add(name);
  for (const room of before.rooms)
    if (!now.has(room.fill)) for (const name of varietiesIn(before, room)) touched.add(name);
  for (const name of differingDemand(problem, before)) touched.add(name);
  return all.filter((room) => {
    const one = problem.rooms[room];
    return one && (!rooms.has(one.fill) || varietiesIn(problem, one).some((name) => touched.has(name)));
  });
}

function varietiesOf(problem: ReleaseProblem, room: number): string[] {
  const one = problem.rooms[room];
  return one ? varietiesIn(problem, one) : [];
}

function varietiesIn({ products }: ReleaseProblem, { cartonsABin, earliest }: ProblemRoom): string[] {
  const week = cartonsABin[Math.max(0, earliest)] ?? [];
  return products.flatMap(({ variety }, product) => ((week[product] ?? 0) > 0 ? [variety] : []));
}

function samePackhouse(a: ReleaseProblem, b: ReleaseProblem): boolean {
  const packhouse = ({
    rooms: _rooms,
    products: _products,
    demands: _demands,
    opensBefore: _order,
    ...rest
  }: ReleaseProblem) => JSON.stringify(rest);
  return packhouse(a) === packhouse(b);
}

function differingDemand(a: ReleaseProblem, b: ReleaseProblem): string[] {
  const wanted = ({ demands, products }: ReleaseProblem) =>
    new Map(
      demands.map(({ product, from: _from, ...rest }) => {
        const variety = products[product]?.variety ?? '';
        return [
          rest.id,
          { variety, text: `${variety} ${products[product]?.packClass} ${JSON.stringify(rest)}` },
        ];
      }),
    );
  const [one, other] = [wanted(a), wanted(b)];
  return [...new Set([...one.keys(), ...other.keys()])].flatMap((id) => {
    const [x, y] = [one.get(id), other.get(id)];
    if (x?.text === y?.text) return [];
    return [x, y].flatMap((side) => (side ? [side.variety] : []));
  });
}

/** Where the room, its window and its cartons are the same; of which product a carton is has its own number in each. */
function sameRoom(a: ProblemRoom, b: ProblemRoom | undefined): boolean {
  return (
    b !== undefined &&
    a.bins === b.bins &&
    a.earliest === b.earliest &&
    a.latest === b.latest &&
    a.bestBefore === b.bestBefore &&
    a.pinned === b.pinned &&
    a.weeksToEmpty === b.weeksToEmpty &&
    sameNumbers(sums(a), sums(b))
  );
}

/** Cartons of a bin by week. */
function sums({ cartonsABin }: ProblemRoom): number[] {
  return cartonsABin.map((week) => week.reduce((sum, cartons) => sum + cartons, 0));
}

function sameNumbers(a: readonly number[], b: readonly number[]): boolean {
  return a.length === b.length && a.every((value, index) => Math.abs(value - (b[index] ?? 0)) < 1e-9);
}

function compareText(a = '', b = ''): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
