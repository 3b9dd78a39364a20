import { addEntries, type NewEntry } from '../plan/add-entries';
import type { EntrySection } from '../plan/check/item-kinds';
import { plainText, setValue } from '../plan/edits';
import type { Entry, Plan, PlanText } from '../plan/model';
import type { TextEdit } from '../plan/problem';
import { readPlan } from '../plan/read';
import { IDENTIFIER } from '../plan/schema/identifier';
import { mapOfSection } from '../plan/sections';
import {
  contradictsRow,
  faultsAt,
  isSame,
  type Objection,
  pathText,
  type RecordValue,
  type RowOfRecord,
  soundRows,
} from './sound-rows';
import type { RowFault, TableChange, TakenIn } from './types';

export type { RecordValue } from './sound-rows';

/** What a row of a file says of one record. Rows with one `key` speak of the same record. */
export interface RecordRow extends RowOfRecord {
  readonly key: string;
  /** Identifier of a new entry; another is found where it is taken. */
  readonly id: string;
  /** The record, where the plan has it. */
  readonly entry: Entry | undefined;
}

/** A value, with the lines of the file that have it. */
interface MergedValue extends RecordValue {
  readonly lines: readonly number[];
}

interface MergedRow extends RecordRow {
  readonly values: readonly MergedValue[];
}

/** The section of the records, what one of them is called, and beside what a new section is put. */
export interface RecordKind {
  readonly section: EntrySection & ('progress' | 'samples' | 'packed' | 'sales');
  readonly noun: string;
}

/**
 * Records taken in: new ones become entries, and ones that the plan has get what they lack. Nothing that is recorded is
 * ever changed: a row that contradicts a record, or another row, is a fault, and so is one to which the kind of records
 * objects. All other rows of the record are taken.
 */
export function takeRecords(
  plan: Plan,
  rows: readonly RecordRow[],
  kind: RecordKind,
  objections: readonly Objection<RecordRow>[] = [],
): Omit<TakenIn, 'rows'> {
  const faults: RowFault[] = [];
  const news: MergedRow[] = [];
  const changes: TableChange[] = [];
  let alreadyThere = 0;
  for (const same of bySameKey(rows)) {
    const kept = soundRows(same, [
      (row) => contradictsPlan(plan, row, kind),
      contradictsRow,
      ...objections,
      (row) => unreadable(row, kind),
    ]);
    faults.push(...kept.faults);
    const merged = mergedRow(kept.sound);
    if (!merged) continue;
    if (!merged.entry) news.push(merged);
    else {
      const lacking = merged.values.filter(({ known }) => known === undefined);
      alreadyThere += merged.values.length - lacking.length;
      changes.push(...additions(plan, merged.entry, lacking, kind));
    }
  }
  const added = newEntries(plan, news, kind);
  return {
    changes: [...changes, ...added.changes],
    faults: [...faults, ...added.faults],
    alreadyThere,
  };
}

function bySameKey(rows: readonly RecordRow[]): RecordRow[][] {
  const byKey = new Map<string, RecordRow[]>();
  for (const row of rows) byKey.set(row.key, [...(byKey.get(row.key) ?? []), row]);
  return [...byKey.values()];
}

/** What several rows say of one record; undefined of none. They do not contradict each other. */
function mergedRow(rows: readonly RecordRow[]): MergedRow | undefined {
  const [first] = rows;
  if (!first) return undefined;
  const values = new Map<string, MergedValue>();
  for (const row of rows)
    for (const value of row.values) {
      const key = pathText(value);
      const before = values.get(key);
      values.set(key, { ...(before ?? value), lines: [...(before?.lines ?? []), ...row.lines] });
    }
  return { ...first, values: [...values.values()], lines: rows.flatMap(({ lines }) => lines) };
}

function contradictsPlan(plan: Plan, row: RecordRow, { noun }: RecordKind): string | undefined {
  const other = row.values.find(({ known, value }) => known !== undefined && !isSame(known, value));
  if (!other || !row.entry) return undefined;
  const before = textAt(plan, row.entry, other.path);
  return `The plan has \`${pathText(other)}: ${before ?? other.known}\` for ${noun} ${row.entry.id}, and the file ${other.written}. What is recorded is never changed from a file: correct it in the plan, if the file is right.`;
}

/** A row of a new record that the plan would not read as it is. */
function unreadable(row: RecordRow, { section, noun }: RecordKind): string | undefined {
  if (row.entry) return undefined;
  const id = section === 'progress' ? row.id : freeId(row.id, new Set());
  const problem = problemOf(section, id, entryText(row));
  return problem === undefined ? undefined : wouldNotRead(`${noun} ${id}`, problem);
}

export function wouldNotRead(entry: string, problem: string): string {
  return `Nothing of ${entry} is taken, since the plan would not read: ${problem}`;
}

function textAt(plan: Plan, entry: Entry, path: RecordValue['path']): string | undefined {
  const file = plan.files.get(entry.at.file);
  let place = entry.places.entries?.get(path[0]);
  if (path[1] !== undefined) place = place?.entries?.get(path[1]);
  return place && file?.text.slice(place.span.start, place.span.end);
}

/** Edits that give a record what it lacks. The first value below a map that is not there yet makes the whole map. */
function additions(
  plan: Plan,
  entry: Entry,
  lacking: readonly MergedValue[],
  { noun }: RecordKind,
): TableChange[] {
  const file = plan.files.get(entry.at.file);
  if (!file) return [];
  return lacking.map((value) => ({
    file: file.path,
    entry: `${noun} ${entry.id}`,
    key: pathText(value),
    before: undefined,
    after: value.written,
    lines: value.lines,
    edits: additionEdits(file, entry, value, lacking),
  }));
}

function additionEdits(
  file: PlanText,
  entry: Entry,
  { path, written }: RecordValue,
  lacking: readonly RecordValue[],
): TextEdit[] {
  const [map, below] = path;
  if (below === undefined || entry.places.entries?.has(map))
    return setValue(file, entry.places, path, written);
  const ofMap = lacking.filter((value) => value.path[0] === map);
  if (ofMap[0]?.path[1] !== below) return [];
  return setValue(file, entry.places, [map], inBraces(ofMap.map((one) => [one.path[1] ?? '', one.written])));
}

/** New entries behind the section's last, each in braces on a line of its own. */
function newEntries(
  plan: Plan,
  rows: readonly MergedRow[],
  { section, noun }: RecordKind,
): Pick<TakenIn, 'changes' | 'faults'> {
  const taken = new Set(plan[mapOfSection[section]].keys());
  const faults: RowFault[] = [];
  const entries: { readonly row: MergedRow; readonly id: string; readonly text: string }[] = [];
  for (const row of rows) {
    const id = section === 'progress' ? row.id : freeId(row.id, taken);
    const text = entryText(row);
    const problem = problemOf(section, id, text);
    if (problem === undefined) {
      taken.add(id);
      entries.push({ row, id, text });
    } else faults.push(...faultsAt(row.lines, wouldNotRead(`${noun} ${id}`, problem)));
  }
  const written = entries.map(({ id, text }): NewEntry => {
    const pair = `${plainText(id)}: ${text}`;
    return { lines: (indent) => [' '.repeat(indent) + pair], inBraces: pair };
  });
  const changes = entries.flatMap(({ row, id, text }, index): TableChange[] => {
    const edits = editsOf(plan, section, written, index);
    const file = edits.file;
    if (file === undefined) return [];
    return [
      {
        file,
        entry: `${noun} ${id}`,
        key: 'new',
        before: undefined,
        after: text,
        lines: row.lines,
        edits: edits.own,
      },
    ];
  });
  return { changes, faults };
}

/** Behind the section's last entry each has an edit of its own; a section that is to be made is made by the first. */
function editsOf(
  plan: Plan,
  section: RecordKind['section'],
  written: readonly NewEntry[],
  index: number,
): { readonly file: string | undefined; readonly own: TextEdit[] } {
  const isThere = plan[mapOfSection[section]].size > 0;
  const own = written.slice(index, index + 1);
  const edits = addEntries(plan, section, isThere ? own : written, recordBeside(plan));
  return { file: edits[0]?.at.file, own: isThere || index === 0 ? edits : [] };
}

/** Records stand together: with others of them, else with the fills. */
function recordBeside(plan: Plan): Entry | undefined {
  const maps = [plan.progress, plan.samples, plan.packed, plan.sales, plan.fills, plan.lots];
  return maps
    .find((map) => map.size > 0)
    ?.values()
    .next().value;
}

function entryText({ values }: Pick<RecordRow, 'values'>): string {
  const pairs: [string, string][] = [];
  for (const { path, written } of values) {
    const [key, below] = path;
    if (below === undefined) pairs.push([key, written]);
    else if (!pairs.some(([known]) => known === key)) {
      const ofMap = values.filter((value) => value.path[0] === key);
      pairs.push([key, inBraces(ofMap.map((one) => [one.path[1] ?? '', one.written]))]);
    }
  }
  return inBraces(pairs);
}

function inBraces(pairs: readonly (readonly [string, string])[]): string {
  return `{ ${pairs.map(([key, value]) => `${plainText(key)}: ${value}`).join(', ')} }`;
}

/** What reading would find wrong with the entry. */
function problemOf(section: string, id: string, text: string): string | undefined {
  const alone = `lotwright: 1\n${section}:\n  ${plainText(id)}: ${text}\n`;
  return readPlan([{ path: 'row.lotplan.yaml', text: alone }]).problems[0]?.message;
}

const IS_IDENTIFIER = new RegExp(IDENTIFIER);

/** The identifier with what it may not have as dashes, and a number where it is taken. */
function freeId(wanted: string, taken: ReadonlySet<string>): string {
  const dashed = wanted.replace(/[^A-Za-z0-9 ._/'-]+/g, '-');
  const id = IS_IDENTIFIER.test(dashed) ? dashed : `r-${dashed}`;
  let [free, number] = [id, 2];
  while (taken.has(free)) free = `${id}-${number++}`;
  return free;
}
