import type { Day, Week } from '../plan/dates';
import type { Steps } from '../plan/steps';
import type { FilledRoom } from '../room/types';
import type { SealableOn } from './scrubber-remedies';
import { scrubberSeason } from './season';
import type { ScrubberSeason, ScrubberWeek } from './types';
import type { Openings } from './weeks';

/** What is asked of a scrubber whose load is above what it is to carry, and what may be changed. */
export interface LoadAsked {
  readonly own: ScrubberSeason;
  /** All scrubbers of the plan. */
  readonly all: readonly ScrubberSeason[];
  /** Per cent that any of them is loaded to at most. */
  readonly most: number;
  readonly opens: Openings | undefined;
  /** The weeks that are not over. */
  readonly weeksToCome: (weeks: readonly ScrubberWeek[]) => readonly ScrubberWeek[];
  readonly sealableOn: SealableOn;
  /** Days beyond its planned seal within which a fill may still be sealed. */
  readonly daysLeft: (room: FilledRoom) => number;
}

/** A room connected to another scrubber; per cent that either is loaded to in its heaviest week then. */
export interface RoomMoved {
  readonly room: FilledRoom;
  readonly to: string;
  readonly own: number;
  readonly other: number;
}

/** A room sealed later, and per cent that its scrubber is loaded to in its heaviest week then. */
export interface SealedLater {
  readonly room: FilledRoom;
  readonly days: number;
  readonly on: Day;
  readonly own: number;
}

/** The best of each kind, tried on the weekly loads: one that is enough, else the one that lessens the load most. */
export interface LoadRemedies {
  readonly moved?: RoomMoved;
  readonly later?: SealedLater;
}

/** Other scrubbers that are tried, the least loaded first; rooms that are tried to be sealed later, the last sealed first. */
const [MOST_OTHERS, MOST_ROOMS] = [3, 6];

/** Points of load that are worth a word. */
const LEAST_POINTS = 1;

export function* loadRemediesSteps(asked: LoadAsked): Steps<LoadRemedies> {
  const moved = yield* anotherScrubber(asked);
  const later = yield* sealedLater(asked);
  return { ...(moved && { moved }), ...(later && { later }) };
}

/** Per cent of what it can remove, in the heaviest week that is to come. */
function heaviest(asked: LoadAsked, season: ScrubberSeason, rooms: readonly FilledRoom[]): number {
  const weeks: Week[] = season.weeks.map(({ week }) => week);
  const tried = scrubberSeason(season.scrubber, rooms, weeks, asked.opens);
  // What one can remove that is not known carries nothing.
  if (rooms.length > 0 && !tried.capacity) return Number.POSITIVE_INFINITY;
  return Math.max(0, ...asked.weeksToCome(tried.weeks).map((one) => shareIn(one)));
}

/** A week's load, per cent of what the scrubber can remove in it: without end where it stands still for all of it. */
export function shareIn({ load, capacity, share }: ScrubberWeek): number {
  return share?.value ?? (capacity?.value === 0 && load.value > 0 ? Number.POSITIVE_INFINITY : 0);
}

function* anotherScrubber(asked: LoadAsked): Steps<RoomMoved | undefined> {
  const { own, all, most } = asked;
  const now = heaviest(asked, own, own.rooms);
  const others = all
    .filter((one) => one !== own)
    .map((one) => ({ one, share: heaviest(asked, one, one.rooms) }))
    .filter(({ share }) => share < most)
    .sort((a, b) => a.share - b.share)
    .slice(0, MOST_OTHERS);
  if (others.length === 0) return undefined;
  const found: RoomMoved[] = [];
  for (const room of own.rooms) {
    if (!room.fill.sealed) continue;
    yield;
    const rest = heaviest(
      asked,
      own,
      own.rooms.filter((one) => one !== room),
    );
    if (rest > now - LEAST_POINTS) continue;
    for (const { one } of others) {
      const more = heaviest(asked, one, [...one.rooms, room]);
      if (more <= most) found.push({ room, to: one.scrubber.id, own: rest, other: more });
    }
  }
  return bestOf(found, most, ({ other }) => other);
}

function* sealedLater(asked: LoadAsked): Steps<SealedLater | undefined> {
  const { own, most, sealableOn, daysLeft } = asked;
  const now = heaviest(asked, own, own.rooms);
  const candidates = own.rooms
    .filter((room) => room.fill.sealed && daysLeft(room) > 0)
    .sort((a, b) => (b.fill.sealed?.value ?? 0) - (a.fill.sealed?.value ?? 0))
    .slice(0, MOST_ROOMS);
  const found: SealedLater[] = [];
  for (const room of candidates) {
    const { fill } = room;
    if (!fill.sealed) continue;
    for (let days = 1; days <= daysLeft(room); days++) {
      const on = fill.sealed.value + days;
      if (!sealableOn(fill, on)) continue;
      yield;
      const later = { ...room, fill: { ...fill, sealed: { ...fill.sealed, value: on } } };
      const share = heaviest(
        asked,
        own,
        own.rooms.map((one) => (one === room ? later : one)),
      );
      if (share <= now - LEAST_POINTS) found.push({ room, days, on, own: share });
      if (share <= most) break;
    }
  }
  return bestOf(found, most, ({ days }) => days);
}

/** Of those that are enough the one that costs least, else the one that leaves least. */
function bestOf<T extends { readonly own: number }>(
  found: readonly T[],
  most: number,
  cost: (one: T) => number,
): T | undefined {
  const enough = found.filter(({ own }) => own <= most);
  const [best] =
    enough.length > 0
      ? enough.sort((a, b) => cost(a) - cost(b) || a.own - b.own)
      : [...found].sort((a, b) => a.own - b.own || cost(a) - cost(b));
  return best;
}
