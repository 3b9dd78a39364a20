import type { YAMLParseError } from 'yaml';
import { STEP } from '../indent-step';
import type { Problem } from '../problem';
import { quoted } from './say';

/** A key with a value behind it on its line; what stands before the key, list dashes too, is its column. */
const KEYED = /^( *(?:- +)*)([^\s#&!{}[\],"'-][^#:]*?): +([^\s#].*)$/;
/** A line that begins with a key. */
const BEGINS_WITH_KEY = /^ *(?:[^\s#&!{}[\],"'-][^#:]*|"[^"]*" *|'[^']*' *):(?: |$)/;
/** What the YAML reader says where a key stands deeper than the one that it belongs beside. */
const OF_DEPTH =
  /[Nn]ested mappings|compact|Implicit keys need to be on a single line|start at the same column/;

/** A problem of lines that stand too deep, and where they end: what the reader says of them beyond is guesswork. */
export interface DeeperLines {
  readonly problem: Problem;
  readonly end: number;
}

interface Line {
  readonly start: number;
  readonly text: string;
}

/**
 * A line with a key that stands deeper than the key above it, which has its value already. The YAML reader tells it at
 * the line above, as a value with two colons. Undefined where the error is another one. Places are the text's.
 */
export function deeperLines(text: string, error: YAMLParseError): DeeperLines | undefined {
  if (!OF_DEPTH.test(error.message)) return undefined;
  const told = contentFrom(text, lineAt(text, text.lastIndexOf('\n', error.pos[0] - 1) + 1));
  if (!told) return undefined;
  const above = error.code === 'BAD_INDENT' ? contentAbove(text, told) : told;
  const key = above && keyOf(above.text);
  if (!above || !key) return undefined;
  const deeper = firstKeyBelow(text, above, key.column);
  if (!deeper || (error.code === 'BAD_INDENT' && deeper.start !== told.start)) return undefined;
  const own = indentOf(deeper.text);
  const before = contentAbove(text, above);
  // What stands before the key as deep as what follows it says that the key stands too shallow.
  if (before && indentOf(before.text) === own && BEGINS_WITH_KEY.test(before.text))
    return tellShallow(above, key, own);
  const lines = tellDeeper(text, deeper, key);
  // A whole step deeper, with nothing before it: either of the two may be meant, and nothing here says which.
  const isEither = !before && (own - key.column) % STEP === 0;
  return isEither ? { ...lines, problem: { ...lines.problem, fixes: [] } } : lines;
}

function tellShallow({ start, text }: Line, { name }: Key, own: number): DeeperLines {
  const end = start + indentOf(text);
  return {
    problem: {
      code: 'yaml-syntax',
      message: `${quoted(name)} stands less deep than the lines around it, beside which it belongs. Indent all alike.`,
      at: { file: '', start: end, end: start + text.length },
      about: `shallow/${text.trim().slice(0, 40)}`,
      fixes: [
        {
          title: 'Indent as the line above',
          edits: [{ at: { file: '', start, end }, newText: ' '.repeat(own) }],
        },
      ],
    },
    end: start + text.length,
  };
}

function tellDeeper(text: string, deeper: Line, { name, column }: Key): DeeperLines {
  const own = indentOf(deeper.text);
  const lines = linesFrom(text, deeper, own);
  const start = deeper.start;
  const edits = lines.map((line) => {
    const indent = indentOf(line.text);
    const at = { file: '', start: line.start, end: line.start + indent };
    return { at, newText: ' '.repeat(indent - own + column) };
  });
  const last = lines.at(-1) ?? deeper;
  return {
    problem: {
      code: 'yaml-syntax',
      message: `This line stands deeper than ${quoted(name)} above it, beside which it belongs. Indent both alike.`,
      at: { file: '', start, end: start + own },
      about: `deeper/${deeper.text.trim().slice(0, 40)}`,
      fixes: [{ title: 'Indent as the line above', edits }],
    },
    end: last.start + last.text.length,
  };
}

interface Key {
  readonly name: string;
  /** Spaces and dashes before it. */
  readonly column: number;
}

/** The key of a line with one value, brackets all closed; undefined for a line with two colons and any other. */
function keyOf(line: string): Key | undefined {
  const [, before = '', name, written = ''] = KEYED.exec(line) ?? [];
  if (name === undefined) return undefined;
  const value = written.replace(/\s#.*$/, '').trimEnd();
  const isPlain = !/^["'{[]/.test(value);
  if (isPlain && /:(?:\s|$)|^[|>]|[}\]]$/.test(value)) return undefined;
  if (/^[{[]/.test(value) && !/[}\]]$/.test(value)) return undefined;
  return { name, column: before.length };
}

/** The first line below, deeper than the key, that begins with a key: text that goes on is passed over. */
function firstKeyBelow(text: string, above: Line, column: number): Line | undefined {
  for (let line = below(text, above); line; line = below(text, line)) {
    if (!isContent(line.text)) continue;
    if (indentOf(line.text) <= column) return undefined;
    if (BEGINS_WITH_KEY.test(line.text)) return line;
  }
  return undefined;
}

/** The line and those below that stand as deep or deeper; blank ones are left out. */
function linesFrom(text: string, first: Line, own: number): Line[] {
  const lines = [first];
  for (let line = below(text, first); line; line = below(text, line)) {
    if (indentOf(line.text) >= own && line.text.trim() !== '') lines.push(line);
    else if (isContent(line.text)) break;
  }
  return lines;
}

function contentFrom(text: string, first: Line): Line | undefined {
  let line: Line | undefined = first;
  while (line && !isContent(line.text)) line = below(text, line);
  return line;
}

function contentAbove(text: string, line: Line): Line | undefined {
  for (let above = lineAbove(text, line); above; above = lineAbove(text, above))
    if (isContent(above.text)) return above;
  return undefined;
}

function lineAbove(text: string, { start }: Line): Line | undefined {
  if (start === 0) return undefined;
  // Before the text's first sign there is no place to look from: it would be looked at once more.
  return lineAt(text, start === 1 ? 0 : text.lastIndexOf('\n', start - 2) + 1);
}

function below(text: string, { start }: Line): Line | undefined {
  const feed = text.indexOf('\n', start);
  return feed < 0 || feed + 1 >= text.length ? undefined : lineAt(text, feed + 1);
}

function lineAt(text: string, start: number): Line {
  const feed = text.indexOf('\n', start);
  return { start, text: text.slice(start, feed < 0 ? text.length : feed).replace(/\r$/, '') };
}

function isContent(line: string): boolean {
  return !/^\s*(?:#|$)/.test(line);
}

function indentOf(line: string): number {
  return /^ */.exec(line)?.[0].length ?? 0;
}
