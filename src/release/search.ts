import { finish, type Steps } from '../plan/steps';
import { annealSteps, Best } from './anneal';
import { greedyOrder, placeBestSteps } from './greedy';
import { packPinned, pinnedRooms } from './pins';
import { packedIn } from './placing';
import { seededRandom } from './random';
import { costOfNothing, type Placement, SeasonState } from './season-state';
import { polishSharesSteps } from './shares';
import type { ReleaseProblem, SearchOptions } from './types';

/** Opening weeks and bins as the search leaves them. */
export interface Found {
  /** Opening week of each room, -1 where it stays closed. */
  readonly opens: Int32Array;
  /** Bins packed: `packed[room][week]`. */
  readonly packed: readonly (readonly number[])[];
}

export interface SearchHooks {
  /** Called now and then with the share of moves made and the best value so far. */
  readonly onProgress?: ((share: number, value: number) => void) | undefined;
  readonly shouldStop?: (() => boolean) | undefined;
}

/** A cooling run shorter than this finds less than a longer one; longer ones are better split in two. */
const MOVES_A_ROOM_AND_RUN = 8000;
const MOST_RUNS = 12;

/**
 * Temperatures as shares of the mean gain of a room: measured on made-up seasons of 60 rooms. Hotter or colder by half
 * changes little; much colder at the start loses one or two per cent.
 */
const [HOT, COLD] = [0.1, 0.006];

/** Rounds over all rooms in which each takes its best week, at the end of a run. */
const MOST_ROUNDS = 6;

/**
 * Looks for good opening weeks: each room placed where it brings most, then simulated annealing that moves a room,
 * swaps two, spreads one differently or leaves one closed, then the split of each room over its weeks polished. Weeks
 * are what it finds; sales follow by rule. Without moves the rooms are placed and that is all. Moves are counted, never time, so the same seed finds the same.
 */
export function searchSchedule(
  problem: ReleaseProblem,
  unmet: readonly number[],
  options: SearchOptions,
  hooks: SearchHooks = {},
): Found {
  return finish(searchSteps(problem, unmet, options, hooks));
}

/** The same in steps. */
export function* searchSteps(
  problem: ReleaseProblem,
  unmet: readonly number[],
  options: SearchOptions,
  hooks: SearchHooks = {},
): Steps<Found> {
  const state = new SeasonState(problem);
  const random = seededRandom(options.seed);
  const rooms = problem.rooms.map((_, room) => room).filter((room) => !unmet.includes(room));
  placePinned(state, problem, rooms);
  yield* placeBestSteps(state, greedyOrder(state, rooms));
  const best = new Best(state);
  const nothing = costOfNothing(problem);
  const runs = options.moves < 1 ? 0 : runsFor(options.moves, rooms.length);
  const moves = Math.floor(options.moves / runs);
  for (let run = 0; run < runs && rooms.length > 0; run++) {
    const cooling = { moves, hot: HOT, cold: COLD };
    const stopped = yield* annealSteps(state, rooms, cooling, random, best, (share) => {
      hooks.onProgress?.((run + share) / runs, best.value - nothing);
      return hooks.shouldStop?.() ?? false;
    });
    best.restore(state);
    let round = 0;
    while (round < MOST_ROUNDS && (yield* placeBestSteps(state, rooms)) && !stopped) round++;
    yield* polishSharesSteps(state, rooms);
    best.note(state);
    if (stopped) break;
  }
  best.restore(state);
  return { opens: state.opens.slice(), packed: packedIn(state) };
}

function runsFor(moves: number, rooms: number): number {
  return Math.max(1, Math.min(MOST_RUNS, Math.floor(moves / (MOVES_A_ROOM_AND_RUN * Math.max(1, rooms)))));
}

function placePinned(state: SeasonState, problem: ReleaseProblem, rooms: readonly number[]): void {
  const pinned = pinnedRooms(problem).filter(({ room }) => rooms.includes(room));
  const bins = packPinned(problem, pinned);
  if (!bins) throw new RangeError('pinned rooms collide: conflicts must be left out before the search');
  const placements: Placement[] = pinned.map(({ room, week }) => {
    const row = new Float64Array(state.span);
    row.set(bins.get(room)?.subarray(week, week + state.emptyingWeeks(room, week)) ?? []);
    return { room, week, bins: row };
  });
  state.commit(placements, state.try(placements));
}
