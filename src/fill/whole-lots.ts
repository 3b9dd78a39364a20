import { type Random, seededRandom } from '../plan/random';
import { type LoadPart, loadOf, type RoomLoad } from './load';
import { Choices, refill } from './refill';
import type { FillState } from './state';
import type { FillProblem } from './types';
import { mostFillingDays, weights } from './weights';

/** Times over all rooms with lots that are not whole; each ends earlier where nothing gets better any more. */
const MOST_PASSES = 6;
/** Sets of whole lots that fill a room and are tried: most fail by the days on which they come. */
const MOST_SETS = 24;
/** Lots that a set is chosen from; those picked at the time of the room first. */
const MOST_LOTS = 26;
/** Other rooms that are filled anew with it, and sets of whole lots that are tried for it then. */
const [MOST_OTHERS, MOST_LOADS] = [6, 3];
/** Bins fewer than now that a set may have, where other rooms take them. */
const MOST_STEPS = 600;
/** What a room without broken lots is worth, so that one is cleared after the other. */
const CLEARED = 25;

/**
 * Makes broken lots whole: those in two rooms, and those of which bins are left over beside bins that have a room. A
 * room's lots are exchanged for a set of whole lots that has as many bins: of its own lots, of those left over, and of
 * one other room that shares a broken lot with it and is filled anew in the same way. No more bins are left over than
 * before. The state is changed.
 */
export function keepLotsWhole(state: FillState, seed: number): void {
  const random = seededRandom(seed);
  const choices = new Choices(state.problem);
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    let better = false;
    for (const room of brokenRooms(state)) {
      // Another room that was cleared may have left this one empty.
      if (!state.loads[room]) continue;
      const tried = cleared(state, choices, room, random);
      if (!tried) continue;
      state.become(tried);
      better = true;
    }
    if (!better) return;
  }
}

/** Pieces that lots are in beyond their first; what is left over of a lot that has a room is a piece too. */
export function brokenPieces(state: FillState): number {
  let pieces = 0;
  for (let lot = 0; lot < state.roomsOf.length; lot++) pieces += piecesOf(state, lot);
  return pieces;
}

function piecesOf({ problem, roomsOf, leftBins }: FillState, lot: number): number {
  const rooms = (roomsOf[lot] ?? 0) + ((problem.lots[lot]?.inFills ?? 0) > 0 ? 1 : 0);
  return rooms === 0 ? 0 : rooms - 1 + ((leftBins[lot] ?? 0) > 0 ? 1 : 0);
}

function brokenRooms(state: FillState): number[] {
  return state.loads.flatMap((load, room) =>
    load && !state.problem.rooms[room]?.held && load.parts.some(({ lot }) => piecesOf(state, lot) > 0)
      ? [room]
      : [],
  );
}

function isBetter(tried: FillState, state: FillState): boolean {
  const score = (one: FillState) =>
    one.cost -
    weights.split * splitsOf(one) +
    weights.split * brokenPieces(one) +
    CLEARED * brokenRooms(one).length;
  return brokenPieces(tried) <= brokenPieces(state) && score(tried) < score(state) - 1e-9;
}

function splitsOf({ problem, roomsOf }: FillState): number {
  return roomsOf.reduce(
    (sum, rooms, lot) => sum + Math.max(0, rooms - ((problem.lots[lot]?.inFills ?? 0) > 0 ? 0 : 1)),
    0,
  );
}

/** The room filled anew with whole lots: those left over, or also those of another room, which is then filled anew too. */
function cleared(found: FillState, choices: Choices, room: number, random: Random): FillState | undefined {
  const alone = refilled(found, choices, room, undefined, random);
  if (alone) return alone;
  for (const other of others(found, room, random)) {
    const both = refilled(found, choices, room, other, random);
    if (both) return both;
  }
  return undefined;
}

/** Rooms kept in the same regime: those that share a broken lot first, then those filled at about the same time. */
function others({ problem, loads }: FillState, room: number, random: Random): number[] {
  const mine = loads[room];
  const lots = new Set(mine?.parts.map(({ lot }) => lot));
  const far = (load: RoomLoad) =>
    Math.abs(load.firstDay - (mine?.firstDay ?? 0)) +
    3 * random() -
    (load.parts.some(({ lot }) => lots.has(lot)) ? 100 : 0);
  return loads
    .flatMap((load, other) =>
      load && other !== room && load.regime === mine?.regime && !problem.rooms[other]?.held
        ? [{ other, far: far(load) }]
        : [],
    )
    .sort((a, b) => a.far - b.far || a.other - b.other)
    .slice(0, MOST_OTHERS)
    .map(({ other }) => other);
}

/** The best of what comes of filling the room with a set of whole lots, and the other with what is there then. */
function refilled(
  found: FillState,
  choices: Choices,
  room: number,
  other: number | undefined,
  random: Random,
): FillState | undefined {
  const start = found.copy();
  start.empty(room);
  if (other !== undefined) start.empty(other);
  const was = found.loads[room] as RoomLoad;
  let best = found;
  for (const load of wholeLoads(start, room, was, other === undefined ? 1 : MOST_LOADS, random)) {
    const state = start.copy();
    state.set(room, load);
    if (other !== undefined) refillOther(state, choices, found, room, other, random);
    if (isBetter(state, best)) best = state;
  }
  return best === found ? undefined : best;
}

/** The other room with whole lots too, else with those that were in the two rooms, as they fit. */
function refillOther(
  state: FillState,
  choices: Choices,
  found: FillState,
  room: number,
  other: number,
  random: Random,
): void {
  const was = found.loads[other] as RoomLoad;
  const [whole] = wholeLoads(state, other, was, 1, random);
  if (whole) {
    state.set(other, whole);
    return;
  }
  const lots = [...was.parts, ...(found.loads[room]?.parts ?? [])]
    .map(({ lot }) => lot)
    .filter((lot, index, all) => all.indexOf(lot) === index && (state.leftBins[lot] ?? 0) > 0);
  lots.sort((a, b) => (state.leftBins[b] ?? 0) - (state.leftBins[a] ?? 0) || a - b);
  refill(state, choices, lots, random, 0);
}

/** The cheapest of the loads of whole lots that fill the room with as many bins as it had, or more. */
function wholeLoads(state: FillState, room: number, was: RoomLoad, most: number, random: Random): RoomLoad[] {
  const { problem } = state;
  const at = problem.rooms[room];
  if (!at) return [];
  const found: { readonly load: RoomLoad; readonly cost: number }[] = [];
  for (const set of setsOf(problem, lotsFor(state, was), was.bins, at.places, random)) {
    const load = loadOf(
      problem,
      at,
      was.regime,
      set.map((lot) => wholePart(problem, lot)),
    );
    if (!load) continue;
    const another = set.reduce((sum, lot) => sum + state.costOfAnotherRoom(room, lot), 0);
    found.push({ load, cost: load.cost + another - state.unplacedCost(load.bins) });
  }
  return found
    .sort((a, b) => a.cost - b.cost)
    .slice(0, most)
    .map(({ load }) => load);
}

function wholePart({ lots }: FillProblem, lot: number): LoadPart {
  const one = lots[lot];
  return { lot, bins: one?.bins ?? 0, byArrival: one?.arrivals.map(({ bins }) => bins) ?? [] };
}

/** Lots all of whose bins wait for a room, fit for the regime and picked at about the time the room is filled. */
function lotsFor(state: FillState, { regime, firstDay, parts }: RoomLoad): number[] {
  const mine = new Set(parts.map(({ lot }) => lot));
  const far = (lot: number) => Math.abs((state.problem.lots[lot]?.arrivals[0]?.day ?? 0) - firstDay - 3);
  return state.problem.lots
    .map((_, lot) => lot)
    .filter(
      (lot) =>
        state.leftBins[lot] === state.problem.lots[lot]?.bins &&
        state.problem.lots[lot]?.inFills === 0 &&
        state.problem.lots[lot]?.keeps[regime] &&
        far(lot) <= mostFillingDays,
    )
    .sort((a, b) => Number(mine.has(b)) - Number(mine.has(a)) || far(a) - far(b) || a - b)
    .slice(0, MOST_LOTS);
}

/** Sets of lots with `least` bins at least and `most` at most, those with most bins first; no more than are tried. */
function setsOf(
  { lots: all }: FillProblem,
  lots: readonly number[],
  least: number,
  most: number,
  random: Random,
): number[][] {
  const order = shuffled(lots, random);
  const bins = order.map((lot) => all[lot]?.bins ?? 0);
  const reach = reachable(bins, most);
  const sets: number[][] = [];
  let steps = 0;
  const walk = (index: number, left: number, chosen: readonly number[]): void => {
    if (sets.length >= MOST_SETS || steps++ > MOST_STEPS) return;
    if (left === 0) {
      sets.push([...chosen]);
      return;
    }
    if (!reach[index]?.[left]) return;
    const take = bins[index] ?? 0;
    const first = random() < 0.5;
    const withIt = () => {
      if (take <= left && (take === left || reach[index + 1]?.[left - take]))
        walk(index + 1, left - take, [...chosen, order[index] as number]);
    };
    if (first) withIt();
    walk(index + 1, left, chosen);
    if (!first) withIt();
  };
  for (let sum = most; sum >= least && sets.length < MOST_SETS; sum--) {
    steps = 0;
    if (reach[0]?.[sum]) walk(0, sum, []);
  }
  return sets;
}

/** By index and sum: whether some of the numbers from the index on add up to it. */
function reachable(bins: readonly number[], most: number): Uint8Array[] {
  const reach = Array.from({ length: bins.length + 1 }, () => new Uint8Array(most + 1));
  for (const row of reach) row[0] = 1;
  for (let index = bins.length - 1; index >= 0; index--) {
    const [row, next, take] = [reach[index] as Uint8Array, reach[index + 1] as Uint8Array, bins[index] ?? 0];
    for (let sum = 1; sum <= most; sum++) row[sum] = next[sum] || (sum >= take && next[sum - take]) ? 1 : 0;
  }
  return reach;
}

function shuffled(list: readonly number[], random: Random): number[] {
  const copy = [...list];
  for (let index = copy.length - 1; index > 0; index--) {
    const other = Math.floor(random() * (index + 1));
    [copy[index], copy[other]] = [copy[other] as number, copy[index] as number];
  }
  return copy;
}
