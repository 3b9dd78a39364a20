import { compute, countedFigure, type Figure } from '../plan/figure';
import type { Fill, Plan } from '../plan/model';
import { roomCapacity } from '../room/capacity';

/**
 * The plan with no more bins in a fill than its room has places; what has none stays with its lot, in no fill, and goes
 * where the plan's own rules have it go: packed at harvest, or left over. A fill that had too many in the plan before
 * keeps as many as it had, and one whose room's places are not known keeps all.
 */
export function withinPlaces(plan: Plan, before: Plan): Plan {
  const fills = new Map(
    [...plan.fills].map(([id, fill]) => {
      const most = Math.max(placesOf(plan, fill), binsIn(before.fills.get(id)));
      return [id, binsIn(fill) > most ? withMost(fill, most) : fill] as const;
    }),
  );
  return { ...plan, fills };
}

function placesOf(plan: Plan, { room }: Fill): number {
  const itsRoom = room && plan.rooms.get(room.value);
  const binType = itsRoom?.binType && plan.binTypes.get(itsRoom.binType.value);
  const places = itsRoom && roomCapacity(itsRoom, binType).places?.value;
  return places === undefined ? Number.POSITIVE_INFINITY : Math.floor(places);
}

function binsIn(fill: Fill | undefined): number {
  return (fill?.lots ?? []).reduce((all, { bins }) => all + bins.value, 0);
}

/** Each lot gives up its share in whole bins, so that together the lots are no more than `most`. */
function withMost(fill: Fill, most: number): Fill {
  const all = binsIn(fill);
  let [before, kept] = [0, 0];
  const lots = fill.lots.map((one) => {
    before += one.bins.value;
    const until = Math.floor((before * most) / all + 1e-9);
    const stays = Math.min(one.bins.value, Math.max(0, until - kept));
    kept += stays;
    return { ...one, bins: without(one.bins, one.bins.value - stays) };
  });
  return { ...fill, lots: lots.filter(({ bins }) => bins.value > 0) };
}

function without(bins: Figure<'bins'>, noRoom: number): Figure<'bins'> {
  if (noRoom === 0) return bins;
  const left = countedFigure(
    'bins for which the room has no place',
    'bins',
    noRoom,
    "the room's places, shared among the lots by their bins",
  );
  return compute(bins.name, 'bins', 'bins - left', { bins, left }, (v) => v.bins - v.left);
}
