import { fruitData } from '../fruit/data';
import type { FruitData } from '../fruit/types';
import { roomKeeping } from '../keeping/room-keeping';
import type { RoomKeeping } from '../keeping/types';
import type { Week } from '../plan/dates';
import { withRecords } from '../plan/known';
import type { Plan } from '../plan/model';
import { plantSeason } from '../plant/season';
import type { Openings } from '../plant/weeks';
import { releaseProblem } from '../release/problem';
import { quickRelease } from '../release/quick';
import type { ReleaseProblem, ReleaseResult } from '../release/types';
import { roomCapacity } from '../room/capacity';
import { type FilledRoomOptions, filledRoom } from '../room/filled-room';
import type { FilledRoom, RoomCapacity } from '../room/types';
import { type FoundCourses, findCourses } from './courses';
import { placedParts } from './placed';
import type { ComputedSeason } from './types';

/** Moves of the quick search: enough for a fair schedule of some fifty rooms in a fraction of a second. */
export const QUICK_MOVES = 20_000;

export interface ComputeOptions {
  /**
   * The release schedule to go with the season: one solved elsewhere, a quick one found here, or none.
   * A quick one by default.
   */
  readonly release?:
    | { readonly problem: ReleaseProblem; readonly result: ReleaseResult }
    | 'quick'
    | 'none'
    | undefined;
  /** Seed of the quick search. The same plan and seed give the same schedule. */
  readonly seed?: number | undefined;
  /** Each room's course too, for the schedule there is; or those at hand, as they are. Left out by default. */
  readonly courses?: boolean | FoundCourses | undefined;
}

/**
 * Everything that follows from a plan, each step from the one before; what has happened counts instead of what was
 * planned. Never throws, whatever the plan lacks: an entry
 * without what a step needs is left out of that step, and the rest is computed.
 */
export function computeSeason(written: Plan, options: ComputeOptions = {}): ComputedSeason {
  const plan = withRecords(written);
  const fruit = fruitData(plan);
  const capacities = entriesMade(plan.rooms.keys(), (id) => capacityIn(plan, id));
  const filled = entriesMade(plan.fills.keys(), (id) => filledIn(plan, fruit, capacities, id));
  const keeping = entriesMade(filled.keys(), (id) => keepingIn(plan, filled, id));
  const release = releaseOf(plan, keeping, options);
  const plant = plantSeason(plan, filled, release && openingWeeks(release));
  const placed = placedParts(plan);
  const season = { plan, fruit, placed, capacities, filled, plant, keeping, release };
  if (!options.courses) return season;
  return options.courses === true ? withCourses(season) : { ...season, courses: options.courses };
}

/** The season with each room's course for its schedule; those at hand where they still hold. */
export function withCourses(season: ComputedSeason, atHand?: FoundCourses | undefined): ComputedSeason {
  const { plan, filled } = season;
  return { ...season, courses: findCourses(plan, filled, opensIn(season), atHand) };
}

/** The week each fill opens in the season's schedule. */
export function opensIn({ release }: Pick<ComputedSeason, 'release'>): Openings | undefined {
  return release && openingWeeks(release);
}

/** The season with another release schedule, or none, and the shared plant as it is loaded then. */
export function withRelease(season: ComputedSeason, release: ComputedSeason['release']): ComputedSeason {
  const plant = plantSeason(season.plan, season.filled, release && openingWeeks(release));
  return { ...season, release, plant };
}

/** The week each fill is opened in the schedule, or was in fact: from then on its room loads the shared plant no more. */
export function openingWeeks({ problem, result }: NonNullable<ComputedSeason['release']>): Map<string, Week> {
  const opens = new Map<string, Week>();
  for (const [index, { fill }] of problem.rooms.entries()) {
    const week = result.schedule.opens[index];
    if (week !== null && week !== undefined) opens.set(fill, problem.firstWeek + week);
  }
  for (const { fill, week } of problem.standing?.opened ?? []) opens.set(fill, problem.firstWeek + week);
  return opens;
}

/** What is made for each identifier, in their order; those for which there is nothing are left out. */
export function entriesMade<T>(ids: Iterable<string>, make: (id: string) => T | undefined): Map<string, T> {
  const made = new Map<string, T>();
  for (const id of ids) {
    const value = make(id);
    if (value !== undefined) made.set(id, value);
  }
  return made;
}

/** Size and places of one room. */
export function capacityIn(plan: Plan, id: string): RoomCapacity | undefined {
  const room = plan.rooms.get(id);
  if (!room) return undefined;
  return roomCapacity(room, room.binType === undefined ? undefined : plan.binTypes.get(room.binType.value));
}

/** What follows from one fill; a fill whose room is missing or not defined has nothing to be computed. */
export function filledIn(
  plan: Plan,
  fruit: FruitData,
  capacities: ReadonlyMap<string, RoomCapacity>,
  id: string,
  options: FilledRoomOptions = {},
): FilledRoom | undefined {
  const fill = plan.fills.get(id);
  const capacity = fill?.room && capacities.get(fill.room.value);
  return fill && capacity && filledRoom(plan, fruit, fill, capacity, options);
}

/** How long one filled room keeps. */
export function keepingIn(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  id: string,
): RoomKeeping | undefined {
  const room = filled.get(id);
  return room && roomKeeping(plan, room);
}

function releaseOf(
  plan: Plan,
  keeping: ReadonlyMap<string, RoomKeeping>,
  options: ComputeOptions,
): ComputedSeason['release'] {
  const wanted = options.release ?? 'quick';
  if (wanted === 'none') return undefined;
  if (wanted !== 'quick') return wanted;
  const problem = releaseProblem(plan, keeping);
  if (!problem) return undefined;
  return { problem, result: quickRelease(problem, { seed: options.seed ?? 1, moves: QUICK_MOVES }) };
}
