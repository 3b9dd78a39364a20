import { type Day, formatDay } from './dates';
import { plainText } from './edits';
import { lineAt, lineEnd, lineEndingOf } from './lines';
import type { Fill, Plan, PlanText } from './model';
import type { TextEdit } from './problem';
import type { PlaceNode } from './span';

/** A fill to be written into a plan. */
export interface NewFill {
  readonly id: string;
  /** It is in the plan already: `lots` come to what it holds, and its days may end later. */
  readonly stands?: boolean;
  readonly room: string;
  readonly regime: string;
  readonly firstBin: Day;
  readonly lastBin: Day;
  /** Undefined for a room kept in air. */
  readonly sealed: Day | undefined;
  readonly lots: readonly { readonly lot: string; readonly bins: number }[];
}

const STEP = 2;
const WIDTH = 110;
/** A section without entries: `fills:` alone on its line, or with nothing as its value. */
const EMPTY_SECTION = /^fills:([ \t]*(?:\{[ \t]*\}|~|null))?[ \t]*(?:#.*)?\r?$/m;

/**
 * Edits that add fills at the end of the plan's `fills:` section: behind the last fill where there are any, else in a
 * section that stands empty, else in a new one at the end of the file with the lots. All other text stays as it is.
 * Empty where there is no file to write to.
 */
export function addFills(plan: Plan, fills: readonly NewFill[]): TextEdit[] {
  if (fills.length === 0) return [];
  const last = lastFill(plan);
  const file = last && plan.files.get(last.at.file);
  if (last && file) return [behind(file, last, fills)];
  return inEmptySection(plan, fills) ?? inNewSection(plan, fills);
}

/** The fill that stands last in the last of the files with fills. */
function lastFill(plan: Plan): Fill | undefined {
  let last: Fill | undefined;
  for (const fill of plan.fills.values()) {
    const later =
      last &&
      (fill.at.file > last.at.file || (fill.at.file === last.at.file && fill.at.start > last.at.start));
    if (!last || later) last = fill;
  }
  return last;
}

function behind(file: PlanText, last: Fill, fills: readonly NewFill[]): TextEdit {
  const { path, text, lineStarts } = file;
  const lineStart = lineStarts[lineAt(lineStarts, last.at.start)] ?? 0;
  const end = Math.max(last.at.end, endOf(last.places));
  const indent = text.slice(lineStart, last.at.start);
  if (indent.trim() !== '') {
    // The section is in braces: the new entries go in front of the closing one, whatever comma stands there.
    const newText = fills.map((fill) => `, ${inBraces(fill)}`).join('');
    return { at: { file: path, start: end, end }, newText };
  }
  // The place of a text over several lines reaches to the next line's start.
  const inside = end > 0 && text[end - 1] === '\n' ? end - 1 : end;
  const at = lineEnd(text, lineStarts, lineAt(lineStarts, inside));
  const eol = lineEndingOf(text);
  const newText = fills.map((fill) => eol + entryLines(fill, indent.length).join(eol)).join('');
  return { at: { file: path, start: at, end: at }, newText };
}

function endOf(place: PlaceNode): number {
  let end = Math.max(place.span.end, place.key?.end ?? 0);
  for (const below of [...(place.entries?.values() ?? []), ...(place.items ?? [])])
    end = Math.max(end, endOf(below));
  return end;
}

function inEmptySection(plan: Plan, fills: readonly NewFill[]): TextEdit[] | undefined {
  for (const { path, text } of plan.files.values()) {
    const match = EMPTY_SECTION.exec(text);
    if (!match) continue;
    const eol = lineEndingOf(text);
    const key = match.index + 'fills:'.length;
    const nothing = match[1] ?? '';
    const at = match.index + match[0].replace(/\r$/, '').length;
    const lines = fills.map((fill) => eol + entryLines(fill, STEP).join(eol)).join('');
    return [
      ...(nothing === '' ? [] : [{ at: { file: path, start: key, end: key + nothing.length }, newText: '' }]),
      { at: { file: path, start: at, end: at }, newText: lines },
    ];
  }
  return undefined;
}

function inNewSection(plan: Plan, fills: readonly NewFill[]): TextEdit[] {
  const lot = plan.lots.values().next().value;
  const file = (lot && plan.files.get(lot.at.file)) ?? plan.files.values().next().value;
  if (!file) return [];
  const { path, text } = file;
  const eol = lineEndingOf(text);
  const gap = text === '' ? '' : text.endsWith('\n') ? eol : eol + eol;
  const lines = ['fills:', ...fills.flatMap((fill) => entryLines(fill, STEP))];
  const at = text.length;
  return [{ at: { file: path, start: at, end: at }, newText: gap + lines.join(eol) + eol }];
}

function entryLines(fill: NewFill, indent: number): string[] {
  const outer = ' '.repeat(indent);
  const inner = ' '.repeat(indent + STEP);
  return [
    `${outer}${plainText(fill.id)}:`,
    ...pairsOf(fill).map((pair) => inner + pair),
    ...lotLines(fill, inner),
  ];
}

/** The lots in braces, broken where a line would be too long, later lines under the first lot. */
function lotLines({ lots }: NewFill, inner: string): string[] {
  const head = `${inner}lots: { `;
  const lines: string[] = [];
  let line = head;
  lots.forEach(({ lot, bins }, index) => {
    const pair = `${plainText(lot)}: ${bins}${index === lots.length - 1 ? ' }' : ','}`;
    if (line.trimEnd().length + 1 + pair.length > WIDTH && line.trim() !== '' && line !== head) {
      lines.push(line.trimEnd());
      line = ' '.repeat(head.length);
    }
    line += `${pair} `;
  });
  return [...lines, line.trimEnd()];
}

function inBraces(fill: NewFill): string {
  const lots = fill.lots.map(({ lot, bins }) => `${plainText(lot)}: ${bins}`).join(', ');
  return `${plainText(fill.id)}: { ${[...pairsOf(fill), `lots: { ${lots} }`].join(', ')} }`;
}

function pairsOf({ room, regime, firstBin, lastBin, sealed }: NewFill): string[] {
  return [
    `room: ${plainText(room)}`,
    `regime: ${plainText(regime)}`,
    `first-bin: ${formatDay(firstBin)}`,
    `last-bin: ${formatDay(lastBin)}`,
    ...(sealed === undefined ? [] : [`sealed: ${formatDay(sealed)}`]),
  ];
}
