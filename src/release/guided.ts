import { anneal, Best } from './anneal';
import type { LikelyOpening } from './ascent';
import { placeBest } from './greedy';
import { packedIn } from './placing';
import { seededRandom } from './random';
import { reviseOpening } from './revise';
import type { Found, SearchHooks } from './search';
import { CLOSED, costOfNothing, SeasonState } from './season-state';
import { polishShares } from './shares';
import type { ReleaseProblem, SearchOptions } from './types';

/**
 * Cooler than a search from nothing, and the cooler the fewer moves there are: measured on made-up seasons of 60 rooms,
 * where the start is worth keeping and takes many moves to be left for a better one.
 */
const [HOT, HOT_AT_LEAST, COLD] = [0.06, 0.03, 0.006];
const MOVES_A_ROOM_FOR_HOT = 6000;

/**
 * Runs as long as this find more, one after the other, than a single one that is as long as all of them: measured on
 * seasons of 60 rooms. Where there are many rooms, one run has many places to go wrong and as many to go right.
 */
const MOVES_A_ROOM_AND_RUN = 2500;
const MOST_ROOMS_IN_RUNS = 100;

/** Weeks before and after the one a room should open in that are tried where the packhouse is full. */
const MOST_WEEKS_OFF = 6;
const MOST_ROUNDS = 6;

/**
 * Searches from the week each room opens in for the most part where a relaxation or prices decide. They see all rooms and
 * the packhouse at once, so this start lies where a search from nothing comes late, if at all. With moves enough it starts
 * again from openings drawn as likely as prices make them. Undefined where a pinned room does not find its place. The same seed and number of moves give the same.
 */
export function guidedSearch(
  problem: ReleaseProblem,
  unmet: readonly number[],
  openings: readonly LikelyOpening[],
  options: SearchOptions,
  hooks: SearchHooks = {},
): Found | undefined {
  const state = new SeasonState(problem);
  const rooms = problem.rooms.map((_, room) => room).filter((room) => !unmet.includes(room));
  if (rooms.length === 0) return undefined;
  const random = seededRandom(options.seed);
  const nothing = costOfNothing(problem);
  const runs = runsFor(options.moves, rooms.length);
  const moves = Math.floor(options.moves / runs);
  const warmth = Math.min(1, moves / (rooms.length * MOVES_A_ROOM_FOR_HOT));
  const cooling = { moves, hot: Math.max(HOT_AT_LEAST, HOT * warmth), cold: COLD, chains: true };
  let best: Best | undefined;
  for (let run = 0; run < runs; run++) {
    // The first run starts where rooms open for the most part, the others where chance would have it.
    const wanted = run === 0 ? openings : openings.map((one) => ({ ...one, share: one.share * random() }));
    if (!openAll(state, problem, unmet, wanted)) break;
    const its = new Best(state);
    const stopped = anneal(state, rooms, cooling, random, its, (share) => {
      hooks.onProgress?.((run + share) / runs, Math.max(its.value, best?.value ?? its.value) - nothing);
      return hooks.shouldStop?.() ?? false;
    });
    its.restore(state);
    for (let round = 0; round < MOST_ROUNDS && placeBest(state, rooms); round++);
    polishShares(state, rooms);
    its.note(state);
    if (!best || its.value > best.value) best = its;
    if (stopped) break;
  }
  if (!best) return undefined;
  best.restore(state);
  return { opens: state.opens.slice(), packed: packedIn(state) };
}

function runsFor(moves: number, rooms: number): number {
  if (rooms > MOST_ROOMS_IN_RUNS) return 1;
  return Math.max(1, Math.floor(moves / (MOVES_A_ROOM_AND_RUN * rooms)));
}

/** Opens every room in its likeliest week, or near to it, and no other; false where a pinned room does not find its place. */
function openAll(
  state: SeasonState,
  problem: ReleaseProblem,
  unmet: readonly number[],
  openings: readonly LikelyOpening[],
): boolean {
  state.load(state.opens.slice().fill(CLOSED), state.packed.slice().fill(0));
  for (const { room, week } of wantedWeeks(problem, openings)) {
    if (unmet.includes(room)) continue;
    const isPinned = problem.rooms[room]?.pinned !== null;
    if (!openNear(state, room, week, isPinned ? 0 : MOST_WEEKS_OFF) && isPinned) return false;
  }
  return true;
}

/** The likeliest week of each room; pinned rooms first, then those that are surest. */
function wantedWeeks(problem: ReleaseProblem, openings: readonly LikelyOpening[]): LikelyOpening[] {
  const wanted = new Map<number, LikelyOpening>();
  for (const opening of openings)
    if (opening.share > (wanted.get(opening.room)?.share ?? 0)) wanted.set(opening.room, opening);
  const pinned = ({ room }: LikelyOpening) => (problem.rooms[room]?.pinned === null ? 1 : 0);
  return [...wanted.values()].sort((a, b) => pinned(a) - pinned(b) || b.share - a.share || a.room - b.room);
}

function openNear(state: SeasonState, room: number, week: number, most: number): boolean {
  for (let off = 0; off <= most; off++) {
    if (reviseOpening(state, room, week + off) !== undefined) return true;
    if (off > 0 && reviseOpening(state, room, week - off) !== undefined) return true;
  }
  return false;
}
