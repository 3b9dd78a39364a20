import { SeasonAgain } from '../findings/again/season-again';
import type { ComputedSeason } from '../findings/types';
import type { RoomKeeping } from '../keeping/types';
import type { Day } from '../plan/dates';
import { withRecords } from '../plan/known';
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
import { type PlacedPlan, touchedBy } from './touched';
import { asTrials, eachAlone, MOST_ALONE, MOST_STEPS, stepsOf } from './trials';
import type { Comparison, Consequence, Edit, HeldBack } from './types';

export interface CompareOptions {
  /** Seed of the quick search for the weeks. */
  readonly seed: number;
  /**
   * Whether rooms' courses of gas are followed too, for the findings that come of them. It takes some third of the time;
   * `unless-many` leaves it out where there are more than `MANY_EDITS`, and the comparison says so.
   */
  readonly courses: boolean | 'unless-many';
  /** Where the old plan is the new one as it was known on a day: that day. */
  readonly since?: Day | undefined;
}

/** A change of more edits is of a season as a whole: what follows for weeks and cartons is asked first. */
export const MANY_EDITS = MOST_STEPS;

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
    ...(options.since !== undefined && { since: options.since }),
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
    const keeping = { now: again.keepingOf(now), old: again.keepingOf(before) };
    const kept = {
      now: keptPlan(withRecords(now), keeping.now),
      old: keptPlan(withRecords(before), keeping.old),
    };
    const weeks = chosenWeeks(kept.old, kept.now, seed);
    const places = [inRooms(before, keeping.old), inRooms(now, keeping.now)];
    const touched = all.map((edit) => touchedBy(edit, places));
    const ofOld = sideOf(before, weeks?.old, again, { wanted: courses });
    const atHand = ofOld.season.courses;
    const isMany = all.length > MOST_ALONE;
    // For very many edits they would take too long: what is found in them is given to the edits that touch its room.
    const followed = { wanted: courses && all.length <= MOST_STEPS, atHand };
    const evaluate = (edited: ReadonlySet<number>, findings: boolean) => {
      const own = new Set([...edited].flatMap((edit) => all[edit]?.entries.map(thingKey) ?? []));
      const plan = assemble((thing) => own.has(thingKey(thing)));
      return trialOf(plan, weeks?.reference, again, { findings, courses: followed });
    };
    // Made one upon the other, and the new plan last of all: each is computed of the one before.
    const steps = isMany ? stepsOf(touched, (edited) => evaluate(edited, true)) : [];
    const sides = { now: sideOf(now, weeks?.now, again, { wanted: courses, atHand }), old: ofOld };
    const found = differencesOf(sides.old, sides.now);
    const told = found.filter(({ isTold }) => isTold);
    const withFindings = told.some(({ consequence }) => consequence.kind === 'finding');
    const tried = (edited: ReadonlySet<number>) => evaluate(edited, withFindings);
    const alone = isMany || told.length === 0 ? [] : eachAlone(touched, ofOld, tried);
    const trials = isMany ? asTrials(steps, sides) : alone;
    const inputs = { ...sides, edits: all, touched, trials, triedCourses: followed.wanted };
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

function inRooms(plan: Plan, keeping: ReadonlyMap<string, RoomKeeping>): PlacedPlan {
  return { plan, filled: new Map([...keeping].map(([fill, { filled }]) => [fill, filled])) };
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
