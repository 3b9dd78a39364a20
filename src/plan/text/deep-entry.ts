import { isKeyOf } from './section-keys';
import type { Group, Lines } from './split-lines';

/** So many lines of the entry above are looked at: entries written by hand have fewer. */
const MOST_LINES = 100;
const NAME = /^([\w.-]+):$/;
const ALIKE_BELOW = /\n( +)[\w.-]+:\r?\n\1[a-z]/;

/** Whether a text may hold a line as `isDeepEntry` tells them: hardly any does, and it is found soon. */
export function mayHaveDeepEntry(text: string): boolean {
  return ALIKE_BELOW.test(text);
}

/**
 * Whether a line is an entry's name that stands as deep as the keys of the entry above: a name alone, and
 * on the next line, as deep, a key that the entry above has already. A key that is only misspelt has none behind it.
 */
export function isDeepEntry(
  lines: Lines,
  { line, above, section }: { readonly line: number; readonly above: Group; readonly section: string },
): boolean {
  const indent = lines.indentOf(line);
  const next = line + 1;
  const [, name] = NAME.exec(lines.textOf(line)) ?? [];
  if (name === undefined || !lines.isContent(next) || lines.indentOf(next) !== indent) return false;
  const key = lines.keyOf(next);
  const first = lines.contentFrom(above.key + 1);
  if (key === undefined || first >= line || lines.indentOf(first) !== indent) return false;
  for (let before = first; before < Math.min(line, first + MOST_LINES); before++)
    if (lines.isContent(before) && lines.indentOf(before) === indent && lines.keyOf(before) === key)
      return !isKeyOf(section, name);
  return false;
}
