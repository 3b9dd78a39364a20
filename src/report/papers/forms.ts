import type { Day } from '../../plan/dates';
import type { PreviousCalendar } from './calendar-issue';
import type { PaperSize } from './html-style';

/** What a paper can be written as. */
export const FORMS = ['markdown', 'html', 'csv', 'workbook', 'calendar', 'json'] as const;
export type Form = (typeof FORMS)[number];

/** A file of an issue, before it is known where it goes. */
export interface PaperFile {
  readonly name: string;
  /** For a calendar, what it becomes depends on its last issue. */
  content(previous?: PreviousCalendar): string | Uint8Array;
  /** Whether a file that stands at its place is an earlier issue of it. */
  isEarlier(text: string): boolean;
  readonly calendarOf?: string;
}

export interface Shape {
  readonly size: PaperSize;
  readonly stamp: Day;
  /** One table only, of CSV. */
  readonly table?: string | undefined;
}
