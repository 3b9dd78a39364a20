import { allowedAt, pinAloneForbids } from './breaches';
import { LEAST_CARTONS } from './least-cartons';
import { neverOpens } from './openable';
import { PairCures } from './pair-cures';
import { cartonsGained, type PinCure, type RoomCure, type Shortage } from './room-cure';
import { sourcesOf } from './sources';
import type { Standing, WhatIf } from './standing';
import type { ProblemRoom } from './types';

/** What would cure a demand's shortage in a week. */
export interface Cure {
  readonly demand: number;
  readonly week: number;
  /** Cartons short. */
  readonly short: number;
  /**
   * Cartons that stay short in the week after the better of move and packing, every pin kept: what a smaller order would
   * still have to be smaller by.
   */
  readonly left: number;
  /**
   * The room whose move costs least for each carton, with a second one where none helps alone; absent where no move
   * was found that helps and breaks nothing.
   */
  readonly move?: RoomCure;
  /**
   * A pinned room that would cure more of it, or the same for less, in a week that only its pin forbids, or its pin and
   * another room that moves with it, let go of its pin too where it has one; absent where no pin stands in the way.
   */
  readonly unpin?: PinCure;
  /** More bins run in a week while a room stands open that is packed later now. */
  readonly packing?: { readonly week: number; readonly bins: number; readonly cartons: number };
  /** No room that may be opened in reach of the week gives the product at all. */
  readonly nothingInReach: boolean;
}

type Try = (room: number, week: number) => WhatIf | undefined;

interface Placed {
  readonly room: number;
  readonly week: number;
}

/** Moves worked out in full where a rough look finds none that helps. */
const MOVES_WORKED_OUT = 3;
/** A move that makes a shortage smaller by a smaller share than this cures nothing. */
const LEAST_SHARE = 0.05;
/** Less money than this is none. */
const LEAST_MONEY = 0.5;
/** A closed room is farther away than any week. */
const MANY_WEEKS = 1000;

/**
 * Cures for every demand and week that the schedule leaves short, or those of them that are asked about. No room is let go
 * of its pin to open before `from`.
 */
export function curesOf(
  standing: Standing,
  whatIf: Try,
  asked: (demand: number, week: number) => boolean = () => true,
  from = 0,
): Cure[] {
  const rough = remembered((room, week) => standing.whatIf(room, week, true), standing.problem.weeks);
  const { problem, schedule } = standing;
  const pairs = new PairCures(standing);
  const pinPairs = new PairCures(standing, 'let go');
  const allowed = problem.rooms.map((_, room) => allowedAt(standing, room));
  const canOpen = problem.rooms.map((one) => one.fromField !== undefined || !neverOpens(problem, one));
  return problem.demands.flatMap((demand, index) =>
    demand.cartons.flatMap((wanted, week) => {
      const short = wanted - (schedule.sold[index]?.[week] ?? 0);
      if (short < LEAST_CARTONS || !asked(index, week)) return [];
      const products = productsFor(standing, index, week);
      const reach = reaching(standing, products, week).filter(({ room }) => canOpen[room]);
      const all = reach.flatMap(({ room, weeks }) => weeks.map((at) => ({ room, week: at })));
      const moves = all.filter((one) => allowed[one.room]?.includes(one.week));
      const shortage = { demand: index, week, least: Math.max(LEAST_CARTONS, LEAST_SHARE * short) };
      const move = bestMove(standing, shortage, moves, rough, whatIf) ?? pairs.best(shortage, all);
      const packing = morePacking(standing, products, week, short);
      const cured = Math.max(move?.inWeek ?? 0, packing?.cartons ?? 0);
      const left = short - cured < LEAST_CARTONS ? 0 : short - cured;
      const held = all.filter((one) => one.week >= from && pinAloneForbids(standing, one.room, one.week));
      const unpin =
        bestMove(standing, shortage, held, rough, whatIf, mostMet) ??
        pinnedFirst(standing, cured < short - LEAST_CARTONS ? pinPairs.best(shortage, all) : undefined);
      return [
        {
          demand: index,
          week,
          short,
          left,
          ...(move && { move }),
          ...(packing && { packing }),
          ...(unpin && isWorthAPin(unpin, cured, move) && { unpin: staysShort(standing, index, unpin) }),
          nothingInReach: reach.length === 0,
        },
      ];
    }),
  );
}

/** Products that may be sold to the demand in the week. */
function productsFor({ problem }: Standing, demand: number, week: number): number[] {
  const one = problem.demands[demand];
  if (!one) return [];
  return sourcesOf(problem, one).flatMap(({ product, until }) => (week <= until ? [product] : []));
}

/** Cartons of the products that a bin of the room gives in the week. */
function cartonsABin(room: ProblemRoom, products: readonly number[], week: number): number {
  return products.reduce((sum, product) => sum + (room.cartonsABin[week]?.[product] ?? 0), 0);
}

/** Rooms that give the products, and the weeks of their windows from which cartons reach the week. */
function reaching({ problem, schedule }: Standing, products: readonly number[], week: number) {
  return problem.rooms.flatMap((one, room) => {
    if (!one.cartonsABin.some((_, at) => cartonsABin(one, products, at) > 0)) return [];
    const first = Math.max(one.earliest, week - problem.packedWaitWeeks - one.weeksToEmpty + 1);
    const last = Math.min(one.latest, week);
    const weeks: number[] = [];
    if (!one.fromField)
      for (let at = first; at <= last; at++) if (schedule.opens[room] !== at) weeks.push(at);
    return first <= last ? [{ room, weeks }] : [];
  });
}

function roomCure(
  standing: Standing,
  shortage: Shortage,
  { room, week }: Placed,
  whatIf: Try,
): RoomCure | undefined {
  const found = whatIf(room, week);
  const gained = found && cartonsGained(standing, shortage, found.sold);
  return gained ? { room, week, cost: found.cost, ...gained } : undefined;
}

/** The move that looks best is worked out; where none looks like helping, the smallest moves are. */
function bestMove(
  standing: Standing,
  shortage: Shortage,
  moves: readonly Placed[],
  rough: Try,
  exact: Try,
  best = cheapest,
): RoomCure | undefined {
  const likely = best(moves.flatMap((one) => roomCure(standing, shortage, one, rough) ?? []));
  if (likely) return roomCure(standing, shortage, likely, exact) ?? likely;
  const far = ({ room, week }: Placed) => Math.abs(week - (standing.schedule.opens[room] ?? -MANY_WEEKS));
  const smallest = [...moves].sort((a, b) => far(a) - far(b) || a.room - b.room).slice(0, MOVES_WORKED_OUT);
  return best(smallest.flatMap((one) => roomCure(standing, shortage, one, exact) ?? []));
}

/** The same answers, each found once. */
export function remembered<T>(
  find: (room: number, week: number) => T,
  weeks: number,
): (room: number, week: number) => T {
  const found = new Map<number, T>();
  return (room, week) => {
    const key = room * weeks + week;
    const known = found.get(key);
    if (known !== undefined || found.has(key)) return known as T;
    const one = find(room, week);
    found.set(key, one);
    return one;
  };
}

function cheapest(cures: readonly RoomCure[]): RoomCure | undefined {
  const aCarton = (cure: RoomCure) => cure.cost / cure.cartons;
  return [...cures].sort((a, b) => aCarton(a) - aCarton(b) || b.cartons - a.cartons || a.room - b.room)[0];
}

/** A pin is let go of once: for the week that meets most of the demand, and of these the one that costs least. */
function mostMet(cures: readonly RoomCure[]): RoomCure | undefined {
  const met = (cure: RoomCure) => Math.round(cure.cartons);
  return [...cures].sort(
    (a, b) => met(b) - met(a) || a.cost - b.cost || a.room - b.room || a.week - b.week,
  )[0];
}

/** Of two rooms moved together the one that is pinned first. */
function pinnedFirst({ problem }: Standing, pair: RoomCure | undefined): RoomCure | undefined {
  if (!pair?.also || problem.rooms[pair.room]?.pinned !== null) return pair;
  const { room, week } = pair;
  return { ...pair, ...pair.also, also: { room, week } };
}

/** A pin is a promise: letting go of it must meet more than what keeps it, or as much for less than a move costs. */
function isWorthAPin(unpin: RoomCure, cured: number, move: RoomCure | undefined): boolean {
  if (unpin.inWeek >= cured + LEAST_CARTONS) return true;
  if (!move || move.cost < LEAST_MONEY) return false;
  return unpin.inWeek > cured - LEAST_CARTONS && unpin.cost < move.cost - LEAST_MONEY;
}

/** The cure with what the demand stays short of in the season, the room opened so. */
function staysShort({ problem, sold }: Standing, demand: number, cure: RoomCure): PinCure {
  const wanted = sum(problem.demands[demand]?.cartons);
  const left = wanted - sum(sold[demand]) - cure.cartons;
  return { ...cure, staysShort: left < LEAST_CARTONS ? 0 : left };
}

/**
 * Where a room standing open is packed later than the shortage allows because the packhouse is full: the bins more
 * that it would have to run, and the cartons they give.
 */
function morePacking(
  { problem, schedule, free }: Standing,
  products: readonly number[],
  week: number,
  short: number,
) {
  for (let at = week; at >= Math.max(0, week - problem.packedWaitWeeks); at--) {
    if ((free[at] ?? 0) > 1e-6 * Math.max(1, problem.packingBins[at] ?? 0)) continue;
    for (const [room, one] of problem.rooms.entries()) {
      const opens = schedule.opens[room] ?? null;
      const aBin = cartonsABin(one, products, at);
      if (opens === null || opens > at || aBin <= 0) continue;
      const later = sum(schedule.packed[room]?.slice(week + 1));
      const bins = Math.min(later, short / aBin);
      if (bins * aBin >= LEAST_CARTONS) return { week: at, bins, cartons: bins * aBin };
    }
  }
  return undefined;
}

function sum(values: ArrayLike<number> | undefined): number {
  let total = 0;
  for (let index = 0; index < (values?.length ?? 0); index++) total += values?.[index] ?? 0;
  return total;
}
