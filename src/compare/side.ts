import type { SeasonAgain } from '../findings/again/season-again';
import { openingWeeks } from '../findings/compute';
import { type FoundCourses, findCoursesSteps } from '../findings/courses';
import type { ComputedSeason } from '../findings/types';
import type { Plan } from '../plan/model';
import { finish } from '../plan/steps';
import { type Found, foundByKey } from './found-findings';
import type { Reference } from './kept-weeks';
import { worthByVariety } from './market-measures';
import { type Measure, measuresOf, tagsOfFill } from './measures';
import { keptPlan, keptRelease } from './schedules';

/** What one plan comes to: the old one, the new one, or the old one with some of the edits. */
export interface Side {
  readonly season: ComputedSeason;
  readonly measures: ReadonlyMap<string, Measure>;
  /** Empty where they were not asked for. */
  readonly findings: ReadonlyMap<string, Found>;
  readonly worth: ReadonlyMap<string, number>;
}

/** A plan with the schedule in the weeks that both plans are compared in; with its rooms' courses if asked for. */
export function sideOf(
  plan: Plan,
  release: ComputedSeason['release'],
  again: SeasonAgain,
  courses: { readonly wanted: boolean; readonly atHand?: FoundCourses | undefined },
): Side {
  const first = again.compute(plan, { release, courses: undefined });
  const found = courses.wanted
    ? finish(
        findCoursesSteps(plan, first.filled, release && openingWeeks(release), {
          atHand: courses.atHand,
          cooling: again.cooling(),
        }),
      )
    : undefined;
  const season = found ? again.compute(plan, { release, courses: found }) : first;
  // Which remedies a finding offers is not compared: what would have to be tried for them is left out.
  return madeOf(season, finish(again.findingsSteps(season, {}, new Map())));
}

/** What the old plan with some edits would come to. Without the rooms' courses, which take their time. */
export function trialOf(
  plan: Plan,
  reference: Reference | undefined,
  again: SeasonAgain,
  withFindings: boolean,
): Side {
  const kept = keptPlan(plan, again.keepingOf(plan));
  const release = reference && keptRelease(kept, reference);
  const season = again.compute(plan, { release, courses: undefined });
  return madeOf(season, withFindings ? again.findings(season, {}) : []);
}

function madeOf(season: ComputedSeason, findings: Parameters<typeof foundByKey>[0]): Side {
  return {
    season,
    measures: measuresOf(season),
    findings: foundByKey(findings, season.plan, (fill) => tagsOfFill(season, fill)),
    worth: worthByVariety(season),
  };
}
