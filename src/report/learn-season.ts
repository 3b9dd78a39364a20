import { computeSeason } from '../findings/compute';
import type { ComputedSeason } from '../findings/types';
import { learnAll, lessonEdits } from '../learning/learn';
import type { Learned, Lesson, LessonKind } from '../learning/lesson';
import { formatWeek } from '../plan/dates';
import { applyEdits } from '../plan/edits';
import type { Figure } from '../plan/figure';
import { asOf } from '../plan/known';
import type { Plan } from '../plan/model';
import { readPlan } from '../plan/read';
import type { RoomReadings } from '../readings/types';

/** What a lesson changes: a figure, or a week. */
export interface Consequence {
  readonly what: string;
  readonly before: Figure | string;
  readonly after: Figure | string;
}

/** What a season's records teach, and what each lesson would change. */
export interface LearnedSeason extends Learned {
  readonly consequences: ReadonlyMap<string, readonly Consequence[]>;
}

const MOST_CONSEQUENCES = 12;

/** `season` with its courses, without a schedule: nothing here hangs on one. */
export function learnSeason(
  season: ComputedSeason,
  readings: ReadonlyMap<string, RoomReadings>,
): LearnedSeason {
  const learned = learnAll(season.plan, season.filled, readings);
  const consequences = new Map<string, readonly Consequence[]>();
  for (const kind of new Set(learned.lessons.map((lesson) => lesson.kind))) {
    const lessons = learned.lessons.filter((lesson) => lesson.kind === kind);
    const after = seasonWith(season.plan, lessons);
    for (const lesson of lessons)
      consequences.set(lesson.id, CONSEQUENCES[kind](lesson, season, after).slice(0, MOST_CONSEQUENCES));
  }
  return { ...learned, consequences };
}

/** The season as it would be with the lessons written into its plan. */
export function seasonWith(plan: Plan, lessons: readonly Lesson[]): ComputedSeason {
  const edits = lessons.flatMap((lesson) => lessonEdits(plan, lesson));
  const files = [...plan.files.values()].map(({ path, text }) => ({
    path,
    text: applyEdits(
      text,
      edits.filter(({ at }) => at.file === path),
    ),
  }));
  const read = readPlan(files);
  const known = plan.asOf === undefined ? read : asOf(read, plan.asOf);
  return computeSeason(known, { release: 'none', courses: true });
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
