import { newFills } from '../../fill/new-fills';
import { proposalOf } from '../../fill/proposal';
import type { FillState } from '../../fill/state';
import type { FillProblem } from '../../fill/types';
import type { NewFill } from '../../plan/add-fills';
import type { Fill, Plan } from '../../plan/model';
import type { Steps } from '../../plan/steps';
import { releaseProblemSteps } from '../../release/problem';
import { quickReleaseSteps } from '../../release/quick';
import { SeasonAgain } from '../again/season-again';
import { opensIn, QUICK_MOVES } from '../compute';
import { type FoundCourses, findCoursesSteps, type PutOff, triedSteps } from '../courses';
import type { ComputedSeason, Finding } from '../types';
import { withFills } from './with-fills';

/** One stand of a proposal with all that follows from it. */
export interface Stand {
  readonly state: FillState;
  readonly fills: readonly NewFill[];
  readonly season: ComputedSeason;
  readonly found: readonly Finding[];
}

export interface Found {
  readonly season: ComputedSeason;
  readonly found: readonly Finding[];
}

/**
 * Lays proposals over a plan and computes and finds everything anew, each made of what the one before was made of: the
 * same as `computeSeason` with a quick schedule and `findingsOf` give.
 */
export class Stands {
  private readonly again = new SeasonAgain();
  private readonly fills = new Map<string, Fill>();
  private courses: FoundCourses | undefined;

  constructor(
    private readonly plan: Plan,
    private readonly problem: FillProblem,
    /** Of the quick schedules. */
    private readonly seed: number,
  ) {}

  /**
   * The plan as it is, with the courses of its rooms and without. `release` is its quick schedule, where it is at hand.
   */
  *before(
    release: ComputedSeason['release'] | undefined,
  ): Steps<{ readonly plain: Found; readonly whole: Found }> {
    const plain = yield* this.compute(this.plan, release);
    return { plain, whole: yield* this.withCourses(plain.season) };
  }

  /** A proposal as far as it is found without the courses of rooms. */
  *of(state: FillState): Steps<Stand> {
    const fills = newFills(this.plan, this.problem, proposalOf(state).rooms);
    const plan = withFills(this.plan, fills, this.fills);
    return { state, fills, ...(yield* this.compute(plan, undefined)) };
  }

  /** With the courses too. The stand must be the one that was made last. */
  *whole(stand: Stand): Steps<Stand> {
    return { ...stand, ...(yield* this.withCourses(stand.season)) };
  }

  private *compute(plan: Plan, atHand: ComputedSeason['release'] | undefined): Steps<Found> {
    const release = atHand ?? (yield* this.scheduleOf(plan));
    yield;
    const season = yield* this.again.computeSteps(plan, { release, courses: undefined });
    return { season, found: yield* this.again.findingsSteps(season, {}) };
  }

  private *scheduleOf(plan: Plan): Steps<ComputedSeason['release']> {
    const problem = yield* releaseProblemSteps(plan, yield* this.again.keepingSteps(plan));
    if (!problem) return undefined;
    yield;
    return { problem, result: yield* quickReleaseSteps(problem, { seed: this.seed, moves: QUICK_MOVES }) };
  }

  private *withCourses({ plan, filled, release }: ComputedSeason): Steps<Found> {
    const options = { atHand: this.courses, cooling: this.again.cooling() };
    this.courses = yield* findCoursesSteps(plan, filled, opensIn({ release }), options);
    const putOff: PutOff = new Map();
    const first = yield* this.found(plan, release, putOff);
    if (!this.courses || putOff.size === 0) return first;
    // What has to be tried many times over, in steps of its own.
    this.courses = yield* triedSteps(this.courses, putOff);
    return yield* this.found(plan, release);
  }

  private *found(plan: Plan, release: ComputedSeason['release'], putOff?: PutOff): Steps<Found> {
    const season = yield* this.again.computeSteps(plan, { release, courses: this.courses });
    return { season, found: yield* this.again.findingsSteps(season, {}, putOff) };
  }
}
