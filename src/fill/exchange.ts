import { Choices, refill } from './refill';
import type { FillState } from './state';

/** Times over all rooms with empty places; each ends earlier where nothing gets better any more. */
const MOST_PASSES = 3;
/** Rooms that are emptied for it, those filled at about its time first, and smaller ones tried for each, next in size first. */
const [MOST_LARGER, MOST_SMALLER] = [6, 24];

/**
 * Where bins are left over although a room has places for more, of fruit of which there is no more: its fruit goes into
 * a smaller room, and that one's fruit, with bins left over, into the larger. A search seldom meets this by itself, for
 * two rooms of fruit of other kinds and days have to change at once. The state is changed, never for the worse.
 */
export function exchangeRooms(state: FillState): void {
  const choices = new Choices(state.problem);
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    let better = false;
    for (const room of withEmptyPlaces(state)) {
      const best = bestExchange(state, choices, room);
      if (!best) continue;
      state.become(best);
      better = true;
    }
    if (!better) return;
  }
}

/** Rooms with empty places while bins are left over, those with most first. */
function withEmptyPlaces(state: FillState): number[] {
  const { problem, loads, leftBins } = state;
  if (leftBins.every((bins) => bins === 0)) return [];
  const empty = loads.map((_, room) => emptyIn(state, room));
  return loads
    .flatMap((load, room) => (load && !problem.rooms[room]?.held && (empty[room] ?? 0) > 0 ? [room] : []))
    .sort((a, b) => (empty[b] ?? 0) - (empty[a] ?? 0) || a - b);
}

function emptyIn({ problem, loads }: FillState, room: number): number {
  return (problem.rooms[room]?.places ?? 0) - (loads[room]?.bins ?? 0);
}

function bestExchange(state: FillState, choices: Choices, room: number): FillState | undefined {
  let best: FillState | undefined;
  for (const larger of likeIt(state, room))
    for (const smaller of smallerThan(state, larger)) {
      const tried = exchanged(state, choices, larger, smaller);
      if (tried.cost < (best ?? state).cost - 1e-9) best = tried;
    }
  return best;
}

/** The room, and those in its regime filled at about its time: what they cannot hold any more may go into it. */
function likeIt({ problem, loads }: FillState, room: number): number[] {
  const at = loads[room];
  const apart = (other: number) => Math.abs((loads[other]?.firstDay ?? 0) - (at?.firstDay ?? 0));
  return loads
    .flatMap((load, other) =>
      load && load.regime === at?.regime && !problem.rooms[other]?.held ? [other] : [],
    )
    .filter((other) => apart(other) <= problem.mostFillingDays)
    .sort((a, b) => Number(b === room) - Number(a === room) || apart(a) - apart(b) || a - b)
    .slice(0, MOST_LARGER);
}

/** Other used rooms with fewer places than a room, those with most first. */
function smallerThan({ problem, loads }: FillState, room: number): number[] {
  const places = (index: number) => problem.rooms[index]?.places ?? 0;
  return loads
    .flatMap((load, index) =>
      load && !problem.rooms[index]?.held && places(index) < places(room) ? [index] : [],
    )
    .sort((a, b) => places(b) - places(a) || a - b)
    .slice(0, MOST_SMALLER);
}

function exchanged(found: FillState, choices: Choices, larger: number, smaller: number): FillState {
  const state = found.copy();
  const [mine, theirs] = [lotsIn(found, larger), lotsIn(found, smaller)];
  state.empty(larger);
  state.empty(smaller);
  const put = (lots: readonly number[], mayGo: (room: number) => boolean) =>
    refill(state, choices, lots, () => 0, 0, mayGo);
  put(mine, (room) => room === smaller);
  put(mine, (room) => room !== larger);
  put(theirs, (room) => room === larger);
  const left = state.leftBins.flatMap((bins, lot) => (bins > 0 ? [lot] : []));
  left.sort((a, b) => (state.leftBins[b] ?? 0) - (state.leftBins[a] ?? 0) || a - b);
  put(left, (room) => room === larger);
  put(left, () => true);
  return state;
}

/** The lots of a room, those with most bins first. */
function lotsIn({ loads }: FillState, room: number): number[] {
  const parts = [...(loads[room]?.parts ?? [])];
  return parts.sort((a, b) => b.bins - a.bins || a.lot - b.lot).map(({ lot }) => lot);
}
