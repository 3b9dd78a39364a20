import { formatDay, formatWeek, parseDay, parseWeek, weekOfDay } from '../dates';
import type { Fix, Problem } from '../problem';
import { quoted } from '../text/say';
import { type Checked, nameOf, problemAt } from './checked';

/** A text that is no day, no week, or no span of them, with the reason where one can be told. */
export function spanProblem(checked: Checked, text: string, place: { start: number; end: number }): Problem {
  const kind = checked.schema['x-kind'] ?? 'day';
  const isDay = kind.startsWith('day');
  const read = isDay ? parseDay : parseWeek;
  const [first, last] = text.split('..');
  const [from, to] = [read(first ?? ''), read(last ?? '')];
  const isSpan = kind.endsWith('span') && last !== undefined;
  if (isSpan && from !== undefined && to !== undefined && to < from)
    return problemAt(
      checked,
      'span-reversed',
      `This span ends (${last}) before it starts (${first}). Write the first ${isDay ? 'day' : 'week'} first.`,
      place,
      [
        {
          title: 'Exchange the two',
          edits: [{ at: { file: '', ...edges(place) }, newText: `${last}..${first}` }],
        },
      ],
    );
  const wrong =
    isSpan && from !== undefined ? (last ?? text) : isSpan && to !== undefined ? (first ?? text) : text;
  return problemAt(
    checked,
    isDay ? 'not-a-date' : 'not-a-week',
    `${isDay ? notADay(wrong) : notAWeek(wrong)}${expected(checked)}`,
    place,
    rewritten(text, kind, place),
  );
}

function edges({ start, end }: { start: number; end: number }) {
  return { start, end };
}

function expected(checked: Checked): string {
  const name = `\`${nameOf(checked)}\``;
  switch (checked.schema['x-kind']) {
    case 'day-span':
      return ` ${name} is a day such as \`2026-09-03\`, or the first and last of several: \`2026-09-03..2026-09-05\`.`;
    case 'week':
      return ' Weeks are written as in `2027-W09`.';
    case 'week-span':
      return ` ${name} is a week such as \`2026-W40\`, or the first and last of several: \`2026-W40..2027-W20\`.`;
    default:
      return ' Dates are written as in `2026-09-14`.';
  }
}

function notADay(text: string): string {
  if (/^\d{4}-\d{2}-\d{2}$/.test(text)) return `No calendar has the day ${quoted(text)}.`;
  return `${quoted(text)} is not a date.`;
}

function notAWeek(text: string): string {
  const match = /^(\d{4})-W(\d{2})$/.exec(text);
  if (!match) return `${quoted(text)} is not a week.`;
  const last = parseDay(`${match[1]}-12-28`);
  // 28 December always lies in the year's last week.
  const weeks = last === undefined ? '' : ` ${match[1]} has ${formatWeek(weekOfDay(last)).slice(-2)} weeks.`;
  return `There is no week ${quoted(text)}.${weeks}`;
}

/** The same day, week or span as the plan language writes it, where the text leaves no doubt. */
function rewritten(text: string, kind: string, place: { start: number; end: number }): Fix[] {
  const iso = kind.startsWith('day') ? isoDay : isoWeek;
  const parts = kind.endsWith('span') ? text.split('..') : [text];
  const ends = parts.map((part) => iso(part.trim()));
  if (parts.length > 2 || ends.includes(undefined)) return [];
  const newText = ends.join('..');
  return [{ title: `Write \`${newText}\``, edits: [{ at: { file: '', ...edges(place) }, newText }] }];
}

function isoDay(text: string): string | undefined {
  const yearFirst = /^(\d{4})[-/. ](\d{1,2})[-/. ](\d{1,2})$/.exec(text);
  // Days before months with full stops; with slashes both orders are in use, and only a day beyond 12 tells them apart.
  const yearLast =
    /^(\d{1,2})\. ?(\d{1,2})\. ?(\d{4})$/.exec(text) ??
    /^(1[3-9]|[23]\d)\/(0?[1-9]|1[0-2])\/(\d{4})$/.exec(text);
  const monthFirst = /^(0?[1-9]|1[0-2])\/(1[3-9]|[23]\d)\/(\d{4})$/.exec(text);
  const [year, month, day] = yearFirst
    ? yearFirst.slice(1)
    : yearLast
      ? [yearLast[3], yearLast[2], yearLast[1]]
      : monthFirst
        ? [monthFirst[3], monthFirst[1], monthFirst[2]]
        : [];
  if (!year || !month || !day) return undefined;
  const read = parseDay(`${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`);
  return read === undefined ? undefined : formatDay(read);
}

function isoWeek(text: string): string | undefined {
  const yearFirst = /^(\d{4})[- /]?(?:[Ww]|[Kk][Ww])? ?(\d{1,2})$/.exec(text);
  const weekFirst = /^(?:[Ww]|[Kk][Ww]|[Ww]eek)? ?(\d{1,2})[ /-](\d{4})$/.exec(text);
  const [year, week] = yearFirst ? yearFirst.slice(1) : weekFirst ? [weekFirst[2], weekFirst[1]] : [];
  if (!year || !week) {
    const day = parseDay(text);
    return day === undefined ? undefined : formatWeek(weekOfDay(day));
  }
  const read = parseWeek(`${year}-W${week.padStart(2, '0')}`);
  return read === undefined ? undefined : formatWeek(read);
}
