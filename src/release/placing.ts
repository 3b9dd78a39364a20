import { allShapes, sharesFor, weeksOf } from './greedy';
import { CLOSED, type Placement, type SeasonState, spreadBins } from './season-state';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/** A room opened in another week; `CLOSED` leaves it shut. */
export interface RoomMove {
  readonly room: number;
  readonly week: number;
}

const shapes = new Map<number, readonly (readonly number[])[]>();

/** Relative bins of each week for every way to spread a room over so many; made once. */
export function shapesOf(count: number): readonly (readonly number[])[] {
  const known = shapes.get(count);
  if (known) return known;
  const made = allShapes(count);
  shapes.set(count, made);
  return made;
}

/** Takes a schedule's rooms into an empty state, the first to open first, as far as the packhouse can run them. */
export function takeSchedule(state: SeasonState, { opens, packed }: ReleaseSchedule): void {
  const rooms = opens.flatMap((week, room) => (week === null ? [] : [{ room, week }]));
  rooms.sort((a, b) => a.week - b.week || a.room - b.room);
  for (const { room, week } of rooms) {
    const bins = new Float64Array(state.span);
    const weights = Array.from(bins, (_, since) => packed[room]?.[week + since] ?? 0);
    spreadBins(state, room, weights, week, bins, sharePacked(state, room, weights));
    const placement = { room, week, bins };
    state.commit([placement], state.try([placement]));
  }
}

function sharePacked({ problem }: SeasonState, room: number, bins: readonly number[]): number {
  const all = problem.rooms[room]?.bins ?? 0;
  return all > 0 ? Math.min(1, bins.reduce((sum, one) => sum + one, 0) / all) : 0;
}

/**
 * The best spread of a room over the weeks from its new one, and what it changes; undefined where it may not open then
 * or, with `whole`, where its bins do not fit. The room must be lifted.
 */
export function bestPlacement(
  state: SeasonState,
  { room, week }: RoomMove,
  whole: boolean,
): { readonly placement: Placement; readonly change: number } | undefined {
  if (week === CLOSED) {
    const placement = { room, week, bins: new Float64Array(state.span) };
    return { placement, change: state.try([placement]) };
  }
  const weeks = weeksOf(state, room);
  if (!weeks || week < weeks.first || week > weeks.last || !state.mayOpen(room, week)) return undefined;
  let best: { placement: Placement; change: number } | undefined;
  for (const share of sharesFor(state, room)) {
    for (const weights of shapesOf(state.emptyingWeeks(room, week))) {
      const bins = new Float64Array(state.span);
      const fits = spreadBins(state, room, weights, week, bins, share);
      if (whole && !fits) continue;
      const placement = { room, week, bins };
      const change = state.try([placement]);
      if (!best || change > best.change) best = { placement, change };
    }
  }
  return best;
}

/**
 * Makes the moves, all rooms lifted first so that two can change places: the change of value; undefined, with the state
 * as it was, where one cannot be made.
 */
export function makeMoves(state: SeasonState, moves: readonly RoomMove[]): number | undefined {
  const [opens, packed] = [state.opens.slice(), state.packed.slice()];
  let sum = 0;
  for (const { room } of moves) state.lift(room);
  for (const move of moves) {
    const found = bestPlacement(state, move, true);
    if (!found) {
      state.load(opens, packed);
      return undefined;
    }
    state.commit([found.placement], state.try([found.placement]));
    sum += found.change;
  }
  return sum;
}

/** Bins packed by week, `[room][week]`, as a state has them. */
export function packedIn(state: SeasonState): number[][] {
  const { weeks, rooms } = state.problem;
  return rooms.map((_, room) => {
    const row = new Array<number>(weeks).fill(0);
    const week = state.opens[room] as number;
    if (week === CLOSED) return row;
    for (let since = 0; since < state.emptyingWeeks(room, week); since++)
      row[week + since] = state.packed[room * state.span + since] ?? 0;
    return row;
  });
}

/** The rooms that a schedule may move: those neither pinned nor left out for a conflict. */
export function movable(problem: ReleaseProblem, unmet: readonly number[]): number[] {
  return problem.rooms
    .map((room, at) => ({ at, fill: room.fill, free: room.pinned === null && room.earliest <= room.latest }))
    .filter(({ at, free }) => free && !unmet.includes(at))
    .sort((a, b) => (a.fill < b.fill ? -1 : a.fill > b.fill ? 1 : a.at - b.at))
    .map(({ at }) => at);
}
