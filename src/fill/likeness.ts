import type { FreeRoom, LotToPlace } from './types';
import { likeWeeks, weights } from './weights';

/** How like one another the lots of a room are, as far as it has a cost. Never changed in place. */
export interface Likeness {
  /** That the regime is not the best for them. */
  readonly keepingCost: number;
  readonly soonest: number;
  readonly last: number;
  readonly longestTerm: number;
  readonly shortestTerm: number;
  readonly growers: readonly string[];
  /** A grower among them shares the room with no other. */
  readonly apart: boolean;
}

const NONE: Likeness = {
  keepingCost: 0,
  soonest: Number.POSITIVE_INFINITY,
  last: Number.NEGATIVE_INFINITY,
  longestTerm: Number.POSITIVE_INFINITY,
  shortestTerm: Number.NEGATIVE_INFINITY,
  growers: [],
  apart: false,
};

/** Of what a room has begun with; of nothing in an empty one. */
export function likenessOf({ held }: FreeRoom): Likeness {
  if (!held) return NONE;
  return {
    keepingCost: 0,
    soonest: Math.min(...held.latest),
    last: Math.max(...held.latest),
    longestTerm: Math.min(...held.terms),
    shortestTerm: Math.max(...held.terms),
    growers: held.growers,
    apart: held.apart,
  };
}

/** With so many more bins of a lot; undefined where its grower may not share the room, or the regime is not for it. */
export function withLotIn(
  before: Likeness,
  lot: LotToPlace,
  regime: number,
  bins: number,
): Likeness | undefined {
  const keeps = lot.keeps[regime];
  if (!keeps || !mayJoin(before, lot)) return undefined;
  const { term, grower } = lot;
  return {
    keepingCost: before.keepingCost + bins * keeps.costABin,
    soonest: Math.min(before.soonest, keeps.latest),
    last: Math.max(before.last, keeps.latest),
    longestTerm: term === null ? before.longestTerm : Math.min(before.longestTerm, term),
    shortestTerm: term === null ? before.shortestTerm : Math.max(before.shortestTerm, term),
    growers: before.growers.includes(grower) ? before.growers : [...before.growers, grower],
    apart: before.apart || lot.apart,
  };
}

/** A grower kept apart shares with none; others do not join one who is. */
export function mayJoin(
  { growers, apart }: Pick<Likeness, 'growers' | 'apart'>,
  lot: Pick<LotToPlace, 'grower' | 'apart'>,
): boolean {
  return !(apart || lot.apart) || growers.every((grower) => grower === lot.grower);
}

/** What it costs that lots of a room are not alike; of one that has begun, only what is added to it. */
export function unlikeCost(likeness: Likeness, room: FreeRoom): number {
  const before = room.held ? spreadCost(likenessOf(room), room) : 0;
  return likeness.keepingCost + spreadCost(likeness, room) - before;
}

function spreadCost(likeness: Likeness, { places }: FreeRoom): number {
  const { growers, longestTerm, shortestTerm, soonest, last } = likeness;
  return (
    weights.grower * growers.length +
    weights.termStep * places * Math.max(0, shortestTerm - longestTerm) +
    weights.weekApart * places * Math.max(0, last - soonest - likeWeeks)
  );
}
