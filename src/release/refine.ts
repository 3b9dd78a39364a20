import { anneal, Best } from './anneal';
import { placeBest } from './greedy';
import { packedIn } from './placing';
import { seededRandom } from './random';
import type { Found, SearchHooks } from './search';
import { CLOSED, costOfNothing, SeasonState } from './season-state';
import { polishShares } from './shares';
import type { ReleaseProblem, SearchOptions } from './types';

/**
 * Moves of a room in a run. On made-up seasons of 60 rooms, after a search as long, runs of this length from the best
 * schedule so far find more than as many moves from the start, or in shorter runs.
 */
export const MOVES_A_ROOM_AND_RUN = 6000;

/** Warm enough to leave the schedule for a better one near it, not to lose it: measured on the same seasons. */
const [HOT, COLD] = [0.02, 0.004];

/** Rounds over all rooms in which each takes its best week, at the end of a run. */
const MOST_ROUNDS = 6;

/**
 * Looks for a better schedule around one that was found: warms it and lets it cool, as often as the moves allow, each time
 * from the best so far. Never worth less than what it begins with. The same seed and number of moves find the same.
 */
export function refinedSearch(
  problem: ReleaseProblem,
  unmet: readonly number[],
  from: Found,
  { seed, moves }: SearchOptions,
  hooks: SearchHooks = {},
): Found {
  const state = new SeasonState(problem);
  loadFound(state, from);
  const rooms = problem.rooms.map((_, room) => room).filter((room) => !unmet.includes(room));
  const random = seededRandom(seed);
  const best = new Best(state);
  const nothing = costOfNothing(problem);
  const runs = Math.max(1, Math.round(moves / (MOVES_A_ROOM_AND_RUN * Math.max(1, rooms.length))));
  const cooling = { moves: Math.floor(moves / runs), hot: HOT, cold: COLD, chains: true };
  for (let run = 0; run < runs && rooms.length > 0; run++) {
    best.restore(state);
    const stopped = anneal(state, rooms, cooling, random, best, (share) => {
      hooks.onProgress?.((run + share) / runs, best.value - nothing);
      return hooks.shouldStop?.() ?? false;
    });
    best.restore(state);
    for (let round = 0; round < MOST_ROUNDS && !stopped && placeBest(state, rooms); round++);
    polishShares(state, rooms);
    best.note(state);
    if (stopped) break;
  }
  best.restore(state);
  return { opens: state.opens.slice(), packed: packedIn(state) };
}

function loadFound(state: SeasonState, { opens, packed }: Found): void {
  const bins = new Float64Array(opens.length * state.span);
  opens.forEach((week, room) => {
    if (week === CLOSED) return;
    for (let since = 0; since < state.emptyingWeeks(room, week); since++)
      bins[room * state.span + since] = packed[room]?.[week + since] ?? 0;
  });
  state.load(opens, bins);
}
