import { contentEnd, lineOf } from './masked';
import { quoted } from './say';
import { cut, insert, type Slip, together } from './slip';

/** A key in braces that follows a value with nothing between them, on its line or the one above. */
const NO_COMMA = /(?<=[^\s,:{[])(\s+)([A-Za-z][\w.-]*:) /g;
/** Enough for the longest line that anybody writes. */
const MOST_IN_LINE = 12;

/** The slips that a line in braces may hold: signs between the values that are missing, too many or others. */
export function flowSlips(text: string, mask: string, at: number): Slip[] {
  const span = lineOf(text, at);
  const line = mask.slice(span.start, contentEnd(mask, span));
  // The comma at a line's end is the one that is soonest lost.
  const from = Math.max(0, mask.slice(0, span.start).trimEnd().length - 1);
  const below = contentEnd(mask, lineOf(text, Math.min(span.next, text.length)));
  return [
    ...signs(span.start, line, /,(\s*,)/g, doubleComma),
    ...signs(span.start, line, /;/g, semicolon),
    ...signs(from, mask.slice(from, below), NO_COMMA, commaMissing),
  ];
}

/** Commas that are missing, or semicolons in their place, wherever they are in a chunk, as one slip that mends them all. */
export function sameInBraces(mask: string): Slip[] {
  return [...together(signs(0, mask, /;/g, semicolon)), ...together(signs(0, mask, NO_COMMA, commaMissing))];
}

function signs(start: number, line: string, pattern: RegExp, slipAt: SlipAt): Slip[] {
  const found = [...line.matchAll(pattern)].slice(0, MOST_IN_LINE);
  return found.map((match) => slipAt(start + match.index, match));
}

type SlipAt = (at: number, match: RegExpExecArray) => Slip;

const doubleComma: SlipAt = (at, { 0: whole }) => ({
  message: 'Two commas stand here, and one separates two values.',
  start: at,
  end: at + whole.length,
  repairs: [[cut(at + 1, at + whole.length)]],
  title: 'Delete one comma',
});

const semicolon: SlipAt = (at) => ({
  message: 'In braces a comma separates the values, not a semicolon.',
  start: at,
  end: at + 1,
  repairs: [[{ start: at, end: at + 1, newText: ',' }]],
  title: 'Write a comma',
});

const commaMissing: SlipAt = (at, [, spaces = '', key = '']) => ({
  message: `A comma is missing before ${quoted(key.slice(0, -1))}.`,
  start: at + spaces.length,
  end: at + spaces.length + key.length - 1,
  repairs: [[insert(at, ',')]],
  title: 'Put a comma before it',
});
