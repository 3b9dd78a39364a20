import type { Fix, Problem } from '../problem';
import type { Span } from '../span';
import { type Blank, blanked } from './blank';
import { readConflicts } from './conflicts';
import { readDocumentMarks } from './document-marks';
import { readOddSpaces } from './odd-spaces';
import { indentWithSpaces } from './tabs';

/** Larger files are not read: 20,000 lots in one file have five million. UTF-16 code units. */
export const MOST_TEXT = 8 * 1024 * 1024;
const MOST_CONTROL_CHARACTERS = 16;
const MOST_EDITS = 20_000;

/** The same for lines: a plan of 3,000 lots in one file has 40,000. */
export const MOST_LINES = 100_000;

/** A file's text made fit for reading, every character still at its offset. */
export interface NormalText {
  /** Undefined where the text is not to be read at all. */
  readonly text: string | undefined;
  readonly problems: readonly Problem[];
  /** Where tabs indent it, from the first on. */
  readonly tabs: readonly number[];
}

/**
 * Sets aside what would mislead a YAML reader: byte order mark, lone carriage returns, indenting tabs, characters that
 * look like spaces, control characters, merge conflicts, document marks and directives. Each but the first is told as a problem.
 */
export function normalText(file: string, text: string): NormalText {
  if (text.length > MOST_TEXT) return unread([tooLarge(file, text)]);
  const { blanks, problems, isText, lines, tabs } = readCharacters(file, text);
  if (lines > MOST_LINES) return unread([tooManyLines(file, lines)]);
  if (!isText) return unread(problems);
  let normal = blanked(text, blanks);
  for (const read of [readConflicts, readDocumentMarks]) {
    const found = read(file, normal);
    problems.push(...found.problems);
    normal = blanked(normal, found.blanks);
  }
  return { text: normal, problems, tabs };
}

function unread(problems: readonly Problem[]): NormalText {
  return { text: undefined, problems, tabs: [] };
}

function tooLarge(file: string, text: string): Problem {
  const size = (text.length / 1024 / 1024).toFixed(1);
  return notRead(file, `${size} million characters; files above ${MOST_TEXT / 1024 / 1024} million`);
}

function tooManyLines(file: string, lines: number): Problem {
  return notRead(file, `${lines} lines; files above ${MOST_LINES} lines`);
}

function notRead(file: string, what: string): Problem {
  return {
    code: 'file-too-large',
    message: `This file has ${what} are not read. Split the plan into several files, or take this one out of the folder.`,
    at: { file, start: 0, end: 1 },
    about: 'file',
  };
}

/** What a reader of UTF-8 puts in the place of bytes that are no letter. */
const NOT_READABLE = 0xfffd;

interface Characters {
  readonly blanks: Blank[];
  readonly problems: Problem[];
  readonly isText: boolean;
  readonly lines: number;
  readonly tabs: readonly number[];
}

/** Of characters: a text without any of these is read as it stands. */
const SET_ASIDE =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
  /[\0-\x09\x0b\x0c\x0e-\x1f\x7f\u00a0\u00ad\u1680\u2000-\u200d\u202f\u205f\u2060\u3000\ufeff\ufffd]|\r(?!\n)/;

function readCharacters(file: string, text: string): Characters {
  if (!SET_ASIDE.test(text))
    return { blanks: [], problems: [], isText: true, lines: linesIn(text), tabs: [] };
  const blanks: Blank[] = [];
  const controls: number[] = [];
  const returns: number[] = [];
  const tabs: number[] = [];
  const lost: number[] = [];
  // What follows it stands at its line's start: a space in its place would indent the first key.
  if (text.charCodeAt(0) === 0xfeff) blanks.push({ start: 0, end: 1, with: '\n' });
  let indenting = true;
  let lines = 1;
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    if (code === 10) {
      indenting = true;
      lines++;
    } else if (code === 13) {
      if (text.charCodeAt(index + 1) === 10) continue;
      returns.push(index);
      indenting = true;
      lines++;
    } else if (code === 9) {
      if (indenting) tabs.push(index);
    } else if (code < 32 || code === 127) {
      controls.push(index);
      if (controls.length > MOST_CONTROL_CHARACTERS)
        return { blanks: [], problems: [notText(file, controls[0] ?? 0)], isText: false, lines, tabs: [] };
    } else if (code === NOT_READABLE) {
      lost.push(index);
      indenting = false;
    } else if (code !== 32) indenting = indenting && code === 0xfeff;
  }
  const odd = readOddSpaces(file, text, MOST_EDITS);
  for (const blank of odd.blanks) blanks.push(blank);
  for (const start of returns) blanks.push({ start, end: start + 1, with: '\n' });
  for (const start of [...tabs, ...controls]) blanks.push({ start, end: start + 1, with: ' ' });
  return {
    blanks,
    isText: true,
    lines,
    tabs,
    problems: [...characterProblems(file, text, { controls, returns, tabs, lost }), ...odd.problems],
  };
}

/** How many there are; where they cannot be too many, they are not counted. */
function linesIn(text: string): number {
  let lines = 1;
  if (text.length <= MOST_LINES) return lines;
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) lines++;
  return lines;
}

function characterProblems(
  file: string,
  text: string,
  { controls, returns, tabs, lost }: Readonly<Record<'controls' | 'returns' | 'tabs' | 'lost', number[]>>,
): Problem[] {
  const spans = (places: readonly number[]) =>
    places.slice(0, MOST_EDITS + 1).map((start) => ({ file, start, end: start + 1 }));
  const problems = controls.map((start): Problem => {
    const at = { file, start, end: start + 1 };
    const code = text.charCodeAt(start).toString(16).padStart(4, '0');
    return {
      code: 'yaml-syntax',
      message: `A control character (U+${code}) stands here, where only text may stand. Delete it.`,
      at,
      about: `control/${start}`,
      fixes: [{ title: 'Delete the control character', edits: [{ at, newText: '' }] }],
    };
  });
  const [firstReturn] = spans(returns);
  if (firstReturn)
    problems.push({
      code: 'line-ending',
      message: `This line ends with a carriage return alone, which YAML readers do not agree on${more(returns.length)}. Save the file with line feeds (LF or CRLF).`,
      at: firstReturn,
      about: 'line-ending',
      fixes: fixAll('Use line feeds in this file', spans(returns), '\n'),
    });
  const [firstLost] = spans(lost);
  if (firstLost)
    problems.push({
      code: 'not-text',
      message: `A letter here cannot be read${more(lost.length)}: this file is not saved as UTF-8, or was not once. Save it as UTF-8, and write the letter anew where it is lost. The rest of the file is read.`,
      at: firstLost,
      about: 'letters',
    });
  const [firstTab] = spans(tabs);
  if (firstTab)
    problems.push({
      code: 'tab-indent',
      message: `Tabs cannot indent a plan${more(tabs.length)}. Use two spaces for each step.`,
      at: firstTab,
      about: 'tab-indent',
      fixes: tabs.length > MOST_EDITS ? [] : indentWithSpaces(file, text),
    });
  return problems;
}

/** One fix for all places; none where there are more than an editor should be asked to change at once. */
function fixAll(title: string, places: readonly Span[], newText: string): Fix[] {
  return places.length > MOST_EDITS ? [] : [{ title, edits: places.map((at) => ({ at, newText })) }];
}

function more(count: number): string {
  return count > 1 ? ` (${count} places in this file)` : '';
}

function notText(file: string, start: number): Problem {
  return {
    code: 'not-text',
    message:
      'This file is not text, or not saved as UTF-8, so it is not read. Save it as UTF-8, or take it out of the folder.',
    at: { file, start, end: start + 1 },
    about: 'file',
  };
}
