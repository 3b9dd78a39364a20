import { findingDifferences, measureDifferences } from '../compare/differences';
import { type Found, foundByKey } from '../compare/found-findings';
import { graveFirst } from '../compare/gravity';
import { type Reference, referenceOf } from '../compare/kept-weeks';
import { type Measure, measuresOf, tagsOfFill } from '../compare/measures';
import { type Kept, keptPlan, keptRelease } from '../compare/schedules';
import { thresholdsOf } from '../compare/thresholds';
import type { Consequence } from '../compare/types';
import { SeasonAgain } from '../findings/again/season-again';
import { openingWeeks, QUICK_MOVES } from '../findings/compute';
import { findCoursesSteps } from '../findings/courses';
import type { ComputedSeason } from '../findings/types';
import { withRecords } from '../plan/known';
import type { Plan } from '../plan/model';
import type { Steps } from '../plan/steps';
import { quickReleaseSteps } from '../release/quick';
import { isOfOpened } from './scenario-season';

type Release = NonNullable<ComputedSeason['release']>;

/** The season that a plan with something else in it comes to, and what of it differs from the plan as it is. */
export interface Tried {
  readonly season: ComputedSeason;
  /** By the planner's thresholds: the worse first, the gravest before. */
  readonly effects: readonly Consequence[];
}

interface Side {
  readonly season: ComputedSeason;
  readonly measures: ReadonlyMap<string, Measure>;
  readonly found: ReadonlyMap<string, Found>;
}

/**
 * A plan with its schedule, and what changes of it would come to, one after the other. Rooms keep the weeks of the schedule
 * where they can, and move only where they must or where what has changed makes it pay, so that what differs comes of the
 * change and not of another search. Each is computed of what the one before was made of, in steps.
 */
export class PlanTrials {
  private constructor(
    private readonly again: SeasonAgain,
    readonly base: ComputedSeason,
    private readonly side: Side,
    private readonly reference: Reference | undefined,
  ) {}

  /** `release` is the schedule people go by; without one a quick one is found, where the plan has enough for it. */
  static *begin(plan: Plan, release?: Release | undefined): Steps<PlanTrials> {
    const again = new SeasonAgain();
    const kept = keptPlan(withRecords(plan), yield* again.keepingSteps(plan));
    yield;
    const problem = kept.problem?.plain;
    const weeks = problem && settledWeeks(kept, release ?? (yield* quickWeeks(problem)));
    yield;
    const side = yield* sideSteps(plan, weeks, again, undefined);
    return new PlanTrials(again, side.season, side, weeks && referenceOf(weeks.problem, weeks.result));
  }

  *try(plan: Plan): Steps<Tried> {
    const kept = keptPlan(withRecords(plan), yield* this.again.keepingSteps(plan));
    yield;
    const release = this.releaseOf(kept);
    yield;
    const over = yield* sideSteps(plan, release, this.again, this.side.season.courses);
    return { season: over.season, effects: effectsOf(this.side, over) };
  }

  private releaseOf(kept: Kept): Release | undefined {
    const { release } = this.side.season;
    const problem = kept.problem?.plain;
    if (release && problem && JSON.stringify(problem) === JSON.stringify(release.problem)) return release;
    return this.reference && keptRelease(kept, this.reference);
  }
}

/** The seed of all quick schedules: the same plan always gives the same one. */
const SEED = 1;

function* quickWeeks(problem: Release['problem']): Steps<Release> {
  return { problem, result: yield* quickReleaseSteps(problem, { seed: SEED, moves: QUICK_MOVES }) };
}

/** The schedule with each room moved as long as that gains: what moves in a trial then moves by what was changed. */
function settledWeeks(kept: Kept, release: Release): Release {
  const moved = keptRelease(kept, referenceOf(release.problem, release.result), true);
  return moved && moved.result.schedule.value > release.result.schedule.value ? moved : release;
}

function* sideSteps(
  plan: Plan,
  release: Release | undefined,
  again: SeasonAgain,
  atHand: ComputedSeason['courses'],
): Steps<Side> {
  const first = yield* again.computeSteps(plan, { release, courses: undefined });
  const options = { atHand, cooling: again.cooling() };
  const opens = release && openingWeeks(release);
  const courses = yield* findCoursesSteps(first.plan, first.filled, opens, options);
  const season = courses ? yield* again.computeSteps(plan, { release, courses }) : first;
  // Remedies are not compared: what would have to be tried for them is put off and left out.
  const findings = yield* again.findingsSteps(season, {}, new Map());
  const found = foundByKey(findings, season.plan, (fill) => tagsOfFill(season, fill));
  return { season, measures: measuresOf(season), found };
}

function effectsOf(before: Side, after: Side): Consequence[] {
  const thresholds = thresholdsOf(before.season.plan.policy, after.season.plan.policy);
  return [
    ...measureDifferences(before.measures, after.measures, thresholds),
    ...findingDifferences(before.found, after.found),
  ]
    .filter(({ isTold, consequence }) => isTold && !isOfOpened(before.season.plan, consequence))
    .map(({ consequence }): Consequence => ({ ...consequence, causes: { parts: [], onlyTogether: false } }))
    .sort(graveFirst);
}
