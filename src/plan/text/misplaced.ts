import { STEP } from '../indent-step';
import type { Fix, Problem, TextEdit } from '../problem';
import { counted } from '../wording';
import type { Group, Lines } from './split-lines';

interface Place {
  readonly file: string;
  readonly text: string;
  readonly lines: Lines;
}

/** A section's heading that stands too deep. `step` is how much deeper than it what is below it stands in this plan. */
export function deepSection(place: Place, group: Group, step: number): Problem {
  const { lines, text } = place;
  const name = /^[a-z]*/.exec(text.slice(lines.contentOf(group.key), lines.endOf(group.key)))?.[0] ?? '';
  return {
    code: 'yaml-syntax',
    message: `\`${name}\` is a section, and stands ${counted(lines.indentOf(group.key), 'space')} too deep. It must begin at the line's beginning.`,
    at: {
      file: place.file,
      start: lines.contentOf(group.key),
      end: lines.contentOf(group.key) + name.length,
    },
    about: `section-depth/${name}`,
    fixes: fixesOf(place, group, 0, step),
  };
}

/** The first key below a heading, which stands deeper than those behind it. */
export function deepEntry(place: Place, group: Group, indent: number, step: number): Problem {
  return { ...unlikeDepth(place, group, indent), fixes: fixesOf(place, group, indent, step) };
}

/** A key's line that does not stand where those beside it do. */
export function unlikeDepth(place: Place, { key }: Group, indent: number): Problem {
  const { file, text, lines } = place;
  const own = lines.indentOf(key);
  const start = lines.startOf(key);
  const beside = indent === 0 ? "begin at the line's beginning" : `by ${indent}`;
  return {
    code: 'yaml-syntax',
    message: `This line is indented by ${counted(own, 'space')}, those beside it ${beside}. Indent both alike.`,
    at: { file, start, end: start + Math.max(own, 1) },
    about: `indent/${text.slice(start + own, lines.endOf(key)).slice(0, 40)}`,
    fixes: [{ title: titleOf(indent), edits: [moved(place, key, indent - own)] }],
  };
}

/**
 * The indent of the keys behind the first one, where they stand a step deeper than the heading above and the first does
 * not; undefined where all stand alike, or it is not they that are right.
 */
export function levelOfOthers(
  { text, lines }: Pick<Place, 'text' | 'lines'>,
  groups: readonly Group[],
  indent: number,
  above: number,
): number | undefined {
  if (indent - above === STEP) return undefined;
  let least = indent;
  for (const { key } of groups) if (lines.indentOf(key) > above) least = Math.min(least, lines.indentOf(key));
  const step = least - above;
  if (least === indent || (step !== STEP && step !== 2 * STEP)) return undefined;
  const alike = groups.filter(({ key }) => lines.indentOf(key) === least);
  const [other] = alike;
  // At the first one's indent each line is a group: what belongs to a key may be the next one.
  const rest = other && { key: other.key, last: groups.at(-1)?.last ?? 0 };
  const below = rest && !hasValue(text, lines, rest.key) ? contentBelow(lines, rest) : undefined;
  if (below !== undefined && lines.indentOf(below) > least)
    return lines.indentOf(below) === least + step ? least : undefined;
  const likeFirst = groups.filter(({ key }) => lines.indentOf(key) === indent).length;
  return alike.length >= likeFirst ? least : undefined;
}

/** One that moves the line alone, or all that is below it too if that was moved with it; none where neither is told. */
function fixesOf(place: Place, group: Group, indent: number, step: number): Fix[] {
  const { lines } = place;
  const own = lines.indentOf(group.key);
  const below = contentBelow(lines, group);
  const title = titleOf(indent);
  const isAlone = below === undefined || hasValue(place.text, lines, group.key);
  if (isAlone || lines.indentOf(below) === indent + step)
    return [{ title, edits: [moved(place, group.key, indent - own)] }];
  if (lines.indentOf(below) !== own + step) return [];
  const edits: TextEdit[] = [];
  for (let line = group.key; line < group.last; line++) {
    const isDeeper = line === group.key || lines.indentOf(line) > own;
    if (lines.isContent(line) && !isDeeper) return [];
    if (isDeeper && (lines.isContent(line) || lines.isComment(line)))
      edits.push(moved(place, line, indent - own));
  }
  return [{ title, edits }];
}

function moved({ file, lines }: Place, line: number, by: number): TextEdit {
  const start = lines.startOf(line);
  const own = lines.indentOf(line);
  return { at: { file, start, end: start + own }, newText: ' '.repeat(own + by) };
}

function hasValue(text: string, lines: Lines, key: number): boolean {
  return !/:(?: *| +#.*)$/.test(text.slice(lines.contentOf(key), lines.endOf(key)));
}

function contentBelow(lines: Lines, { key, last }: Pick<Group, 'key' | 'last'>): number | undefined {
  for (let line = key + 1; line < last; line++) if (lines.isContent(line)) return line;
  return undefined;
}

function titleOf(indent: number): string {
  return indent === 0 ? "Begin at the line's beginning" : `Indent by ${counted(indent, 'space')}`;
}
