import type { Consequence as SeasonEffect } from '../compare/types';
import type { ComputedSeason } from '../findings/types';
import { learnAllSteps } from '../learning/learn';
import type { Learned, Lesson, LessonKind } from '../learning/lesson';
import { differs, lessonEdits } from '../learning/written';
import { formatWeek } from '../plan/dates';
import { applyEdits } from '../plan/edits';
import type { Figure } from '../plan/figure';
import { asOf } from '../plan/known';
import type { Plan } from '../plan/model';
import { emptyPlanCache, type PlanCache, readPlan } from '../plan/read';
import type { Steps } from '../plan/steps';
import type { RoomReadings } from '../readings/types';
import { PlanTrials } from './learn-trials';

/** What a lesson changes: a figure, or a week. */
export interface Consequence {
  readonly what: string;
  readonly before: Figure | string;
  readonly after: Figure | string;
}

/** What a season's records teach, and what each lesson would change. */
export interface LearnedSeason extends Learned {
  /** The plan they are of. */
  readonly plan: Plan;
  /** Figures of what the lesson is of, where all lessons of its kind are taken. */
  readonly consequences: ReadonlyMap<string, readonly Consequence[]>;
  /** What taking the lesson alone changes of windows, weeks, loads, orders and findings; of those that were asked for. */
  readonly effects: ReadonlyMap<string, readonly SeasonEffect[]>;
  /** The same of all of those together, where there are several. */
  readonly together: Together | undefined;
}

export interface Together {
  readonly lessons: readonly string[];
  readonly effects: readonly SeasonEffect[];
}

export interface LearnOptions {
  /** The schedule people go by; without one a quick one is found. */
  readonly release?: ComputedSeason['release'];
  /** Lessons whose effects are told; by default those that differ from what the plan has. */
  readonly of?: readonly string[] | undefined;
  /** What the records of this very plan teach, where it is known already. */
  readonly learned?: Learned | undefined;
  /** Called before each part of the work, with the share that is done. */
  readonly onShare?: ((share: number) => void) | undefined;
}

const MOST_CONSEQUENCES = 12;
/** Lessons whose effects are told by themselves where none were asked for: the first in order. */
const MOST_ALONE = 24;

/** What the plan's records teach, and what each lesson would change: in steps, for it computes the season once a lesson. */
export function* learnSeasonSteps(
  plan: Plan,
  readings: ReadonlyMap<string, RoomReadings>,
  { release, of, learned: known, onShare = () => {} }: LearnOptions = {},
): Steps<LearnedSeason> {
  onShare(0);
  // Read by one cache, plans have in common what no lesson touches, and it is computed once. Places move from one reading to
  // the next: edits are made in the plan that came in.
  const cache = emptyPlanCache();
  const trials = yield* PlanTrials.begin(planWith(plan, [], cache), release);
  const season = trials.base;
  const learned = known ?? (yield* learnAllSteps(season.plan, season.filled, readings));
  const { lessons } = learned;
  const told = lessons.filter((lesson) => (of ? of.includes(lesson.id) : differs(lesson)));
  const alone = of ? told : told.slice(0, MOST_ALONE);
  const kinds = [...new Set(lessons.map(({ kind }) => kind))];
  const works = kinds.length + alone.length + 1;
  let done = 0;
  const share = () => onShare(++done / (works + 1));
  const consequences = new Map<string, readonly Consequence[]>();
  for (const kind of kinds) {
    share();
    const ofKind = lessons.filter((lesson) => lesson.kind === kind);
    const after = (yield* trials.try(planWith(plan, ofKind, cache))).season;
    for (const lesson of ofKind)
      consequences.set(lesson.id, CONSEQUENCES[kind](lesson, season, after).slice(0, MOST_CONSEQUENCES));
  }
  const effects = new Map<string, readonly SeasonEffect[]>();
  for (const lesson of alone) {
    share();
    effects.set(lesson.id, (yield* trials.try(planWith(plan, [lesson], cache))).effects);
  }
  share();
  const together =
    told.length > 1
      ? {
          lessons: told.map(({ id }) => id),
          effects: (yield* trials.try(planWith(plan, told, cache))).effects,
        }
      : undefined;
  return { ...learned, plan, consequences, effects, together };
}

/** The plan as it would be with the lessons written into it. */
function planWith(plan: Plan, lessons: readonly Lesson[], cache: PlanCache): Plan {
  const edits = lessons.flatMap((lesson) => lessonEdits(plan, lesson));
  const files = [...plan.files.values()].map(({ path, text }) => ({
    path,
    text: applyEdits(
      text,
      edits.filter(({ at }) => at.file === path),
    ),
  }));
  const read = readPlan(files, cache);
  return plan.asOf === undefined ? read : asOf(read, plan.asOf);
}

type Tell = (lesson: Lesson, before: ComputedSeason, after: ComputedSeason) => Consequence[];

const CONSEQUENCES: Readonly<Record<LessonKind, Tell>> = {
  respiration: ({ entry }, before, after) => [
    ...roomFigures(entry, before, after, ['carbonDioxideInStore', 'oxygenUse', 'weightLossPerMonth']),
    ...courseFigures(entry, before, after),
  ],
  leakage: ({ entry }, before, after) =>
    [...before.filled.values()]
      .filter(({ room }) => room.id === entry)
      .flatMap(({ fill }) => [
        ...roomFigures(fill.id, before, after, ['oxygenLeak', 'leakShareOfFruitUse']),
        ...courseFigures(fill.id, before, after),
      ]),
  firmness: ({ entry }, before, after) =>
    [...before.keeping].flatMap(([fill, { lots, window }]) => {
      const [lot, later] = [lots, after.keeping.get(fill)?.lots].map((of) =>
        of?.find((one) => one.lot.id === entry),
      );
      if (!lot || !later) return [];
      const edges = (['bestBefore', 'latest'] as const).flatMap((edge) => {
        const [now, then] = [window?.[edge], after.keeping.get(fill)?.window?.[edge]];
        return now && then
          ? [
              weeks(
                `${fill}: ${edge === 'latest' ? 'latest opening' : 'best opened by'}`,
                now.week,
                then.week,
              ),
            ]
          : [];
      });
      return [weeks(`${entry} in ${fill}: within standard up to`, lot.latest, later.latest), ...edges];
    }),
  packout: ({ entry }, before, after) => cartonsOf(entry, before, after),
  crop: ({ entry }, before, after) => {
    const [now, then] = [before, after].map(({ plan }) => plan.lots.get(entry)?.expectedBins);
    return now && then ? [{ what: `${entry}: bins to be expected`, before: now, after: then }] : [];
  },
};

function weeks(what: string, before: number, after: number): Consequence {
  return { what, before: formatWeek(before), after: formatWeek(after) };
}

function roomFigures(
  fill: string,
  before: ComputedSeason,
  after: ComputedSeason,
  keys: readonly (
    | 'carbonDioxideInStore'
    | 'oxygenUse'
    | 'weightLossPerMonth'
    | 'oxygenLeak'
    | 'leakShareOfFruitUse'
  )[],
): Consequence[] {
  return keys.flatMap((key) => told(fill, before.filled.get(fill)?.[key], after.filled.get(fill)?.[key]));
}

function courseFigures(fill: string, before: ComputedSeason, after: ComputedSeason): Consequence[] {
  const [now, then] = [before.courses?.courses.get(fill), after.courses?.courses.get(fill)];
  return [
    ...told(fill, now?.hoursToSetPoint, then?.hoursToSetPoint),
    ...told(fill, now?.oxygenAtEnd, then?.oxygenAtEnd),
    ...told(fill, now?.carbonDioxideAtEnd, then?.carbonDioxideAtEnd),
    ...told(fill, now?.weightLost, then?.weightLost),
  ];
}

function told(entry: string, before: Figure | undefined, after: Figure | undefined): Consequence[] {
  return before && after ? [{ what: `${entry}: ${before.name}`, before, after }] : [];
}

/** Cartons that all bins of the lot would pack into on the day they were picked, by class. */
function cartonsOf(id: string, before: ComputedSeason, after: ComputedSeason): Consequence[] {
  const carton = before.plan.season?.cartonMass?.value;
  const fruit = [...before.filled.values()]
    .flatMap(({ lots }) => lots)
    .reduce((sum, one) => sum + (one.lot.id === id ? one.fruit.value : 0), 0);
  if (!carton || fruit === 0) return [];
  const variety = before.plan.lots.get(id)?.variety?.value ?? '';
  return [...(before.plan.packing?.packout.get(variety)?.shares ?? [])].flatMap(([name, planned]) => {
    const of = ({ plan }: ComputedSeason): Figure => {
      const share = plan.lots.get(id)?.ownPackout?.get(name) ?? planned;
      const value = Math.round(((share.value / 100) * fruit) / carton);
      return { name: `cartons of class ${name}`, unit: 'cartons', value, origin: share.origin };
    };
    return [
      {
        what: `${id} in rooms: cartons of class ${name}, nothing lost in store`,
        before: of(before),
        after: of(after),
      },
    ];
  });
}
