import type { Finding } from '../findings/types';
import { parseDay, parseWeek, type Week, weekOfDay } from '../plan/dates';
import type { FindingMark } from './timeline-types';
import type { TimeAxis } from './timeline-weeks';

const WEEK_OR_DAY = /\b\d{4}-(?:W\d{2}|\d{2}-\d{2})\b/;

/** The week a finding tells of: the first week or day that its message names; undefined where it names none. */
export function weekTold({ message }: Pick<Finding, 'message'>): Week | undefined {
  const [text] = WEEK_OR_DAY.exec(message) ?? [];
  if (text === undefined) return undefined;
  if (text.includes('W')) return parseWeek(text);
  const day = parseDay(text);
  return day === undefined ? undefined : weekOfDay(day);
}

/** Findings at their weeks on the axis, the gravest first; those that tell of no week on it are left out. */
export function marksOf(findings: readonly Finding[], { firstWeek, weeks }: TimeAxis): FindingMark[] {
  const marks = findings.flatMap((finding): FindingMark[] => {
    const week = weekTold(finding);
    if (week === undefined || week < firstWeek || week >= firstWeek + weeks) return [];
    const { severity, message, at } = finding;
    return [
      {
        week: week - firstWeek,
        severity,
        text: message,
        target: { file: at.file, start: at.start, end: at.end },
      },
    ];
  });
  return marks.sort((a, b) => GRAVITY[a.severity] - GRAVITY[b.severity]);
}

const GRAVITY = { error: 0, warning: 1, notice: 2 } as const;
