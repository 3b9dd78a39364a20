import type { EntrySection } from './check/item-kinds';
import type { Entry } from './entry';
import { STEP } from './indent-step';
import { lineAt, lineEnd, lineEndingOf } from './lines';
import type { Plan, PlanText } from './model';
import type { TextEdit } from './problem';
import { mapOfSection } from './sections';
import type { PlaceNode } from './span';

/** An entry to be written: on lines of its own at an indentation, and as it stands between braces. */
export interface NewEntry {
  readonly lines: (indent: number) => readonly string[];
  readonly inBraces: string;
}

/**
 * Edits that add entries at the end of a section of the plan: behind its last entry where there are any, else in a
 * section that stands empty, else in a new one at the end of the file of `beside` (or of the plan's first). All other
 * text stays as it is. Empty where there is no file to write to.
 */
export function addEntries(
  plan: Plan,
  section: EntrySection,
  entries: readonly NewEntry[],
  beside?: Entry | undefined,
): TextEdit[] {
  if (entries.length === 0) return [];
  const last = lastEntry(plan[mapOfSection[section]]);
  const file = last && plan.files.get(last.at.file);
  if (last && file) return [behind(file, last, entries)];
  return inEmptySection(plan, section, entries) ?? inNewSection(plan, section, entries, beside);
}

/** The entry that stands last in the last of the files that have any. */
function lastEntry(entries: ReadonlyMap<string, Entry>): Entry | undefined {
  let last: Entry | undefined;
  for (const entry of entries.values()) {
    const later =
      last &&
      (entry.at.file > last.at.file || (entry.at.file === last.at.file && entry.at.start > last.at.start));
    if (!last || later) last = entry;
  }
  return last;
}

function behind(file: PlanText, last: Entry, entries: readonly NewEntry[]): TextEdit {
  const { path, text, lineStarts } = file;
  const lineStart = lineStarts[lineAt(lineStarts, last.at.start)] ?? 0;
  const end = Math.max(last.at.end, endOf(last.places));
  const indent = text.slice(lineStart, last.at.start);
  if (indent.trim() !== '') {
    // The section is in braces: the new entries go in front of the closing one, whatever comma stands there.
    const newText = entries.map(({ inBraces }) => `, ${inBraces}`).join('');
    return { at: { file: path, start: end, end }, newText };
  }
  // The place of a text over several lines reaches to the next line's start.
  const inside = end > 0 && text[end - 1] === '\n' ? end - 1 : end;
  const at = lineEnd(text, lineStarts, lineAt(lineStarts, inside));
  const eol = lineEndingOf(text);
  const newText = entries.map(({ lines }) => eol + lines(indent.length).join(eol)).join('');
  return { at: { file: path, start: at, end: at }, newText };
}

function endOf(place: PlaceNode): number {
  let end = Math.max(place.span.end, place.key?.end ?? 0);
  for (const below of [...(place.entries?.values() ?? []), ...(place.items ?? [])])
    end = Math.max(end, endOf(below));
  return end;
}

/** `fills:` alone on its line, or with nothing as its value. */
function emptySection(section: EntrySection): RegExp {
  return new RegExp(`^${section}:([ \\t]*(?:\\{[ \\t]*\\}|~|null))?[ \\t]*(?:#.*)?\\r?$`, 'm');
}

function inEmptySection(
  plan: Plan,
  section: EntrySection,
  entries: readonly NewEntry[],
): TextEdit[] | undefined {
  for (const { path, text } of plan.files.values()) {
    const match = emptySection(section).exec(text);
    if (!match) continue;
    const eol = lineEndingOf(text);
    const key = match.index + section.length + 1;
    const nothing = match[1] ?? '';
    const at = match.index + match[0].replace(/\r$/, '').length;
    const lines = entries.map((entry) => eol + entry.lines(STEP).join(eol)).join('');
    return [
      ...(nothing === '' ? [] : [{ at: { file: path, start: key, end: key + nothing.length }, newText: '' }]),
      { at: { file: path, start: at, end: at }, newText: lines },
    ];
  }
  return undefined;
}

function inNewSection(
  plan: Plan,
  section: EntrySection,
  entries: readonly NewEntry[],
  beside: Entry | undefined,
): TextEdit[] {
  const file = (beside && plan.files.get(beside.at.file)) ?? plan.files.values().next().value;
  if (!file) return [];
  const { path, text } = file;
  const eol = lineEndingOf(text);
  const gap = text === '' ? '' : text.endsWith('\n') ? eol : eol + eol;
  const lines = [`${section}:`, ...entries.flatMap((entry) => entry.lines(STEP))];
  const at = text.length;
  return [{ at: { file: path, start: at, end: at }, newText: gap + lines.join(eol) + eol }];
}
