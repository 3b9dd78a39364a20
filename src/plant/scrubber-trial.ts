import type { Day } from '../plan/dates';
import type { Scrubber } from '../plan/model';
import type { Steps } from '../plan/steps';
import { integrate } from '../room/course/integrate';
import { courseRoom } from '../room/course/of-plan';
import {
  type Asks,
  asksOf,
  type DailyTurns,
  type ScrubbingOrder,
  type ScrubbingPower,
  type ServedRoom,
  scrubbingPower,
  turnsByDay,
} from './scrubber-asks';
import type { RoomTurns } from './scrubber-turns';

/** Points of carbon dioxide by which a level may be above a limit that it is held at. */
export const KEPT = 0.01;

/**
 * A scrubber's season with something changed. What the rooms ask for is at hand, and a room's course is integrated
 * only when it is asked about and never twice, so that a change that fails in its worst room costs one course.
 */
export class ScrubberTrial {
  readonly #power: ScrubbingPower;
  readonly #turns: DailyTurns;
  readonly #asks: ReadonlyMap<ServedRoom, Asks>;
  readonly #above = new Map<ServedRoom, number>();

  private constructor(power: ScrubbingPower, asks: ReadonlyMap<ServedRoom, Asks>, order: ScrubbingOrder) {
    this.#power = power;
    this.#asks = asks;
    this.#turns = turnsByDay([...asks.values()], power, order);
  }

  /** Undefined where the scrubber's removal is not stated. */
  static of(
    scrubber: Scrubber,
    served: readonly ServedRoom[],
    order: ScrubbingOrder,
  ): ScrubberTrial | undefined {
    const power = scrubbingPower(scrubber);
    const asks = served.flatMap((one) => {
      const found = asksOf(one);
      return found ? [[one, found] as const] : [];
    });
    return power && new ScrubberTrial(power, new Map(asks), order);
  }

  /** Points by which a room's highest level is above its limit. `until`: a day after which it cannot be any more. */
  aboveLimit(served: ServedRoom, until = served.untilDay): number {
    const known = this.#above.get(served);
    if (known !== undefined) return known;
    const asks = this.#asks.get(served);
    const turns = (asks && this.#turns.given.get(asks)) ?? [];
    const planned = courseRoom(served.room, Math.min(until, served.untilDay), {
      ...served.choices,
      scrubbing: { ...this.#power.scrubbing, turns },
    });
    if (!asks || !planned) return Number.NEGATIVE_INFINITY;
    const { highestCarbonDioxide } = integrate(planned.room, { hours: [] });
    const above = highestCarbonDioxide.percent - asks.limit;
    this.#above.set(served, above);
    return above;
  }

  /** The first of the rooms that is above its limit, a room a step; undefined where all keep it. */
  *fails(rooms: readonly Watched[]): Steps<Watched | undefined> {
    for (const room of rooms) {
      yield;
      if (this.aboveLimit(room.served, room.until) > KEPT) return room;
    }
    return undefined;
  }

  *worst(rooms: readonly Watched[]): Steps<number> {
    let worst = Number.NEGATIVE_INFINITY;
    for (const { served, until } of rooms) {
      yield;
      worst = Math.max(worst, this.aboveLimit(served, until));
    }
    return worst;
  }
}

/** A room to look at, and the day from which it is within its limit as things are. */
export interface Watched {
  readonly served: ServedRoom;
  readonly until?: Day;
}

/**
 * The rooms above their limits, worst first, each to the day after which it is not. More scrubbing only lowers a
 * level, so where it is given no other room and no later day can be above.
 */
export function roomsAbove(rooms: readonly RoomTurns[], served: readonly ServedRoom[]): Watched[] {
  return rooms
    .filter(({ aboveLimit }) => aboveLimit > KEPT)
    .sort((a, b) => b.aboveLimit - a.aboveLimit)
    .flatMap(({ room, course, limit = Number.POSITIVE_INFINITY }) => {
      const one = served.find((each) => each.room === room);
      const last = course.course.points.findLast(({ carbonDioxide }) => carbonDioxide > limit);
      return one ? [{ served: one, until: course.sealed + Math.ceil((last?.hours ?? 0) / 24) + 2 }] : [];
    });
}
