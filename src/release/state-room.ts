import { worthUnpacked } from './from-field';
import type { Market } from './market';
import { openingCost } from './opening-cost';
import type { ReleaseProblem } from './types';

/** A room as the inner loop of the search reads it. */
export interface StateRoom {
  readonly bins: number;
  readonly weeksToEmpty: number;
  /** Cost of opening in each week over leaving it closed. */
  readonly risk: Float64Array;
  readonly partners: readonly Partner[];
  /** Most bins in each week since opening, for fruit from the field. */
  readonly mostBins: readonly number[] | undefined;
  /** Money a bin brings that is not packed. */
  readonly worthUnpacked: number;
  /** Products the room gives at all, and the pools they are sold in, each once. */
  readonly products: Int32Array;
  readonly pools: Int32Array;
  /** Cartons a bin, `[week * products.length + index into products]`. */
  readonly cartons: Float64Array;
}

/** Another room that a room must open before, or after. */
interface Partner {
  readonly room: number;
  readonly isLater: boolean;
}

function partnersOf(problem: ReleaseProblem, room: number): Partner[] {
  const pairs = problem.opensBefore ?? [];
  return [
    ...pairs.filter(([first]) => first === room).map(([, later]) => ({ room: later, isLater: true })),
    ...pairs.filter(([, later]) => later === room).map(([first]) => ({ room: first, isLater: false })),
  ].filter((partner) => partner.room !== room);
}

export function stateRoom(problem: ReleaseProblem, index: number, market: Market): StateRoom {
  const room = problem.rooms[index];
  if (!room) throw new RangeError(`no room ${index}`);
  const given = problem.products.flatMap((_, product) =>
    room.cartonsABin.some((week) => (week[product] ?? 0) > 0) ? [product] : [],
  );
  const cartons = room.cartonsABin.flatMap((week) => given.map((product) => week[product] ?? 0));
  return {
    bins: room.bins,
    weeksToEmpty: room.weeksToEmpty,
    risk: Float64Array.from(room.riskCost, (_, week) => openingCost(room, week) - openingCost(room, null)),
    partners: partnersOf(problem, index),
    mostBins: room.fromField?.mostBins,
    worthUnpacked: worthUnpacked(problem, room),
    products: Int32Array.from(given),
    pools: Int32Array.from(new Set(given.map((product) => market.poolOf[product] ?? 0))),
    cartons: Float64Array.from(cartons),
  };
}
