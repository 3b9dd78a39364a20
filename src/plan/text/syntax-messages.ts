import type { YAMLParseError } from 'yaml';
import type { Fix, Problem } from '../problem';
import { quoted } from './say';

/** What the YAML reader's errors mean for the planner, by its codes. */
const MESSAGES: Readonly<Record<string, string>> = {
  BAD_INDENT:
    'This line is not indented as YAML needs. Lines that belong together start in the same column; what belongs to a key stands deeper than it, a closing bracket too.',
  TAB_AS_INDENT: 'Tabs cannot indent a plan. Use two spaces for each step.',
  MISSING_CHAR: 'A closing quote or bracket, a colon or a comma is missing here.',
  UNEXPECTED_TOKEN: 'This was not expected here. Text with special characters belongs in quotes.',
  BAD_SCALAR_START: 'Text cannot begin with this character. Put it in quotes.',
  MULTILINE_IMPLICIT_KEY: 'A key must stand on one line, with a colon and a space behind it.',
  BAD_DQ_ESCAPE: 'There is no such escape in double quotes. Write a backslash twice, or use single quotes.',
  BLOCK_IN_FLOW: 'Inside brackets the values are separated by commas, not by lines and indentation.',
  KEY_OVER_1024_CHARS: 'A key this long cannot be read. Is a quote or a colon missing?',
  BAD_COLLECTION_TYPE: 'A list and a map are mixed here.',
  RESOURCE_EXHAUSTION: 'This is too much for one value.',
};

/** What a parse error says, at its place relative to the chunk. */
export function syntaxProblem(text: string, error: YAMLParseError): Problem {
  const [from, to] = error.pos;
  const start = Math.min(from, text.length);
  const end = Math.min(Math.max(to, start), text.length);
  const line = lineAround(text, start);
  const { message, fixes } = wording(text, error, line, start);
  return {
    code: 'yaml-syntax',
    message,
    at: { file: '', start, end },
    about: `${error.code.toLowerCase()}/${line.text.trim().slice(0, 40)}`,
    ...(fixes.length > 0 ? { fixes } : {}),
  };
}

interface LineText {
  readonly start: number;
  readonly text: string;
}

function wording(text: string, error: YAMLParseError, line: LineText, start: number) {
  if (error.code === 'BLOCK_AS_IMPLICIT_KEY' || /[Nn]ested mappings|compact/.test(error.message))
    return {
      message:
        'A colon with a space behind it begins a value, and this line has two. Put text that has one in quotes.',
      fixes: quoteValue(line),
    };
  if (/[Ii]mplicit map keys? need/.test(error.message)) {
    const key = text.slice(start).split(/[\r\n]/, 1)[0] ?? '';
    return {
      message: `${quoted(key || line.text)} has no value: a key is followed by a colon, a space and its value.`,
      fixes: [],
    };
  }
  if (/quote/.test(error.message))
    return {
      message: 'The text in quotes that begins here or above is not closed. Add the closing quote.',
      fixes: [],
    };
  if (
    /must end with|expected flow|Flow (?:map|sequence).*end/i.test(error.message) &&
    error.code !== 'BAD_INDENT'
  )
    return { message: 'A bracket is not closed: a `}` or `]` is missing here.', fixes: [] };
  if (error.code === 'BAD_INDENT' && /must be sufficiently indented and end/.test(error.message))
    return {
      message:
        'A bracket is not closed before this place. Add the missing `}` or `]`, or indent it deeper than the key it belongs to.',
      fixes: [],
    };
  if (error.code === 'BAD_SCALAR_START')
    return { message: MESSAGES.BAD_SCALAR_START ?? '', fixes: quoteValue(line) };
  return { message: MESSAGES[error.code] ?? 'This is not valid YAML.', fixes: [] };
}

/** Puts quotes around all that follows a line's first key. */
function quoteValue(line: LineText): Fix[] {
  const match = /^(\s*(?:- )?[A-Za-z][\w .'/-]*:\s+)([^\s"'[{#][^#]*?)\s*(?:\s#.*)?$/.exec(line.text);
  if (!match) return [];
  const [, before = '', value = ''] = match;
  const start = line.start + before.length;
  const at = { file: '', start, end: start + value.length };
  return [{ title: 'Put the text in quotes', edits: [{ at, newText: `'${value.replaceAll("'", "''")}'` }] }];
}

function lineAround(text: string, offset: number): LineText {
  const start = text.lastIndexOf('\n', offset - 1) + 1;
  const feed = text.indexOf('\n', offset);
  return { start, text: text.slice(start, feed < 0 ? text.length : feed).replace(/\r$/, '') };
}

export function tooDeep(start: number): Problem {
  return {
    code: 'yaml-syntax',
    message: 'Brackets or lists are nested far deeper than any plan needs, so this part is not read.',
    at: { file: '', start, end: start + 1 },
    about: 'depth',
  };
}

export function tooLarge(text: string): Problem {
  return {
    code: 'file-too-large',
    message:
      'This part of the file is too large to be read at once. Write its entries in lines of their own, one below the other.',
    at: { file: '', start: 0, end: Math.min(text.length, 1) },
    about: 'chunk',
  };
}
