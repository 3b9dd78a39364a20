import type { YAMLParseError } from 'yaml';
import type { Fix, Problem } from '../problem';
import { masked } from './masked';
import { quoted } from './say';

/** What the YAML reader's errors mean for the planner, by its codes. */
const MESSAGES: Readonly<Record<string, string>> = {
  BAD_INDENT:
    'This line is not indented as YAML needs. Lines that belong together start in the same column; what belongs to a key stands deeper than it, a closing bracket too.',
  TAB_AS_INDENT: 'Tabs cannot indent a plan. Use two spaces for each step.',
  MISSING_CHAR: 'A closing quote or bracket, a colon or a comma is missing here.',
  UNEXPECTED_TOKEN:
    'This does not belong here: what stands before it is a whole value already, or lacks a sign.',
  BAD_SCALAR_START: 'Text cannot begin with this character. Put it in quotes.',
  BAD_DQ_ESCAPE: 'There is no such escape in double quotes. Write a backslash twice, or use single quotes.',
  BLOCK_IN_FLOW: 'Inside brackets the values are separated by commas, not by lines and indentation.',
  KEY_OVER_1024_CHARS: 'A key this long cannot be read. Is a quote or a colon missing?',
  BAD_COLLECTION_TYPE: 'A list and a map are mixed here.',
  RESOURCE_EXHAUSTION: 'This is too much for one value.',
};

const TWO_COLONS =
  'A colon with a space behind it begins a value, and this line has two. Put text that has one in quotes.';
const UNFIT =
  'This line does not fit those around it. Each key stands on its own line in the column of those beside it, with a colon, a space and its value.';

/** What a parse error says, at its place relative to the chunk. */
export function syntaxProblem(text: string, error: YAMLParseError): Problem {
  const [from, to] = error.pos;
  const start = Math.min(from, text.length);
  const end = Math.max(start, Math.min(to, endOfLine(text, start)));
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
  const ofKeys = error.code === 'BLOCK_AS_IMPLICIT_KEY' || /[Nn]ested mappings|compact/.test(error.message);
  if (ofKeys) return { message: hasTwoColons(line.text) ? TWO_COLONS : UNFIT, fixes: [] };
  if (error.code === 'MULTILINE_IMPLICIT_KEY' || /[Ii]mplicit map keys? need/.test(error.message)) {
    const key = text
      .slice(start)
      .split(/[\r\n]/, 1)[0]
      ?.trim();
    return {
      message: `${quoted(key || line.text)} has no value: a key is followed by a colon, a space and its value.`,
      fixes: [],
    };
  }
  if (error.code === 'BAD_INDENT' && /must be sufficiently indented and end/.test(error.message))
    return { message: 'A closing bracket stands deeper than the key it belongs to.', fixes: indent(line) };
  return { message: MESSAGES[error.code] ?? 'This is not valid YAML.', fixes: [] };
}

function hasTwoColons(line: string): boolean {
  return [...masked(line).matchAll(/:(?=\s|$)/g)].length > 1;
}

/** Indents a line one step. */
function indent({ start }: LineText): Fix[] {
  return [{ title: 'Indent the line', edits: [{ at: { file: '', start, end: start }, newText: '  ' }] }];
}

/** A quote or a bracket that nothing closes, at its place: what the reader says of the rest is guesswork. */
export function unclosedProblem(text: string, start: number): Problem {
  const sign = text[start] ?? '';
  const what = sign === '{' || sign === '[' ? 'bracket' : 'quote';
  const closing = sign === '{' ? '}' : sign === '[' ? ']' : sign;
  return {
    code: 'yaml-syntax',
    message: `This ${what} is not closed. Add the closing \`${closing}\`.`,
    at: { file: '', start, end: start + 1 },
    about: `unclosed/${lineAround(text, start).text.trim().slice(0, 40)}`,
  };
}

function endOfLine(text: string, offset: number): number {
  const { start, text: line } = lineAround(text, offset);
  return start + line.length;
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
