import fc from 'fast-check';
import ICAL from 'ical.js';
import { convertIcsCalendar } from 'ts-ics';
import { describe, expect, test } from 'vitest';
import { formatDay } from '../../../src/plan/dates';
import { calendarText, IDENTITY } from '../../../src/report/papers/calendar';
import { readCalendar } from '../../../src/report/papers/calendar-issue';
import { linesText, propertiesOf, textValue, valueText } from '../../../src/report/papers/calendar-lines';
import type { CalendarTask, Paper } from '../../../src/report/papers/paper';
import { papersFor } from '../../../src/report/papers/papers';
import { caution } from '../../../src/room/caution';
import { accountOf, on, paperOf } from './seasons';

interface Read {
  readonly uid: string;
  readonly summary: string;
  readonly start: string;
  /** Exclusive. */
  readonly end: string;
  readonly sequence: number;
  readonly cancelled: boolean;
  readonly stamp: string;
}

const byUid = (a: Read, b: Read) => (a.uid < b.uid ? -1 : 1);

function readByOne(text: string): Read[] {
  const component = new ICAL.Component(ICAL.parse(text));
  return component
    .getAllSubcomponents('vevent')
    .map((one) => {
      const event = new ICAL.Event(one);
      expect(event.startDate.isDate && event.endDate.isDate).toBe(true);
      return {
        uid: event.uid,
        summary: event.summary,
        start: event.startDate.toString(),
        end: event.endDate.toString(),
        sequence: event.sequence,
        cancelled: one.getFirstPropertyValue('status') === 'CANCELLED',
        stamp: String(one.getFirstPropertyValue('dtstamp')).slice(0, 10),
      };
    })
    .sort(byUid);
}

function readByOther(text: string): Read[] {
  const day = (date: Date | undefined) => date?.toISOString().slice(0, 10) ?? '';
  return (convertIcsCalendar(undefined, text).events ?? [])
    .map(({ uid, summary, start, end, sequence, status, stamp }) => {
      expect([start.type, end?.type]).toEqual(['DATE', 'DATE']);
      return {
        uid,
        summary,
        start: day(start.date),
        end: day(end?.date),
        sequence: sequence ?? 0,
        cancelled: status === 'CANCELLED',
        stamp: day(stamp.date),
      };
    })
    .sort(byUid);
}

/** What both libraries read, which is to be the same. */
function readByBoth(text: string): Read[] {
  const read = readByOne(text);
  expect(readByOther(text)).toEqual(read);
  return read;
}

const octets = (line: string) => Buffer.byteLength(line, 'utf8');

describe('content lines', () => {
  const anyText = fc.oneof(fc.string({ unit: 'binary' }), fc.stringMatching(/^[\\;,:"\r\nnN \t]*$/));

  test('of any text are at most 75 octets long and read back as the text', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const written = linesText([['SUMMARY', textValue(text)]]);
        for (const line of written.split('\r\n')) expect(octets(line)).toBeLessThanOrEqual(75);
        const [property] = propertiesOf(written);
        const kept = text
          .replace(/\r\n?/g, '\n')
          .replace(/\p{Surrogate}/gu, '\uFFFD')
          .replace(/[^\P{Control}\n\t]/gu, '');
        expect(valueText(property?.[1] ?? '')).toBe(kept);
      }),
    );
  });

  test('of any text mean the same to a library', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        const event = [
          ['BEGIN', 'VCALENDAR'],
          ['BEGIN', 'VEVENT'],
          ['SUMMARY', textValue(text)],
          ['END', 'VEVENT'],
          ['END', 'VCALENDAR'],
        ] as const;
        const component = new ICAL.Component(ICAL.parse(linesText(event)));
        expect(component.getFirstSubcomponent('vevent')?.getFirstPropertyValue('summary')).toBe(text);
      }),
    );
  });
});

const stamp = on('2026-11-27');
const readers = ['packhouse', 'sales', 'cold-store', 'lab', 'growers', 'everyone'] as const;

describe.each(['first-season', 'us-units', 'full-season'])('the calendars of %s', (name) => {
  const account = accountOf(name);

  test.each(readers)('for %s read in two libraries as the tasks they were made from', (reader) => {
    for (const paper of papersFor(account, reader)) {
      const text = calendarText(paper, { stamp });
      expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
      for (const line of text.split('\r\n')) expect(octets(line)).toBeLessThanOrEqual(75);
      const read = readByBoth(text);
      expect(new Set(read.map(({ uid }) => uid)).size).toBe(paper.tasks.length);
      const told = paper.tasks.map(({ title, first, last }) => [
        title,
        formatDay(first),
        formatDay(last + 1),
      ]);
      expect(read.map(({ summary, start, end }) => [summary, start, end]).sort()).toEqual(told.sort());
    }
  });
});

test('every event about a room carries the caution in full', () => {
  const account = accountOf('first-season');
  for (const reader of ['packhouse', 'cold-store', 'lab', 'growers'] as const)
    for (const paper of papersFor(account, reader)) {
      const component = new ICAL.Component(ICAL.parse(calendarText(paper, { stamp })));
      const events = component.getAllSubcomponents('vevent');
      expect(events.length).toBeGreaterThan(0);
      for (const event of events) expect(event.getFirstPropertyValue('description')).toContain(caution);
    }
});

describe('issue after issue', () => {
  const paper = paperOf(accountOf('first-season'), 'cold-store');
  const again = (one: Paper, before: string, day: number) =>
    calendarText(one, { stamp: day, previous: readCalendar(before, IDENTITY) });

  test('a calendar that has not changed is the same text on any day', () => {
    const first = calendarText(paper, { stamp });
    expect(again(paper, first, stamp + 7)).toBe(first);
  });

  test('a pin that is moved changes the events of its room alone, in place', () => {
    const first = calendarText(paper, { stamp });
    const moved = paperOf(
      accountOf('first-season', {}, [['open: 2027-W01', 'open: 2027-W02']]),
      'cold-store',
    );
    const [before, after] = [readByBoth(first), readByBoth(again(moved, first, stamp + 7))];
    const open = (list: readonly Read[]) => list.find(({ uid }) => uid.endsWith('/R2-gala/open@lotwright'));
    expect(open(before)).toMatchObject({ sequence: 0, start: '2027-01-04' });
    expect(open(after)).toMatchObject({ sequence: 1, start: '2027-01-11', stamp: '2026-12-04' });
    const sealed = (list: readonly Read[]) => list.find(({ uid }) => uid.endsWith('/R2-gala/seal@lotwright'));
    expect(sealed(after)).toEqual(sealed(before));
  });

  const change = fc.record({
    moved: fc.array(fc.tuple(fc.nat(60), fc.integer({ min: -21, max: 21 })), { maxLength: 6 }),
    reworded: fc.array(fc.tuple(fc.nat(60), fc.string({ unit: 'grapheme' })), { maxLength: 4 }),
    gone: fc.array(fc.nat(60), { maxLength: 6 }),
  });

  test('ten times over: identity stays, numbers grow with changes alone, what is gone is cancelled', () => {
    fc.assert(
      fc.property(fc.array(change, { minLength: 10, maxLength: 10 }), (changes) => {
        let text = calendarText(paper, { stamp });
        let before = new Map(readByBoth(text).map((event) => [event.uid, event]));
        changes.forEach((one, issue) => {
          const day = stamp + 7 * (issue + 1);
          text = again({ ...paper, tasks: changed(paper.tasks, one) }, text, day);
          const after = new Map(readByBoth(text).map((event) => [event.uid, event]));
          for (const [uid, old] of before) expectFollows(old, after.get(uid), formatDay(day));
          before = after;
        });
        // All events there ever were are still in the file.
        expect(before.size).toBe(paper.tasks.length);
      }),
      { numRuns: 8 },
    );
  });

  function changed(
    tasks: readonly CalendarTask[],
    { moved, reworded, gone }: { moved: [number, number][]; reworded: [number, string][]; gone: number[] },
  ): CalendarTask[] {
    const list = [...tasks];
    const edit = (at: number, to: (task: CalendarTask) => CalendarTask) => {
      const task = list[at % list.length];
      if (task) list[at % list.length] = to(task);
    };
    for (const [at, days] of moved)
      edit(at, (task) => ({ ...task, first: task.first + days, last: task.last + days }));
    for (const [at, words] of reworded) edit(at, (task) => ({ ...task, title: `Do ${words}.` }));
    const left = new Set(gone.map((at) => at % list.length));
    return list.filter((_, index) => !left.has(index));
  }

  function expectFollows(old: Read, now: Read | undefined, day: string): void {
    const { sequence, stamp: _, ...told } = now ?? old;
    const { sequence: oldSequence, stamp: __, ...oldTold } = old;
    expect(now).toBeDefined();
    const isSame = JSON.stringify(told) === JSON.stringify(oldTold);
    expect(sequence).toBe(isSame ? oldSequence : oldSequence + 1);
    expect(now?.stamp).toBe(isSame ? old.stamp : day);
  }

  test('of anything that is no calendar reads as nothing, without an error', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(readCalendar(text, IDENTITY).events).toEqual([]);
      }),
    );
  });
});
