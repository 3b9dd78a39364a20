import { SeasonAgain } from '../findings/again/season-again';
import type { ComputedSeason } from '../findings/types';
import type { Plan } from '../plan/model';
import { type Aligned, align } from './align';
import { causesOf } from './causes';
import { planChanges } from './changes';
import { type Difference, findingDifferences, measureDifferences } from './differences';
import { editsOf } from './edits';
import { graveFirst } from './gravity';
import { notComputed } from './not-computed';
import { chosenWeeks, keptPlan } from './schedules';
import { type Side, sideOf, trialOf } from './side';
import { thingKey } from './things';
import { thresholdsOf } from './thresholds';
import { totalsOf } from './totals';
import { touchedBy } from './touched';
import { MOST_ALONE, trialsOf } from './trials';
import type { Comparison, Consequence, Edit, HeldBack } from './types';

export interface CompareOptions {
  /** Seed of the quick search for the weeks. */
  readonly seed: number;
  /**
   * Whether rooms' courses of gas are followed too, for the findings that come of them. It takes some third of the time;
   * `unless-many` leaves it out where there are more than `MANY_EDITS`, and the comparison says so.
   */
  readonly courses: boolean | 'unless-many';
}

/** A change of more edits is of a season as a whole: what follows for weeks and cartons is asked first. */
export const MANY_EDITS = 24;

interface Asked {
  readonly seed: number;
  readonly courses: boolean;
}

/** A comparison, with the seasons it was made of: the old plan's in the names and the order of the new one. */
export interface Compared {
  readonly comparison: Comparison;
  readonly seasons?: { readonly old: ComputedSeason; readonly now: ComputedSeason };
}

/**
 * What a change of a plan is, and what follows from it. Pure: the same two plans give the same, and the plans in the
 * other order give the mirror of it. Both are scheduled in the same weeks as far as each can keep them, so that what
 * differs comes of the plans. A plan compared with itself gives nothing and computes nothing. Files that say different
 * things must have different paths in the two plans, or a place in the old text could be taken for one in the new.
 */
export function comparePlans(old: Plan, now: Plan, options: CompareOptions): Compared {
  const aligned = align(old, now);
  const changes = planChanges(aligned);
  const edits = editsOf(changes, aligned);
  const thresholds = thresholdsOf(old.policy, now.policy);
  const nothing: Comparison = {
    changes,
    renames: aligned.renames,
    edits,
    consequences: [],
    heldBack: [],
    thresholds,
    notComputed: [],
  };
  const readAlike = sameProblems(old, now);
  if (changes.length === 0 && readAlike) return { comparison: nothing };
  const courses = options.courses === 'unless-many' ? edits.length <= MANY_EDITS : options.courses;
  const computed = computeBoth(aligned, edits, { seed: options.seed, courses });
  const { differences, consequences } = computed;
  return {
    comparison: {
      ...nothing,
      consequences,
      totals: { old: totalsOf(computed.old), now: totalsOf(computed.now) },
      heldBack: heldBack(differences),
      notComputed: notComputed(old, now, computed.old.season, computed.now.season, { courses }),
      ...(computed.weeksOf && { weeksOf: computed.weeksOf }),
    },
    seasons: { old: computed.old.season, now: computed.now.season },
  };

  function computeBoth({ assemble }: Aligned, all: readonly Edit[], asked: Asked) {
    const { seed, courses } = asked;
    const again = new SeasonAgain();
    const before = assemble(() => false);
    const kept = { now: keptPlan(now, again.keepingOf(now)), old: keptPlan(before, again.keepingOf(before)) };
    const weeks = chosenWeeks(kept.old, kept.now, seed);
    const ofNow = sideOf(now, weeks?.now, again, { wanted: courses });
    const atHand = ofNow.season.courses;
    const sides = { now: ofNow, old: sideOf(before, weeks?.old, again, { wanted: courses, atHand }) };
    const found = differencesOf(sides.old, sides.now);
    const told = found.filter(({ isTold }) => isTold);
    const touched = all.map((edit) => touchedBy(edit, [sides.old.season, sides.now.season]));
    const withFindings = told.some(({ consequence }) => consequence.kind === 'finding');
    // For many edits they would take too long: what is found in them is given to the edits that touch its room.
    const followed = { wanted: courses && all.length <= MOST_ALONE, atHand: sides.old.season.courses };
    const evaluate = (edited: ReadonlySet<number>) => {
      const own = new Set([...edited].flatMap((edit) => all[edit]?.entries.map(thingKey) ?? []));
      const plan = assemble((thing) => own.has(thingKey(thing)));
      return trialOf(plan, weeks?.reference, again, { findings: withFindings, courses: followed });
    };
    const trials = told.length === 0 ? [] : trialsOf(touched, sides, evaluate);
    const inputs = { ...sides, touched, trials, triedCourses: followed.wanted };
    const consequences = told
      .map((difference): Consequence => ({ ...difference.consequence, causes: causesOf(difference, inputs) }))
      .sort(graveFirst);
    return { ...sides, weeksOf: weeks?.of, differences: found, consequences };
  }

  function differencesOf(before: Side, after: Side): Difference[] {
    return [
      ...measureDifferences(before.measures, after.measures, thresholds),
      ...findingDifferences(before.findings, after.findings),
    ];
  }
}

/** Whether reading found as much wrong in both: what could not be read is no change, but a finding. */
function sameProblems(old: Plan, now: Plan): boolean {
  const text = ({ problems }: Plan) =>
    problems
      .map(({ code, about, message }) => `${code} ${about ?? message}`)
      .sort()
      .join('\n');
  return text(old) === text(now);
}

function heldBack(differences: readonly Difference[]): HeldBack[] {
  const counts = new Map<HeldBack['kind'], number>();
  for (const { isTold, consequence } of differences)
    if (!isTold) counts.set(consequence.kind, (counts.get(consequence.kind) ?? 0) + 1);
  return [...counts].map(([kind, count]) => ({ kind, count }));
}
