import type { Consequence as SeasonEffect } from '../compare/types';
import type { LessonValue } from '../learning/lesson';
import type { Interval } from '../learning/types';
import { isOutside, writtenValue } from '../learning/written';
import { formatDay } from '../plan/dates';
import { type DisplayUnits, type Measure, measure, measureOf, type UnitSystem } from '../plan/display';
import type { Figure, Unit } from '../plan/figure';
import { caution } from '../room/caution';
import { consequenceText } from './compare-words';
import { displayUnits } from './explain';
import type { Consequence, LearnedSeason } from './learn-season';
import { planPart, present } from './parts';
import type { LearnReport } from './schemas';

type LessonJson = LearnReport['lessons'][number];

/** What records teach, as published JSON; `written` has the lessons that are in the plan now. */
export function learnReport(
  { plan, lessons, not, consequences, effects, together }: LearnedSeason,
  written: ReadonlySet<string>,
  system?: UnitSystem,
): LearnReport {
  const units = displayUnits(plan, system);
  return {
    format: 'lotwright-learn-report',
    version: 1,
    plan: planPart(plan),
    units: units.system,
    lessons: lessons.map((lesson) => ({
      id: lesson.id,
      kind: lesson.kind,
      section: lesson.section,
      entry: lesson.entry,
      values: lesson.values.map((value) => valuePart(value, units)),
      series: lesson.series.map(({ name, unit, points }) => ({
        name,
        points: points.map(({ from, to, about, seen, fitted }) =>
          present({
            from: formatDay(from),
            to: formatDay(to),
            about,
            seen: seen === undefined ? undefined : shown(seen, unit, units),
            fitted: intervalPart(fitted, unit, units),
          }),
        ),
      })),
      remarks: [...lesson.remarks],
      ...present({ effects: effects.get(lesson.id)?.map((one) => effectPart(one, units)) }),
      consequences: (consequences.get(lesson.id) ?? []).flatMap((one) => consequencePart(one, units)),
      writes: {
        file: plan[lesson.section].get(lesson.entry)?.at.file ?? '',
        key: lesson.key,
        value: writtenValue(lesson),
      },
      written: written.has(lesson.id),
    })),
    ...present({
      together: together && {
        lessons: [...together.lessons],
        effects: together.effects.map((one) => effectPart(one, units)),
      },
    }),
    notLearned: not.map(({ kind, entry, reason }) => ({ kind, entry, reason })),
    caution,
  };
}

/** What a lesson changes of the season, in a line. */
export function effectPart(effect: SeasonEffect, units: DisplayUnits) {
  const { kind, gravity, direction } = effect;
  return { kind, text: consequenceText(effect, units), gravity, direction };
}

function valuePart(value: LessonValue, units: DisplayUnits): LessonJson['values'][number] {
  const { name, unit, before, fitted, parts } = value;
  return present({
    name,
    before: before === undefined ? undefined : shown(before, unit, units),
    fitted: intervalPart(fitted, unit, units),
    told: isOutside(value),
    parts: parts?.map(({ cause, below, above }) => ({
      cause,
      below: shown(below, unit, units),
      above: shown(above, unit, units),
    })),
  });
}

function intervalPart({ value, low, high }: Interval, unit: Unit, units: DisplayUnits) {
  return { value: shown(value, unit, units), low: shown(low, unit, units), high: shown(high, unit, units) };
}

function shown(value: number, unit: Unit, units: DisplayUnits): Measure {
  return measure(value, unit, units) ?? { value: 0, unit: '' };
}

function consequencePart(
  { what, before, after }: Consequence,
  units: DisplayUnits,
): LessonJson['consequences'] {
  const [now, then] = [before, after].map((one) => (typeof one === 'string' ? one : figurePart(one, units)));
  return now === undefined || then === undefined ? [] : [{ what, before: now, after: then }];
}

function figurePart(figure: Figure, units: DisplayUnits): Measure | undefined {
  return measureOf(figure, units);
}
