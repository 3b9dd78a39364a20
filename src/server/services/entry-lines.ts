import { lineStartOf } from './key-scan';

/** The lines around a place that say which keys lead to it: its section's heading, and the entry it stands in. */
export interface EntryAround {
  /** Where the heading's line begins. */
  readonly heading: number;
  /** Where the entry's first line begins. */
  readonly start: number;
  readonly end: number;
}

/**
 * The entry around an offset, by indentation alone: no line of an entry stands at or left of its key, but for brackets
 * that close. So going up, each line that stands further left than all below it holds a key that leads to the place.
 */
export function entryAround(text: string, offset: number): EntryAround {
  let least = Number.POSITIVE_INFINITY;
  let start = lineStartOf(text, offset);
  let heading = start;
  for (let line = start; ; line = lineStartOf(text, line - 1)) {
    const indent = indentAt(text, line);
    heading = line;
    if (indent === 0 || line === 0) break;
    if (indent === undefined || indent >= least) continue;
    least = indent;
    start = line;
  }
  // Without a heading all that stands above the place may matter.
  if (least === Number.POSITIVE_INFINITY || indentAt(text, heading) !== 0) start = heading;
  let end = nextLine(text, offset);
  while (end < text.length && (indentAt(text, end) ?? least + 1) > least) end = nextLine(text, end);
  return { heading, start, end: end < text.length ? end - 1 : end };
}

/** Where the section ends whose heading begins at an offset. */
export function sectionEnd(text: string, heading: number): number {
  let end = nextLine(text, heading);
  while (end < text.length && indentAt(text, end) !== 0) end = nextLine(text, end);
  return end < text.length ? end - 1 : end;
}

function nextLine(text: string, offset: number): number {
  const feed = text.indexOf('\n', offset);
  return feed < 0 ? text.length : feed + 1;
}

/**
 * How far in the key of a line stands; an item of a list stands one further in than its dash, since it belongs to a
 * key at the same indent. Undefined for lines that say nothing of it: blank ones, comments, and closing brackets.
 */
function indentAt(text: string, line: number): number | undefined {
  let at = line;
  while (text[at] === ' ' || text[at] === '\t') at++;
  const sign = text[at];
  if (sign === undefined || '\r\n#}],'.includes(sign)) return undefined;
  return sign === '-' ? at - line + 1 : at - line;
}
