import type { SeasonAgain } from '../findings/again/season-again';
import { openingWeeks } from '../findings/compute';
import { type FoundCourses, findCoursesSteps } from '../findings/courses';
import type { ComputedSeason, Finding } from '../findings/types';
import { withRecords } from '../plan/known';
import type { Plan } from '../plan/model';
import { finish } from '../plan/steps';
import { type Found, foundByKey } from './found-findings';
import type { Reference } from './kept-weeks';
import { worthByVariety } from './market-measures';
import type { Measure } from './measure';
import { measuresOf, tagsOfFill } from './measures';
import { keptPlan, keptRelease } from './schedules';

/** What one plan comes to: the old one, the new one, or the old one with some of the edits. */
export interface Side {
  readonly season: ComputedSeason;
  readonly measures: ReadonlyMap<string, Measure>;
  /** Empty where they were not asked for. */
  readonly findings: ReadonlyMap<string, Found>;
  /** Keys of those that are there, or are not, only because rooms' courses were followed. */
  readonly ofCourses: ReadonlySet<string>;
  readonly worth: ReadonlyMap<string, number>;
}

/** Whether rooms' courses of gas are followed, and those found before, of which what still holds is kept. */
export interface CoursesWanted {
  readonly wanted: boolean;
  readonly atHand?: FoundCourses | undefined;
}

/** A plan with the schedule in the weeks that both plans are compared in. */
export function sideOf(
  plan: Plan,
  release: ComputedSeason['release'],
  again: SeasonAgain,
  courses: CoursesWanted,
): Side {
  const first = again.compute(plan, { release, courses: undefined });
  const without = findingsIn(first, again);
  const season = withCourses(first, again, courses);
  if (season === first) return madeOf(first, without);
  const made = madeOf(season, findingsIn(season, again));
  const before = foundIn(first, without);
  const differing = [...before.keys(), ...made.findings.keys()].filter(
    (key) => before.has(key) !== made.findings.has(key),
  );
  return { ...made, ofCourses: new Set(differing) };
}

/** What the old plan with some edits would come to. */
export function trialOf(
  plan: Plan,
  reference: Reference | undefined,
  again: SeasonAgain,
  asked: { readonly findings: boolean; readonly courses: CoursesWanted },
): Side {
  const kept = keptPlan(withRecords(plan), again.keepingOf(plan));
  const release = reference && keptRelease(kept, reference);
  const first = again.compute(plan, { release, courses: undefined });
  if (!asked.findings) return madeOf(first, []);
  const season = withCourses(first, again, asked.courses);
  return madeOf(season, findingsIn(season, again));
}

function withCourses(first: ComputedSeason, again: SeasonAgain, courses: CoursesWanted): ComputedSeason {
  if (!courses.wanted) return first;
  const { plan, filled, release } = first;
  const options = { atHand: courses.atHand, cooling: again.cooling() };
  const found = finish(findCoursesSteps(plan, filled, release && openingWeeks(release), options));
  return found ? again.compute(plan, { release, courses: found }) : first;
}

/** Which remedies a finding offers is not compared: what would have to be tried for them is left out. */
function findingsIn(season: ComputedSeason, again: SeasonAgain): readonly Finding[] {
  return finish(again.findingsSteps(season, {}, new Map()));
}

function foundIn(season: ComputedSeason, findings: readonly Finding[]): Map<string, Found> {
  return foundByKey(findings, season.plan, (fill) => tagsOfFill(season, fill));
}

function madeOf(season: ComputedSeason, findings: readonly Finding[]): Side {
  return {
    season,
    measures: measuresOf(season),
    findings: foundIn(season, findings),
    ofCourses: new Set(),
    worth: worthByVariety(season),
  };
}
