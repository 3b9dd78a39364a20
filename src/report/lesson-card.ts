import type { Lesson, LessonKind, LessonPoint } from '../learning/lesson';
import { differs, isWritten } from '../learning/written';
import { formatDay } from '../plan/dates';
import { type DisplayUnits, measure, measureLabel, showMeasure } from '../plan/display';
import type { Unit } from '../plan/figure';
import type { Plan } from '../plan/model';
import type { CardLesson, LessonPicture, LessonPicturePoint } from './card-types';
import { displayUnits } from './explain';
import { lessonLine } from './learn-words';

const TITLES: Readonly<Record<LessonKind, (entry: string) => string>> = {
  respiration: (entry) => `Respiration of ${entry}`,
  leakage: (entry) => `Leak of ${entry}`,
  firmness: (entry) => `Firmness of ${entry}`,
  packout: (entry) => `Packout of ${entry}`,
  crop: (entry) => `Crop of ${entry}`,
};

/** The lessons of a card: of the room, of its fill, and of the lots that the fill holds. `key` is the card's. */
export function cardLessons(plan: Plan, lessons: readonly Lesson[], key: string): CardLesson[] {
  const fill = plan.fills.get(key);
  const room = fill ? fill.room?.value : key.replace(/^room:/, '');
  const lots = new Set(fill?.lots.map(({ lot }) => lot.value));
  const isHere = ({ section, entry }: Lesson) =>
    section === 'fills' ? entry === key : section === 'rooms' ? entry === room : lots.has(entry);
  const units = displayUnits(plan);
  return lessons.filter(isHere).map((lesson) => ({
    id: lesson.id,
    title: TITLES[lesson.kind](lesson.entry),
    line: lessonLine(lesson, units),
    differs: differs(lesson),
    written: isWritten(plan, lesson),
    pictures: lesson.series.map((series) => pictureOf(series, units)),
    remarks: lesson.remarks,
  }));
}

function pictureOf({ name, unit, points }: Lesson['series'][number], units: DisplayUnits): LessonPicture {
  return {
    title: `${name.slice(0, 1).toUpperCase()}${name.slice(1)}`,
    unit: measureLabel(measure(0, unit, units)?.unit ?? ''),
    points: points.map((point) => pointOf(point, unit, units)),
  };
}

function pointOf(
  { from, to, about, seen, fitted }: LessonPoint,
  unit: Unit,
  units: DisplayUnits,
): LessonPicturePoint {
  const told = (value: number) => measure(value, unit, units) ?? { value: 0, unit: '' };
  const [value, low, high] = [told(fitted.value), told(fitted.low), told(fitted.high)];
  const read = seen === undefined ? undefined : told(seen);
  const days = from === to ? formatDay(from) : `${formatDay(from)} to ${formatDay(to)}`;
  return {
    label: about === undefined ? days : `${days}, ${about}`,
    at: (from + to) / 2,
    seen: read?.value ?? null,
    fitted: value.value,
    low: low.value,
    high: high.value,
    texts: [showMeasure(read), showMeasure(value), `${showMeasure(low)} to ${showMeasure(high)}`],
  };
}
