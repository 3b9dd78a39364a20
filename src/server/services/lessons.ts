import type { Lesson } from '../../learning/lesson';
import { differs, isWritten } from '../../learning/written';
import type { Plan } from '../../plan/model';
import type { Span } from '../../plan/span';
import { displayUnits } from '../../report/explain';
import { lessonLine } from '../../report/learn-words';
import type { Subject } from './subject';

/** Above an entry: that records say other than the plan. */
export interface LessonLens {
  readonly at: Span;
  readonly title: string;
  readonly lessons: readonly string[];
}

/** Lessons that differ from the plan and do not stand in it, by the entry each would change. */
export function lessonLenses(plan: Plan, lessons: readonly Lesson[], file: string): LessonLens[] {
  const units = displayUnits(plan);
  const byEntry = new Map<string, { at: Span; lessons: Lesson[] }>();
  for (const lesson of lessons) {
    const at = plan[lesson.section].get(lesson.entry)?.at;
    if (at?.file !== file || !differs(lesson) || isWritten(plan, lesson)) continue;
    const key = `${lesson.section} ${lesson.entry}`;
    const known = byEntry.get(key) ?? { at, lessons: [] };
    known.lessons.push(lesson);
    byEntry.set(key, known);
  }
  return [...byEntry.values()].map(({ at, lessons: here }) => ({
    at,
    title: here.map((lesson) => lessonLine(lesson, units)).join(' · '),
    lessons: here.map(({ id }) => id),
  }));
}

/** Lessons on an entry that do not stand in the plan; on a room also those of its fills, and on a fill those of its room. */
export function lessonsOn(plan: Plan, lessons: readonly Lesson[], { section, id }: Subject): Lesson[] {
  const isHere = (lesson: Lesson): boolean => {
    if (lesson.section === section) return lesson.entry === id;
    if (section === 'rooms' && lesson.section === 'fills')
      return plan.fills.get(lesson.entry)?.room?.value === id;
    return (
      section === 'fills' && lesson.section === 'rooms' && plan.fills.get(id)?.room?.value === lesson.entry
    );
  };
  return lessons.filter((lesson) => isHere(lesson) && !isWritten(plan, lesson));
}
