import { lineAt, lineEnd, lineEndingOf } from './lines';
import type { Plan, PlanText } from './model';
import type { TextEdit } from './problem';
import { IDENTIFIER } from './schema/identifier';
import type { ReferableSection } from './schema/values';
import { entriesOf } from './sections';
import type { PlaceNode } from './span';
import { quickParse } from './text/quick-parse';

/**
 * Changes to a plan as edits of its text: comments, order and all other lines stay as they are. Values are given as
 * they are to stand in the file (`2027-W09`, `18.6 m`); `plainText` quotes a text where YAML needs it.
 */

const IDENTIFIER_PATTERN = new RegExp(IDENTIFIER);
const STEP = 2;
const NEEDS_ESCAPES = /[\p{Cc}\u2028\u2029]/u;

/** The text with the edits made. Edits of one text must not overlap; of two at one place the first comes first. */
export function applyEdits(text: string, edits: readonly TextEdit[]): string {
  const sorted = [...edits].sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end);
  const parts: string[] = [];
  let at = 0;
  for (const { at: span, newText } of sorted) {
    if (span.start < at) throw new RangeError('edits overlap');
    parts.push(text.slice(at, span.start), newText);
    at = span.end;
  }
  parts.push(text.slice(at));
  return parts.join('');
}

/**
 * Sets the value at `path` below an entry (`['open']`, `['clearance', 'walls']`): replaces it where it is written,
 * else adds the key at the end of its map, and the maps above it where they are missing.
 */
export function setValue(
  file: PlanText,
  entry: PlaceNode,
  path: readonly [string, ...string[]],
  value: string,
): TextEdit[] {
  const [key, ...below] = path;
  const place = entry.entries?.get(key);
  const [next, ...rest] = below;
  if (place && next !== undefined && place.entries) return setValue(file, place, [next, ...rest], value);
  const newText = below.reduceRight((inner, name) => `{ ${plainText(name)}: ${inner} }`, value);
  if (place) return [replaceValue(file, place, newText)];
  return [insertKey(file, entry, `${plainText(key)}: ${newText}`)];
}

function replaceValue({ path: file, text }: PlanText, { span, key }: PlaceNode, newText: string): TextEdit {
  if (span.end > span.start || !key) return { at: span, newText };
  // Nothing is written yet: the value belongs right behind the colon.
  const start = text.indexOf(':', key.end) + 1;
  return { at: { file, start, end: start }, newText: ` ${newText}` };
}

function insertKey(file: PlanText, map: PlaceNode, pair: string): TextEdit {
  const { text, path } = file;
  const last = lastPair(map);
  if (text[map.span.start] === '{') {
    if (!last) return { at: map.span, newText: `{ ${pair} }` };
    const start = endOf(last);
    const hasComma = /^\s*,\s*}/.test(text.slice(start, map.span.end));
    const at = hasComma ? text.indexOf(',', start) + 1 : start;
    return { at: { file: path, start: at, end: at }, newText: hasComma ? ` ${pair}` : `, ${pair}` };
  }
  const above = last ?? map;
  const first = last ? map.entries?.values().next().value?.key : undefined;
  const indent = first ? column(file, first.start) : column(file, map.key?.start ?? 0) + STEP;
  const start = lineEndAt(file, endOf(above));
  return {
    at: { file: path, start, end: start },
    newText: `${lineEndingOf(text)}${' '.repeat(indent)}${pair}`,
  };
}

/** Removes a key with its value, and the comment at the end of its line. Nothing where it is not there. */
export function removeKey(file: PlanText, map: PlaceNode, key: string): TextEdit[] {
  const pair = map.entries?.get(key);
  if (!pair?.key) return [];
  const pairs = [...(map.entries?.values() ?? [])];
  const index = pairs.indexOf(pair);
  const { text, path } = file;
  const isFlow = text[map.span.start] === '{';
  const start = pair.key.start;
  const end = endOf(pair);
  const lineStart = file.lineStarts[lineAt(file.lineStarts, start)] ?? 0;
  if (!isFlow && text.slice(lineStart, start).trim() === '')
    return [{ at: { file: path, start: lineStart, end: nextLine(file, end) }, newText: '' }];
  const next = pairs[index + 1]?.key;
  if (next) return [{ at: { file: path, start, end: behindComma(text, end, next.start) }, newText: '' }];
  const before = pairs[index - 1];
  return [{ at: { file: path, start: before && isFlow ? endOf(before) : start, end }, newText: '' }];
}

/** From a value's end to the next key, or no further than the comma where a comment stands between. */
function behindComma(text: string, end: number, next: number): number {
  const between = text.slice(end, next);
  return between.includes('#') ? end + between.indexOf(',') + 1 : next;
}

/** Renames an entry wherever it is defined or named. Undefined where the new name is no identifier. */
export function renameEntry(
  plan: Plan,
  section: ReferableSection,
  id: string,
  newId: string,
): TextEdit[] | undefined {
  if (!IDENTIFIER_PATTERN.test(newId)) return undefined;
  const defined = entriesOf(plan, section).get(id)?.at;
  const named = plan.references.filter((reference) => reference.section === section && reference.id === id);
  const newText = plainText(newId);
  return [...(defined ? [defined] : []), ...named.map(({ at }) => at)].map((at) => ({ at, newText }));
}

/** A text as YAML: as it is where it is read back the same, inside brackets too; else in quotes. */
export function plainText(text: string): string {
  const read = quickParse(`a: { b: ${text} }`)?.pairs[0]?.value;
  const value = read?.kind === 'map' && read.pairs.length === 1 ? read.pairs[0]?.value : undefined;
  const isSame = value?.kind === 'scalar' && value.value === text && value.raw === text;
  if (isSame) return text;
  // Line ends and control characters need the escapes that only double quotes have; JSON's are a part of YAML's.
  return NEEDS_ESCAPES.test(text) ? JSON.stringify(text) : `'${text.replaceAll("'", "''")}'`;
}

function lastPair(map: PlaceNode): PlaceNode | undefined {
  return [...(map.entries?.values() ?? [])].at(-1);
}

function endOf({ span, key }: PlaceNode): number {
  return Math.max(span.end, key?.end ?? 0);
}

function column({ lineStarts }: PlanText, offset: number): number {
  return offset - (lineStarts[lineAt(lineStarts, offset)] ?? 0);
}

function lineEndAt({ text, lineStarts }: PlanText, offset: number): number {
  // The place of a text over several lines reaches to the next line's start.
  const inside = offset > 0 && text[offset - 1] === '\n' ? offset - 1 : offset;
  return lineEnd(text, lineStarts, lineAt(lineStarts, inside));
}

function nextLine(file: PlanText, offset: number): number {
  const { text, lineStarts } = file;
  const inside = offset > 0 && text[offset - 1] === '\n' ? offset - 1 : offset;
  return lineStarts[lineAt(lineStarts, inside) + 1] ?? text.length;
}
