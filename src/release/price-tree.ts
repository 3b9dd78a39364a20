import type { SharedPrices } from './shared-prices';

/**
 * Why a season cannot bring more than its bound: it is taken apart at prices of the packhouse and of open rooms, and each
 * part by cases that together leave nothing out, with prices of the places in demands for each.
 */
export interface PartsProof {
  readonly prices: SharedPrices;
  readonly parts: readonly PartProof[];
}

/** Some products and the rooms that give them; a room of several parts is as if it opened in each by itself. */
export interface PartProof {
  readonly products: readonly number[];
  readonly rooms: readonly PartRoom[];
  readonly tree: PriceTree;
}

/** What a room brings in the part before any sale: its risk, its changes and its place among open rooms, or a share of it. */
export interface PartRoom {
  readonly room: number;
  readonly closed: number;
  readonly weeks: readonly { readonly week: number; readonly brings: number }[];
}

export type PriceTree = PriceLeaf | PriceWeeks | PriceOpen;

export interface PriceLeaf {
  readonly kind: 'leaf';
  /** Prices of places in the part's demands, in the order of demands: of the n-th in week `t` at `n * weeks + t`. */
  readonly wanted: Float64Array;
}

/** Either the room does not open in `week` or later, or not before. */
export interface PriceWeeks {
  readonly kind: 'weeks';
  readonly room: number;
  readonly week: number;
  readonly before: PriceTree;
  readonly after: PriceTree;
}

/** Either the room stays closed, or it opens. */
export interface PriceOpen {
  readonly kind: 'open';
  readonly room: number;
  readonly closed: PriceTree;
  readonly opened: PriceTree;
}
