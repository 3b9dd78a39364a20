import { type Day, firstDayOfWeek, formatDay } from '../plan/dates';
import type { Fill, Room } from '../plan/model';
import { counted, listed } from '../plan/wording';
import { emptyFrom } from '../release/filled-again';
import type { ComputedSeason } from './types';

/** A room, its bin places, and the days between which nothing is in it; no day where nothing bounds them. */
interface FreeRoom {
  readonly room: string;
  readonly places: number;
  readonly from: Day | undefined;
  readonly until: Day | undefined;
}

/** Rooms told of many. */
const MOST_TOLD = 3;

/**
 * The first day on which a fill's room can be empty again: as recorded, else by its pin or the first week of its window
 * and the days it takes to empty it. Undefined where none of them is known.
 */
export function canBeEmpty({ plan, keeping }: ComputedSeason, fill: Fill): Day | undefined {
  const emptied = plan.progress.get(fill.id)?.emptied?.value;
  const opens = fill.open?.value ?? keeping.get(fill.id)?.window?.earliest.week;
  if (emptied !== undefined || opens === undefined) return emptied;
  return plan.packing ? emptyFrom(opens, plan.packing) : firstDayOfWeek(opens);
}

/**
 * The rooms that are free from a fill's first bin until it can be out of its room, with the time that they are free:
 * those that take all its bins first, the smallest of them first. To be asked only for a fill that has no room: it goes
 * through all rooms and fills.
 */
export function freeOverText(season: ComputedSeason, fill: Fill): string {
  const begins = fill.firstBin?.value;
  if (begins === undefined) return '';
  const ends = canBeEmpty(season, fill) ?? season.plan.season?.ends?.value ?? begins;
  const bins = fill.lots.reduce((sum, lot) => sum + lot.bins.value, 0);
  const tooSmall = ({ places }: FreeRoom) => Number(places < bins);
  const size = ({ places }: FreeRoom) => (places < bins ? -places : places);
  const free = [...season.plan.rooms.values()]
    .flatMap((room) => freeTime(season, room, fill, begins, ends) ?? [])
    .sort((a, b) => tooSmall(a) - tooSmall(b) || size(a) - size(b) || (a.room < b.room ? -1 : 1));
  if (free.length === 0) return ` No other room is free from ${formatDay(begins)} to ${formatDay(ends)}.`;
  const told = free
    .slice(0, MOST_TOLD)
    .map((one) => `${one.room} (${counted(one.places, 'place')}${timeText(one)})`);
  const more = free.length > MOST_TOLD ? [`${free.length - MOST_TOLD} more`] : [];
  return ` Free from ${formatDay(begins)} to ${formatDay(ends)}: ${listed([...told, ...more])}.`;
}

function timeText({ from, until }: FreeRoom): string {
  if (from === undefined && until === undefined) return ', the whole season';
  if (until === undefined) return `, from ${formatDay(from ?? 0)} on`;
  return from === undefined
    ? `, until ${formatDay(until)}`
    : `, from ${formatDay(from)} until ${formatDay(until)}`;
}

/** Undefined where something is in the room between the two days, or where that or its places cannot be told. */
function freeTime(
  season: ComputedSeason,
  room: Room,
  fill: Fill,
  begins: Day,
  ends: Day,
): FreeRoom | undefined {
  const places = Math.floor(season.capacities.get(room.id)?.places?.value ?? 0);
  if (room.id === fill.room?.value || places <= 0) return undefined;
  let [from, until] = [room.ready?.value, undefined as Day | undefined];
  for (const other of season.plan.fills.values()) {
    if (other.room?.value !== room.id) continue;
    const [first, empty] = [other.firstBin?.value, canBeEmpty(season, other)];
    if (first === undefined) return undefined;
    if (first >= ends) until = Math.min(until ?? first, first);
    else if (empty !== undefined && empty <= begins) from = Math.max(from ?? empty, empty);
    else return undefined;
  }
  return from === undefined || from <= begins ? { room: room.id, places, from, until } : undefined;
}
