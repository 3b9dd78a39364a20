import { anneal, Best } from './anneal';
import { placeBest } from './greedy';
import type { ReleaseModel } from './model';
import { packedIn } from './placing';
import { seededRandom } from './random';
import { reviseOpening } from './revise';
import type { Found, SearchHooks } from './search';
import { costOfNothing, SeasonState } from './season-state';
import { polishShares } from './shares';
import type { ReleaseProblem, SearchOptions } from './types';

/** Cooler than a search from nothing: measured on made-up seasons of 60 rooms, where the start is worth keeping. */
const [HOT, COLD] = [0.06, 0.006];

/** Weeks before and after the one a room should open in that are tried where the packhouse is full. */
const MOST_WEEKS_OFF = 6;
const MOST_ROUNDS = 6;

/**
 * Searches from where the relaxation opens each room for the most part. The relaxation sees all rooms and the packhouse
 * at once, so this start lies where a search from nothing comes late, if at all. Undefined where a pinned room does not
 * find its place. The same seed and number of moves give the same.
 */
export function guidedSearch(
  problem: ReleaseProblem,
  unmet: readonly number[],
  model: ReleaseModel,
  columns: ArrayLike<number>,
  options: SearchOptions,
  hooks: SearchHooks = {},
): Found | undefined {
  const state = new SeasonState(problem);
  const rooms = problem.rooms.map((_, room) => room).filter((room) => !unmet.includes(room));
  if (rooms.length === 0) return undefined;
  for (const { room, week } of wantedWeeks(problem, model, columns)) {
    if (unmet.includes(room)) continue;
    const isPinned = problem.rooms[room]?.pinned !== null;
    if (!openNear(state, room, week, isPinned ? 0 : MOST_WEEKS_OFF) && isPinned) return undefined;
  }
  const best = new Best(state);
  const nothing = costOfNothing(problem);
  const cooling = { moves: options.moves, hot: HOT, cold: COLD };
  anneal(state, rooms, cooling, seededRandom(options.seed), best, (share) => {
    hooks.onProgress?.(share, best.value - nothing);
    return hooks.shouldStop?.() ?? false;
  });
  best.restore(state);
  for (let round = 0; round < MOST_ROUNDS && placeBest(state, rooms); round++);
  polishShares(state, rooms);
  best.note(state);
  best.restore(state);
  return { opens: state.opens.slice(), packed: packedIn(state) };
}

interface Wanted {
  readonly room: number;
  readonly week: number;
  readonly share: number;
}

/** The week in which the relaxation opens most of each room; pinned rooms first, then those it is surest of. */
function wantedWeeks(problem: ReleaseProblem, model: ReleaseModel, columns: ArrayLike<number>): Wanted[] {
  const wanted = new Map<number, Wanted>();
  for (const { room, week, column } of model.openings) {
    const share = columns[column] ?? 0;
    if (share > (wanted.get(room)?.share ?? 0)) wanted.set(room, { room, week, share });
  }
  const pinned = ({ room }: Wanted) => (problem.rooms[room]?.pinned === null ? 1 : 0);
  return [...wanted.values()].sort((a, b) => pinned(a) - pinned(b) || b.share - a.share || a.room - b.room);
}

function openNear(state: SeasonState, room: number, week: number, most: number): boolean {
  for (let off = 0; off <= most; off++) {
    if (reviseOpening(state, room, week + off) !== undefined) return true;
    if (off > 0 && reviseOpening(state, room, week - off) !== undefined) return true;
  }
  return false;
}
