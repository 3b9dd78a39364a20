import { type Random, seededRandom } from '../plan/random';
import { Choices, refill } from './refill';
import { FillState } from './state';
import type { FillOptions, FillProblem } from './types';

/** Rooms taken apart in a round: most often two or three. */
const ROOMS_APART = [1, 2, 2, 2, 3, 3, 3, 4, 5] as const;
/** Rounds after which is said how far the search is. */
const PROGRESS_STEP = 20;
/** How far a round may put a lot from where it costs least, in places of a room: a room's cost now and then. */
const BLURS = [0, 0, 0, 0, 0, 60, 60, 60, 60, 450] as const;
/** How often a round begins with the rooms of a lot that is split: with no bins left over, and with some. */
const [SPLIT_FIRST, SPLIT_WHILE_LEFT] = [0.3, 0.16];
/** What a round may be worse by, in places of a room: from the first round to the last. */
const [LOOSE, TIGHT] = [150, 2];
/** What a bin left over counts, first and last: were it dear from the start, no round could make room for a better. */
const [CHEAP, DEAR] = [4, 200];

/**
 * Looks for a good fill: lots placed in the order of picking, then rounds that take a few related rooms apart and fill
 * them again in another order; a round that is worse is taken back, unless by little and early on. Rounds are counted,
 * never time, so the same seed finds the same.
 */
export function searchFill(problem: FillProblem, options: FillOptions): FillState {
  const random = seededRandom(options.seed);
  const choices = new Choices(problem);
  const state = new FillState(problem);
  refill(state, choices, byPicking(problem, allLots(problem), random, 0), random, 0);
  const best = state.copy();
  const before = state.copy();
  let bestCost = state.cost;
  const cooling = (TIGHT / LOOSE) ** (1 / Math.max(1, options.moves));
  const rising = (DEAR / CHEAP) ** (1 / Math.max(1, options.moves));
  let [loose, unplaced] = [LOOSE, CHEAP];
  for (let move = 0; move < options.moves && problem.rooms.length > 0; move++) {
    if (move % PROGRESS_STEP === 0) options.onProgress?.(move / options.moves);
    before.become(state);
    const cost = state.costAt(unplaced);
    takeApart(state, random);
    const lots = allLots(problem).filter((lot) => (state.leftBins[lot] ?? 0) > 0);
    refill(state, choices, orderFor(problem, lots, random), random, pick(BLURS, random));
    if (state.costAt(unplaced) > cost - loose * Math.log(random() + 1e-12)) state.become(before);
    else if (state.cost < bestCost - 1e-9) {
      bestCost = state.cost;
      best.become(state);
    }
    loose *= cooling;
    unplaced *= rising;
  }
  return best;
}

function allLots({ lots }: FillProblem): number[] {
  return lots.map((_, lot) => lot);
}

function firstDay({ lots }: FillProblem, lot: number): number {
  return lots[lot]?.arrivals[0]?.day ?? 0;
}

/** By first picking day, put off by up to `days`; ties in the order of the lots. */
function byPicking(problem: FillProblem, lots: readonly number[], random: Random, days: number): number[] {
  const at = new Map(lots.map((lot) => [lot, firstDay(problem, lot) + days * random()]));
  return [...lots].sort((a, b) => (at.get(a) ?? 0) - (at.get(b) ?? 0) || a - b);
}

function orderFor(problem: FillProblem, lots: readonly number[], random: Random): number[] {
  const way = random();
  if (way < 0.6) return byPicking(problem, lots, random, way < 0.3 ? 1 : 6);
  const size = new Map(lots.map((lot) => [lot, (problem.lots[lot]?.bins ?? 0) * (0.7 + 0.6 * random())]));
  return [...lots].sort((a, b) => (size.get(b) ?? 0) - (size.get(a) ?? 0) || a - b);
}

/** Empties a room, a lot left over pointing to which, and the rooms filled at about the same time with like fruit. */
function takeApart(state: FillState, random: Random): void {
  const { problem } = state;
  const used = problem.rooms.map((_, room) => room).filter((room) => state.loads[room]);
  if (used.length === 0) return;
  const waiting = problem.lots.map((_, lot) => lot).filter((lot) => (state.leftBins[lot] ?? 0) > 0);
  const count = pick(ROOMS_APART, random);
  const lot = waiting.length > 0 && random() < 0.7 ? pick(waiting, random) : undefined;
  const seed = lot === undefined ? state.loads[pick(used, random)] : undefined;
  const day = seed?.firstDay ?? firstDay(problem, lot ?? 0);
  const likes = (regime: number) =>
    seed ? regime === seed.regime : problem.lots[lot ?? 0]?.keeps[regime] !== null;
  const distance = (room: number) => {
    const load = state.loads[room];
    if (!load || load === seed) return -1;
    return Math.abs(load.firstDay - day) + (likes(load.regime) ? 0 : 8) + 12 * random();
  };
  const split = state.roomsOf.flatMap((rooms, lot) => (rooms > 1 ? [lot] : []));
  if (split.length > 0 && random() < (waiting.length > 0 ? SPLIT_WHILE_LEFT : SPLIT_FIRST)) {
    takeSplitApart(state, used, pick(split, random), count, random);
    return;
  }
  const far = new Map(used.map((room) => [room, distance(room)]));
  const near = [...used].sort((a, b) => (far.get(a) ?? 0) - (far.get(b) ?? 0) || a - b);
  for (const room of near.slice(0, count)) state.empty(room);
}

/** Empties the rooms a split lot is in, and some filled at about the same time in their regime: it may become whole. */
function takeSplitApart(
  state: FillState,
  used: readonly number[],
  lot: number,
  count: number,
  random: Random,
): void {
  const mine = used.filter((room) => state.loads[room]?.parts.some((part) => part.lot === lot));
  const at = state.loads[mine[0] ?? -1];
  for (const room of mine) state.empty(room);
  const far = (room: number) =>
    Math.abs((state.loads[room]?.firstDay ?? 0) - (at?.firstDay ?? 0)) + 6 * random();
  const others = used
    .filter((room) => state.loads[room]?.regime === at?.regime)
    .map((room) => ({ room, far: far(room) }))
    .sort((a, b) => a.far - b.far || a.room - b.room);
  for (const { room } of others.slice(0, Math.max(0, count - mine.length))) state.empty(room);
}

function pick<T>(list: readonly T[], random: Random): T {
  return list[Math.floor(random() * list.length)] as T;
}
