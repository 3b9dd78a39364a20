import { freeName, slug } from '../../fill/new-fills';
import { regimesFor } from '../../fill/regimes';
import type { FruitData } from '../../fruit/types';
import { formatDay } from '../../plan/dates';
import { fixed } from '../../plan/display';
import type { Lot, Plan, Room } from '../../plan/model';
import { roomCapacity } from '../../room/capacity';
import { withPlaces } from './completion-entry';
import type { Proposal } from './completion-types';
import { lotsLeft } from './lenses';

/** More would be read by nobody. */
const MOST = 8;

interface LotLeft {
  readonly lot: Lot;
  readonly left: number;
}

interface FreeRoom {
  readonly id: string;
  readonly places: number;
}

/**
 * Whole fills that the plan has need of: for each variety with bins in no fill the free room whose places suit them best,
 * with the lots picked first, as far as the places go. A beginning to write over, no search: "Propose Fills" weighs
 * lots and rooms against each other. Lines after the first are indented to stand below a name at `column`.
 */
export function newFillsFor(plan: Plan, fruit: FruitData, column: number): Proposal[] {
  const rooms = freeRooms(plan);
  const names = new Set(plan.fills.keys());
  return byVariety(plan)
    .slice(0, MOST)
    .flatMap(([variety, lots]) => {
      const bins = binsOf(lots);
      const room = roomFor(rooms, bins);
      if (!room) return [];
      const taken = firstPicked(lots, room.places);
      const id = freeName(`${room.id}-${slug(variety)}`, names);
      const text = [
        `${id}:`,
        ...linesOf(plan, fruit, room, variety, taken).map((line) => `${' '.repeat(column + 2)}${line}`),
      ].join('\n');
      return [
        {
          label: id,
          kind: 'entry',
          detail: `${variety}: ${fixed(binsOf(taken), 0)} of ${fixed(bins, 0)} bins in no fill; ${fixed(room.places, 0)} places`,
          documentation:
            'Takes the lots that no fill takes, those picked first before the others, into a room that no fill uses: a beginning to write over. "Propose Fills" weighs lots and rooms against each other.',
          newText: text,
          snippet: withPlaces(text),
        },
      ];
    });
}

function linesOf(
  plan: Plan,
  fruit: FruitData,
  room: FreeRoom,
  variety: string,
  lots: readonly LotLeft[],
): string[] {
  const known = fruit.variety(variety);
  const [regime] = known ? regimesFor(plan, fruit, known) : [];
  const days = lots.flatMap(({ lot: { picked } }) => (picked ? [picked.value.first, picked.value.last] : []));
  return [
    `room: ${room.id}`,
    ...(regime === undefined ? [] : [`regime: ${regime}`]),
    ...(days.length === 0
      ? []
      : [`first-bin: ${formatDay(Math.min(...days))}`, `last-bin: ${formatDay(Math.max(...days))}`]),
    `lots: { ${lots.map(({ lot, left }) => `${lot.id}: ${left}`).join(', ')} }`,
  ];
}

/** Bins in no fill by variety, the most first; what is packed from the field needs no room. */
function byVariety(plan: Plan): [string, LotLeft[]][] {
  const found = new Map<string, LotLeft[]>();
  for (const { lot, left } of lotsLeft({ plan })) {
    const variety = lot.variety?.value;
    if (variety === undefined || lot.packedAtHarvest) continue;
    found.set(variety, [...(found.get(variety) ?? []), { lot, left: Math.floor(left) }]);
  }
  return [...found].sort(([a, x], [b, y]) => binsOf(y) - binsOf(x) || (a < b ? -1 : 1));
}

function binsOf(lots: readonly LotLeft[]): number {
  return lots.reduce((sum, { left }) => sum + left, 0);
}

/** Rooms that no fill uses and whose places are known. */
function freeRooms(plan: Plan): FreeRoom[] {
  const used = new Set([...plan.fills.values()].map(({ room }) => room?.value));
  return [...plan.rooms.values()]
    .filter(({ id }) => !used.has(id))
    .map((room) => ({ id: room.id, places: placesOf(plan, room) }))
    .filter(({ places }) => places > 0);
}

function placesOf(plan: Plan, room: Room): number {
  return Math.floor(roomCapacity(room, plan.binTypes.get(room.binType?.value ?? '')).places?.value ?? 0);
}

/** The smallest room that holds them all, else the largest. */
function roomFor(rooms: readonly FreeRoom[], bins: number): FreeRoom | undefined {
  const bySize = [...rooms].sort((a, b) => a.places - b.places);
  return bySize.find(({ places }) => places >= bins) ?? bySize.at(-1);
}

/** Lots in the order of picking, as far as the places go; the last of them in part. */
function firstPicked(lots: readonly LotLeft[], places: number): LotLeft[] {
  const day = ({ lot: { picked } }: LotLeft) => picked?.value.first ?? Number.POSITIVE_INFINITY;
  let free = places;
  return [...lots]
    .sort((a, b) => day(a) - day(b) || (a.lot.id < b.lot.id ? -1 : 1))
    .flatMap(({ lot, left }) => {
      const bins = Math.min(left, free);
      free -= bins;
      return bins > 0 ? [{ lot, left: bins }] : [];
    });
}
