import { findingDifferences, measureDifferences } from '../compare/differences';
import { foundByKey } from '../compare/found-findings';
import { graveFirst } from '../compare/gravity';
import { referenceOf } from '../compare/kept-weeks';
import { type Measure, measuresOf, tagsOfFill } from '../compare/measures';
import { type Kept, keptPlan, keptRelease } from '../compare/schedules';
import { thresholdsOf } from '../compare/thresholds';
import { totalsOf } from '../compare/totals';
import type { Consequence, SeasonTotals } from '../compare/types';
import type { Outcome } from '../expect/types';
import { computeSeason, QUICK_MOVES, withCourses, withRelease } from '../findings/compute';
import { findingsOf } from '../findings/find';
import type { ComputedSeason, Finding } from '../findings/types';
import type { Plan } from '../plan/model';
import { quickRelease } from '../release/quick';
import type { ReleaseProblem } from '../release/types';
import { weekToCome } from '../scenario/to-come';
import { outcomesOf } from './expect-report';

/** A season with all that is told of it when it is held against another. */
export interface ToldSeason {
  readonly season: ComputedSeason;
  readonly findings: readonly Finding[];
  readonly outcomes: readonly Outcome[];
  readonly measures: ReadonlyMap<string, Measure>;
  readonly totals: SeasonTotals;
}

/** The base beside the season of a scenario. */
export interface SideBySide {
  readonly base: ToldSeason;
  readonly over: ToldSeason;
  /** What differs by the planner's thresholds: the worse first, the gravest before. */
  readonly consequences: readonly Consequence[];
  readonly newFindings: readonly Finding[];
  readonly goneFindings: readonly Finding[];
  /** Promises kept in the base and not in the scenario; and those that only the scenario keeps. */
  readonly broken: readonly Outcome[];
  readonly mended: readonly Outcome[];
}

/** The plan's season in weeks after which no room gains by moving alone: what a scenario's are held against. */
export function baseSeason(plan: Plan, seed: number): ComputedSeason {
  const first = computeSeason(plan, { release: 'none' });
  const kept = keptPlan(first.plan, first.keeping);
  return withCourses(withRelease(first, kept.problem && settled(kept, kept.problem.plain, seed)));
}

type Release = NonNullable<ComputedSeason['release']>;

/** Quick weeks, from which each room has been moved as long as that gains. */
function settled(kept: Kept, problem: ReleaseProblem, seed: number): Release {
  const quick = { problem, result: quickRelease(problem, { seed, moves: QUICK_MOVES }) };
  const moved = keptRelease(kept, referenceOf(problem, quick.result), true);
  return moved && worthOf(moved) > worthOf(quick) ? moved : quick;
}

function worthOf({ result }: Release): number {
  return result.schedule.value;
}

export function toldSeason(whole: ComputedSeason): ToldSeason {
  const season = withCoolingToCome(whole);
  const findings = findingsOf(season);
  const measures = measuresOf(season);
  const found = foundByKey(findings, season.plan, (fill) => tagsOfFill(season, fill));
  const side = {
    season,
    measures,
    findings: found,
    ofCourses: new Set<string>(),
    worth: new Map<string, number>(),
  };
  const totals = totalsOf(side);
  return { season, findings, outcomes: outcomesOf(season, findings, false), measures, totals };
}

/** Without the load of refrigeration in weeks that are past: with what there is of it now these were not cooled. */
function withCoolingToCome(season: ComputedSeason): ComputedSeason {
  const { plan, plant } = season;
  const first = weekToCome(plan);
  if (!plant || first === undefined) return season;
  const refrigeration = plant.refrigeration.map((one) => ({
    ...one,
    weeks: one.weeks.filter(({ week }) => week >= first),
  }));
  return { ...season, plant: { ...plant, refrigeration } };
}

/** A season of a scenario, and whether it keeps the base's weeks as far as it can. */
export interface SeasonOver {
  readonly season: ComputedSeason;
  readonly weeks: 'of the base' | 'of its own' | 'none';
}

/** A search of its own counts only where it is worth so much more, as a share: less is the luck of a search. */
const WORTH_PLANNING_ANEW = 0.005;

/**
 * The season of a plan that differs from the base. It keeps the base's weeks where it can, rooms moving only where they
 * must or where what has changed makes it pay, so that what differs comes of the plan and not of another search; where
 * planning anew is worth a good deal more, it has weeks of its own.
 */
export function seasonOver({ season: base }: ToldSeason, plan: Plan, seed: number): SeasonOver {
  const first = computeSeason(plan, { release: 'none' });
  const kept = keptPlan(first.plan, first.keeping);
  const problem = kept.problem?.plain;
  const done = (release: Release | undefined, weeks: SeasonOver['weeks']): SeasonOver => ({
    season: withCourses(withRelease(first, release), base.courses),
    weeks,
  });
  if (!problem) return done(undefined, 'none');
  if (base.release && JSON.stringify(problem) === JSON.stringify(base.release.problem))
    return done(base.release, 'of the base');
  const anew = settled(kept, problem, seed);
  const carried = base.release && keptRelease(kept, referenceOf(base.release.problem, base.release.result));
  if (!carried) return done(anew, 'of its own');
  const gain = worthOf(anew) - worthOf(carried);
  return gain > WORTH_PLANNING_ANEW * Math.abs(worthOf(carried))
    ? done(anew, 'of its own')
    : done(carried, 'of the base');
}

export function sideBySide(base: ToldSeason, over: ToldSeason): SideBySide {
  const thresholds = thresholdsOf(base.season.plan.policy, over.season.plan.policy);
  const [old, now] = [foundIn(base), foundIn(over)];
  const differences = [
    ...measureDifferences(base.measures, over.measures, thresholds),
    ...findingDifferences(old, now),
  ];
  const consequences = differences
    .filter(({ isTold, consequence }) => isTold && !isOfOpened(base.season.plan, consequence))
    .map(({ consequence }): Consequence => ({ ...consequence, causes: { parts: [], onlyTogether: false } }))
    .sort(graveFirst);
  const isBroken = (outcome: Outcome) => outcome.verdict.state === 'broken';
  const other = (outcomes: readonly Outcome[], { expectation }: Outcome) =>
    outcomes.find((one) => one.expectation.id === expectation.id);
  return {
    base,
    over,
    consequences,
    newFindings: told(base, over),
    goneFindings: told(over, base),
    broken: over.outcomes.filter(
      (one) => isBroken(one) && other(base.outcomes, one)?.verdict.state === 'kept',
    ),
    mended: over.outcomes.filter(
      (one) => one.verdict.state === 'kept' && isBroken(other(base.outcomes, one) ?? one),
    ),
  };
}

const OF_WINDOWS: ReadonlySet<string> = new Set(['earliest', 'best-before', 'latest', 'window']);

/** The window of a room that has been opened in fact: no scenario, or lesson, changes when to open it any more. */
export function isOfOpened({ fills }: Plan, { kind, about }: Pick<Consequence, 'kind' | 'about'>): boolean {
  return about.of === 'fill' && OF_WINDOWS.has(kind) && fills.get(about.fill)?.opened !== undefined;
}

function foundIn({ season, findings }: ToldSeason) {
  return foundByKey(findings.filter(isOfSeason), season.plan, (fill) => tagsOfFill(season, fill));
}

/** Findings of the second season that the first does not have, by what they are about; worst first. */
function told(first: ToldSeason, second: ToldSeason): Finding[] {
  const known = new Set(first.findings.map(keyOf));
  const rank = { error: 0, warning: 1, notice: 2 };
  return second.findings
    .filter((finding) => isOfSeason(finding) && !known.has(keyOf(finding)))
    .sort((a, b) => rank[a.severity] - rank[b.severity]);
}

/**
 * Promises are told by themselves; what a comment allows, or a scenario cannot say, is no matter of the season; and when a
 * room was opened in fact follows from no scenario.
 */
const NOT_OF_SEASON = new Set([
  'expectation-broken',
  'expectation-not-judged',
  'allowance-unused',
  'scenario-cannot-apply',
  'opened-outside-window',
]);

function isOfSeason({ code }: Finding): boolean {
  return !NOT_OF_SEASON.has(code);
}

function keyOf({ severity, fingerprint }: Finding): string {
  return `${severity} ${fingerprint}`;
}
