import { type Day, formatDay } from '../../plan/dates';
import { shortened } from '../../plan/shortened';
import { caution } from '../../room/caution';
import { type CalendarEvent, nextIssue, type PreviousCalendar } from './calendar-issue';
import { linesText, type Property, textValue } from './calendar-lines';
import type { CalendarTask, Paper } from './paper';
import { hatchRule } from './sampling';

export const PRODUCT = '-//Lotwright//Release schedule//EN';

/** Says which calendar a file is, so that another one is not taken for its last issue. */
export const IDENTITY = 'X-LOTWRIGHT-CALENDAR';

/** Nobody stands before a sealed room for these. */
const WITHOUT_CAUTION: ReadonlySet<CalendarTask['kind']> = new Set(['sell', 'short']);

export interface CalendarOptions {
  /** Day of issue: the stamp of what is new or has changed. */
  readonly stamp: Day;
  /** The last issue, so that what stays keeps its stamp and number, and what is gone is cancelled. */
  readonly previous?: PreviousCalendar | undefined;
}

/**
 * A paper's tasks as iCalendar (RFC 5545): all-day events whose identifiers follow from the plan's name, the reader, the
 * fill and the kind of task, so that a subscribed calendar changes in place from issue to issue.
 */
export function calendarText(paper: Paper, { stamp, previous }: CalendarOptions): string {
  const identity = calendarIdentity(paper);
  const events = paper.tasks.map((task) => eventOf(task, identity));
  const name = textValue(`${shortened(paper.account.title)}: ${paper.title}`);
  return linesText([
    ['BEGIN', 'VCALENDAR'],
    ['VERSION', '2.0'],
    ['PRODID', PRODUCT],
    ['CALSCALE', 'GREGORIAN'],
    [IDENTITY, identity],
    ['NAME', name],
    ['X-WR-CALNAME', name],
    ...(paper.account.basis === '' ? [] : calendarDescription(`${paper.account.basis}\n\n${caution}`)),
    ...nextIssue(events, previous?.events ?? [], `${plainDay(stamp)}T000000Z`).flatMap(eventLines),
    ['END', 'VCALENDAR'],
  ]);
}

/** As RFC 7986 has it, and as calendars knew it before. */
function calendarDescription(words: string): Property[] {
  return [
    ['DESCRIPTION', textValue(words)],
    ['X-WR-CALDESC', textValue(words)],
  ];
}

/** The plan and the reader, without anything that a calendar would have to escape. */
export function calendarIdentity({ account, reader, grower }: Paper): string {
  return [account.title, reader, ...(grower === undefined ? [] : [grower])].map(identifier).join('/');
}

function identifier(text: string): string {
  return encodeURIComponent(text.replace(/\p{Surrogate}/gu, '\uFFFD'));
}

function eventOf(task: CalendarTask, identity: string): CalendarEvent {
  const which = task.which === '' ? [] : [task.which];
  const words = [
    ...(task.detail === '' ? [] : [task.detail]),
    ...(task.kind === 'sample' ? [hatchRule] : []),
    ...(WITHOUT_CAUTION.has(task.kind) ? [] : [caution]),
  ];
  return {
    uid: `${identity}/${[task.about, task.kind, ...which].map(identifier).join('/')}@lotwright`,
    told: [
      ['DTSTART;VALUE=DATE', plainDay(task.first)],
      // The end is the first day that is no longer part of it.
      ['DTEND;VALUE=DATE', plainDay(task.last + 1)],
      ['SUMMARY', textValue(task.title)],
      ['DESCRIPTION', textValue(words.join('\n\n'))],
      ['CATEGORIES', textValue(task.kind)],
      ['TRANSP', 'TRANSPARENT'],
    ],
  };
}

function eventLines({
  uid,
  told,
  sequence,
  stamp,
  cancelled,
}: ReturnType<typeof nextIssue>[number]): Property[] {
  return [
    ['BEGIN', 'VEVENT'],
    ['UID', uid],
    ['DTSTAMP', stamp],
    ['SEQUENCE', String(sequence)],
    ['STATUS', cancelled ? 'CANCELLED' : 'CONFIRMED'],
    ...told,
    ['END', 'VEVENT'],
  ];
}

/** `20270104` */
function plainDay(day: Day): string {
  return formatDay(day).replaceAll('-', '');
}
