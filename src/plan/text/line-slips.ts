import { contentEnd, lineOf } from './masked';
import { quoted } from './say';
import { cut, insert, type Slip, together } from './slip';

const WORD = "[A-Za-z][\\w./'-]*";
const LEAD = '^( *(?:- +)?)';

/** A line of a chunk, and the same with quotes and comments masked. */
interface Line {
  readonly start: number;
  readonly end: number;
  /** Where the next line starts, or the text ends. */
  readonly next: number;
  readonly text: string;
  readonly mask: string;
  /** With its comment. */
  readonly all: string;
  /** The next line with content, deeper than this one. */
  readonly isOpening: boolean;
  /** The line before is an entry of a list. */
  readonly isInList: boolean;
}

/** The slips that a block's line may hold, those that are surest first. */
export function lineSlips(text: string, mask: string, at: number): Slip[] {
  const line = lineWith(text, mask, at);
  const found = [dash, dashMissing, colonSign, spaceBehindColon, colonAtEnd, braceMissing, colonMissing];
  return [...found.flatMap((slipIn) => slipIn(line) ?? []), ...comment(line)];
}

/** The slip of a line that opens others. */
export function openingSlip(text: string, mask: string, at: number): Slip | undefined {
  return colonAtEnd(lineWith(text, mask, at));
}

/** The slips of a sign between key and value that stand on several lines of a chunk, as one that mends them all. */
export function sameOnLines(text: string, mask: string): Slip[] {
  const lines: Line[] = [];
  for (let at = 0; at < mask.length; at = lineOf(text, at).next) lines.push(lineWith(text, mask, at));
  return [colonSign, spaceBehindColon, colonMissing].flatMap((slipIn) =>
    together(lines.flatMap((line) => slipIn(line) ?? [])),
  );
}

function lineWith(text: string, mask: string, at: number): Line {
  const span = lineOf(text, at);
  const end = contentEnd(mask, span);
  const line = mask.slice(span.start, end);
  const below = /\n( *)[^\s]/.exec(mask.slice(end))?.[1]?.length ?? 0;
  const before = mask.slice(0, span.start).trimEnd();
  const above = before.slice(before.lastIndexOf('\n') + 1);
  return {
    start: span.start,
    end,
    next: Math.min(span.next, text.length),
    text: text.slice(span.start, end),
    mask: line,
    all: text.slice(span.start, span.end),
    isOpening: below > line.length - line.trimStart().length,
    isInList: /^ *- /.test(above),
  };
}

/** A dash where no list stands. */
function dash({ start, next, text, mask, all }: Line): Slip | undefined {
  const [, before = '', sign = '', behind = ''] = /^( *)(-(?: +|$))(.*)$/.exec(mask) ?? [];
  if (!sign) return undefined;
  const at = start + before.length;
  const [name] = /^[^:]+(?=:)/.exec(text.slice(before.length + sign.length)) ?? [];
  if (behind === '')
    return {
      message: 'A dash stands alone here. It begins an entry of a list, and there is no list here.',
      start: at,
      end: at + 1,
      // With its line, unless a comment is behind it.
      repairs: [[all.trim() === '-' ? cut(start, next) : cut(at, at + 1)]],
      title: 'Delete the dash',
    };
  return {
    message: `A dash begins an entry of a list, and ${name ? `${quoted(name)} stands in none` : 'there is none here'}. Take the dash away.`,
    start: at,
    end: at + 1,
    repairs: [
      [cut(at, at + sign.length)],
      [{ start: at, end: at + sign.length, newText: ' '.repeat(sign.length) }],
    ],
    title: 'Take the dash away',
  };
}

/** A list's entry without its dash, or without the space behind it. */
function dashMissing({ start, mask, isInList }: Line): Slip | undefined {
  const [, before = '', sign = ''] = /^( *)(-?)(?=[^\s-])/.exec(mask) ?? [];
  if (!isInList) return undefined;
  const at = start + before.length;
  return {
    message: sign
      ? 'A space is missing behind the dash that begins this entry of the list.'
      : 'The entries of this list each begin with a dash and a space, and this one does not.',
    start: at,
    end: at + 1,
    repairs: [[insert(at + sign.length, sign ? ' ' : '- ')]],
    title: sign ? 'Put a space behind the dash' : 'Put a dash before it',
  };
}

/** Another sign that looks like a colon, or an equals sign in its place. */
function colonSign({ start, mask }: Line): Slip | undefined {
  const [, before = '', name = '', sign = ''] =
    new RegExp(`${LEAD}(${WORD})( *[=\uff1a\ufe55\ua789] *)`).exec(mask) ?? [];
  if (!sign) return undefined;
  const at = start + before.length + name.length;
  return {
    message: `${quoted(name)} is followed by \`${sign.trim()}\`, which is no colon. Write a colon and a space.`,
    start: at,
    end: at + sign.length,
    repairs: [[{ start: at, end: at + sign.length, newText: ': ' }]],
    title: 'Write a colon and a space',
  };
}

function spaceBehindColon({ start, mask }: Line): Slip | undefined {
  const [whole, before = '', name = ''] = new RegExp(`${LEAD}(${WORD}):(?=[^\\s:])`).exec(mask) ?? [];
  if (!whole) return undefined;
  const at = start + before.length;
  return {
    message: `A space is missing behind the colon of ${quoted(name)}.`,
    start: at,
    end: start + whole.length,
    repairs: [[insert(start + whole.length, ' ')]],
    title: 'Put a space behind the colon',
  };
}

/** A name alone on its line, with deeper lines below it. */
function colonAtEnd({ start, end, text, isOpening }: Line): Slip | undefined {
  const [whole, before = ''] = /^( *)[^\s:#{}[\],"'-][^:#{}[\],"']*$/.exec(text) ?? [];
  if (!isOpening || !whole) return undefined;
  const name = text.slice(before.length);
  return {
    message: `${quoted(name)} has no colon behind it, and what stands below belongs to it.`,
    start: start + before.length,
    end,
    repairs: [[insert(end, ':')]],
    title: 'Put a colon behind it',
  };
}

/** Keys with their values in one line behind a key, and no brace before them. */
function braceMissing({ start, end, mask }: Line): Slip[] {
  const key = '[^\\s:#{}[\\],][^:#{}[\\],]*: +';
  const [, before = '', inner = ''] = new RegExp(`${LEAD}${key}(?=(${key}))`).exec(mask) ?? [];
  const [whole = ''] = new RegExp(`${LEAD}${key}`).exec(mask) ?? [];
  if (!inner) return [];
  const at = start + whole.length;
  const name = inner.replace(/: +$/, '');
  const owner = whole.slice(before.length).replace(/: +$/, '');
  const opened = {
    message: `A \`{\` is missing before ${quoted(name)}.`,
    start: at,
    end: at + name.length,
    repairs: [[insert(at, '{ ')]],
    title: 'Add the `{`',
  };
  const both = {
    ...opened,
    message: `What belongs to ${quoted(owner)} stands on its line without braces. Put \`{\` before it and \`}\` behind it.`,
    repairs: [[insert(at, '{ '), insert(end, ' }')]],
    title: 'Put it in braces',
  };
  return mask.includes(',') ? [opened, both] : [opened];
}

/** A key and its value without the colon between them. */
function colonMissing({ start, mask }: Line): Slip | undefined {
  const [whole, before = '', name = ''] = new RegExp(`${LEAD}(${WORD})(?= +[^\\s:])`).exec(mask) ?? [];
  if (!whole) return undefined;
  const at = start + whole.length;
  return {
    message: `The colon is missing behind ${quoted(name)}.`,
    start: start + before.length,
    end: at,
    repairs: [[insert(at, ':')]],
    isOfKey: true,
    isStrict: true,
    title: 'Put a colon behind it',
  };
}

/** Words that are no key: a comment without its sign. */
function comment({ start, end, text }: Line): Slip[] {
  const [, before = '', sign = '', words = ''] = /^( *)(\/\/ *|-- +|; *)?([^\s].*)$/.exec(text) ?? [];
  if (!sign && (words.split(/\s+/).length < 4 || /: |[{}[\]]|:$/.test(words))) return [];
  const at = start + before.length;
  return [
    {
      message: `${quoted(text.trim())} is no key with a value. If it is a comment, it begins with \`#\` and a space.`,
      start: at,
      end,
      repairs: [[{ start: at, end: at + sign.length, newText: '# ' }]],
      title: 'Make it a comment',
    },
  ];
}
