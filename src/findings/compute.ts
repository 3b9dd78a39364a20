import { fruitData } from '../fruit/data';
import type { FruitData } from '../fruit/types';
import { roomKeeping } from '../keeping/room-keeping';
import type { RoomKeeping } from '../keeping/types';
import type { Week } from '../plan/dates';
import type { Plan } from '../plan/model';
import { plantSeason } from '../plant/season';
import type { Openings } from '../plant/weeks';
import { releaseProblem } from '../release/problem';
import { quickRelease } from '../release/quick';
import type { ReleaseProblem, ReleaseResult } from '../release/types';
import { roomCapacity } from '../room/capacity';
import { filledRoom } from '../room/filled-room';
import type { FilledRoom, RoomCapacity } from '../room/types';
import { type FoundCourses, findCourses } from './courses';
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
 * Everything that follows from a plan, each step from the one before. Never throws, whatever the plan lacks: an entry
 * without what a step needs is left out of that step, and the rest is computed.
 */
export function computeSeason(plan: Plan, options: ComputeOptions = {}): ComputedSeason {
  const fruit = fruitData(plan);
  const capacities = capacitiesOf(plan);
  const filled = filledRoomsOf(plan, fruit, capacities);
  const keeping = new Map<string, RoomKeeping>();
  for (const [id, room] of filled) keeping.set(id, roomKeeping(plan, room));
  const release = releaseOf(plan, keeping, options);
  const plant = plantSeason(plan, filled, release && openingWeeks(release));
  const season = { plan, fruit, capacities, filled, plant, keeping, release };
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

/** The week each fill is opened in the schedule: from then on its room loads the shared plant no more. */
function openingWeeks({ problem, result }: NonNullable<ComputedSeason['release']>): Map<string, Week> {
  const opens = new Map<string, Week>();
  for (const [index, { fill }] of problem.rooms.entries()) {
    const week = result.schedule.opens[index];
    if (week !== null && week !== undefined) opens.set(fill, problem.firstWeek + week);
  }
  return opens;
}

/** By room identifier. */
function capacitiesOf(plan: Plan): Map<string, RoomCapacity> {
  const capacities = new Map<string, RoomCapacity>();
  for (const [id, room] of plan.rooms) {
    const binType = room.binType === undefined ? undefined : plan.binTypes.get(room.binType.value);
    capacities.set(id, roomCapacity(room, binType));
  }
  return capacities;
}

/** By fill identifier; a fill whose room is missing or not defined has nothing to be computed. */
function filledRoomsOf(
  plan: Plan,
  fruit: FruitData,
  capacities: ReadonlyMap<string, RoomCapacity>,
): Map<string, FilledRoom> {
  const filled = new Map<string, FilledRoom>();
  for (const [id, fill] of plan.fills) {
    const capacity = fill.room === undefined ? undefined : capacities.get(fill.room.value);
    if (capacity) filled.set(id, filledRoom(plan, fruit, fill, capacity));
  }
  return filled;
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
