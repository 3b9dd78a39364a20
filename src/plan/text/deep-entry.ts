import { isKeyOf } from './section-keys';
import type { Group, Lines } from './split-lines';

const COLON = 58;
const NAME = /^([\w.-]+) *:$/;
const KEY = /^([a-z][a-z0-9-]*) *:(?: |$)/;

/**
 * Whether a line is an entry's name that stands as deep as the keys of the entry above: a name alone, with nothing below
 * it that is deeper, and behind it a key that the entry above has already. A key that is only misspelt has none behind it.
 */
export function isDeepEntry(
  text: string,
  lines: Lines,
  { line, above, section }: { readonly line: number; readonly above: Group; readonly section: string },
): boolean {
  if (text.charCodeAt(lines.endOf(line) - 1) !== COLON) return false;
  const indent = lines.indentOf(line);
  const next = contentFrom(lines, line + 1);
  const [, name] = NAME.exec(contentOf(text, lines, line)) ?? [];
  if (name === undefined || next >= lines.count || lines.indentOf(next) !== indent) return false;
  const key = keyAt(text, lines, next);
  if (key === undefined || contentFrom(lines, above.key + 1) >= line) return false;
  if (lines.indentOf(contentFrom(lines, above.key + 1)) !== indent) return false;
  for (let before = above.key + 1; before < line; before++)
    if (lines.isContent(before) && lines.indentOf(before) === indent && keyAt(text, lines, before) === key)
      return !isKeyOf(section, name);
  return false;
}

function contentFrom(lines: Lines, from: number): number {
  let line = from;
  while (line < lines.count && !lines.isContent(line)) line++;
  return line;
}

function keyAt(text: string, lines: Lines, line: number): string | undefined {
  return KEY.exec(contentOf(text, lines, line))?.[1];
}

function contentOf(text: string, lines: Lines, line: number): string {
  return text.slice(lines.contentOf(line), lines.endOf(line));
}
