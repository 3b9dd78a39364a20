import { isKeyOf } from './section-keys';
import type { Group, Lines } from './split-lines';

const COLON = 58;
/** So many lines of the entry above are looked at: entries written by hand have fewer. */
const MOST_LINES = 100;
const NAME = /^([\w.-]+) *:$/;

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
  const next = lines.contentFrom(line + 1);
  const [, name] = NAME.exec(lines.textOf(line)) ?? [];
  if (name === undefined || next >= lines.count || lines.indentOf(next) !== indent) return false;
  const key = lines.keyOf(next);
  const first = lines.contentFrom(above.key + 1);
  if (key === undefined || first >= line || lines.indentOf(first) !== indent) return false;
  for (let before = first; before < Math.min(line, first + MOST_LINES); before++)
    if (lines.isContent(before) && lines.indentOf(before) === indent && lines.keyOf(before) === key)
      return !isKeyOf(section, name);
  return false;
}
