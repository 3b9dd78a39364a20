import { readingCodes } from '../plan/reading-codes';
import type { Difference } from './differences';
import { editsAtPlace } from './own-changes';
import type { Side } from './side';
import type { Touched } from './touched';
import type { CausePart, Causes, Edit } from './types';

/** Some edits tried: on the old plan, or on what it came to with the edits tried before. */
export interface Trial {
  readonly edits: readonly number[];
  readonly from: Side;
  readonly to: Side;
}

export interface CauseInputs {
  readonly old: Side;
  readonly now: Side;
  readonly edits: readonly Edit[];
  readonly touched: readonly Touched[];
  /** Empty for a single edit: all there is comes of it. */
  readonly trials: readonly Trial[];
  /** Whether the trials followed rooms' courses, as both sides did. */
  readonly triedCourses: boolean;
}

const LEAST = 1e-6;

/** Which edits a difference comes of. */
export function causesOf({ consequence, tags }: Difference, inputs: CauseInputs): Causes {
  // Without an edit there is only what could not be read.
  if (inputs.touched.length === 0) return { parts: [], onlyTogether: false };
  if (inputs.touched.length === 1) return ofTheOne(consequence.before, consequence.after, consequence.kind);
  if (consequence.kind === 'finding') return ofFinding(consequence, tags, inputs);
  if (consequence.kind === 'value') return ofValue(inputs);
  return ofAmount(consequence.key, tags, inputs);
}

function ofTheOne(before: number | undefined, after: number | undefined, kind: string): Causes {
  const isAmount = kind !== 'finding' && before !== undefined && after !== undefined;
  const part: CausePart = { edits: [0], ...(isAmount && { part: after - before }) };
  return { parts: [part], ...(isAmount && { together: 0 }), onlyTogether: false };
}

/** Each trial's difference, given to those of its edits that touch what it is of. */
function ofAmount(key: string, tags: readonly string[], inputs: CauseInputs): Causes {
  const { old, now, trials, touched } = inputs;
  const [before, after] = [old.measures.get(key)?.value, now.measures.get(key)?.value];
  if (before === undefined || after === undefined) return ofPresence(key, tags, inputs);
  const parts: CausePart[] = [];
  for (const { edits, from, to } of trials) {
    const [was, is] = [from.measures.get(key), to.measures.get(key)];
    // What is by week may move without a change of its sum: its edits are named with a part of 0.
    const part = (is?.value ?? 0) - (was?.value ?? 0);
    const moves = differsByWeek(was?.byWeek, is?.byWeek);
    if (Math.abs(part) > LEAST || moves) parts.push(partOf(involved(edits, tags, touched), part));
  }
  return withTogether(joined(parts), after - before, tags, touched);
}

/** A schedule's value by variety, so that edits tried in one bundle each get their own. */
function ofValue({ old, now, trials, touched }: CauseInputs): Causes {
  const worthOf = ({ measures }: Side) => measures.get('value')?.value;
  const [before, after] = [worthOf(old), worthOf(now)];
  if (before === undefined || after === undefined) return { parts: [], onlyTogether: false };
  const parts: CausePart[] = [];
  for (const { edits, from, to } of trials) {
    let rest = (worthOf(to) ?? 0) - (worthOf(from) ?? 0);
    for (const variety of new Set([...from.worth.keys(), ...to.worth.keys()])) {
      const part = (to.worth.get(variety) ?? 0) - (from.worth.get(variety) ?? 0);
      if (Math.abs(part) <= LEAST) continue;
      parts.push(partOf(involved(edits, [`variety:${variety}`], touched), part));
      rest -= part;
    }
    if (Math.abs(rest) > LEAST) parts.push(partOf(edits, rest));
  }
  return withTogether(joined(parts), after - before, [], touched);
}

/** What is there in one plan only, or a room left closed: edits by which it comes to be as in the new plan. */
function ofPresence(key: string, tags: readonly string[], { now, trials, touched }: CauseInputs): Causes {
  const isThere = (side: Side) => side.measures.get(key)?.value !== undefined;
  return byTurn(isThere, isThere(now), tags, trials, touched);
}

function ofFinding(
  consequence: Difference['consequence'],
  tags: readonly string[],
  inputs: CauseInputs,
): Causes {
  const { old, now, edits, trials, touched, triedCourses } = inputs;
  const key = consequence.key.slice('finding/'.length);
  if (!triedCourses && (old.ofCourses.has(key) || now.ofCourses.has(key)))
    return { parts: [partOf(nearest(allOf(touched), tags, touched))], onlyTogether: false, untried: true };
  const ofText = editsOfText(key, touched);
  if (ofText.length > 0)
    return { parts: [partOf(editsAtPlace(ofText, edits, consequence))], onlyTogether: false };
  const isThere = (side: Side) => side.findings.has(key);
  return byTurn(isThere, isThere(now), tags, trials, touched, nearest);
}

const READING_CODES: ReadonlySet<string> = new Set(readingCodes.map(({ code }) => code));

/**
 * Edits of the entry in whose text there was, or is, a mistake; none for findings of other kinds. Trials are made of what
 * was read, so that none of them has such a mistake or is rid of it.
 */
function editsOfText(key: string, touched: readonly Touched[]): number[] {
  const [, code = '', about = ''] = /^\S+ ([^:]+):(.*)$/s.exec(key) ?? [];
  if (!READING_CODES.has(code)) return [];
  const isOf = (tag: string) => {
    const [kind, id] = tag.split('/');
    // A section that stands once is told without a name of its own.
    const start = kind === id ? kind : tag;
    return [`${start}/`, `plant/${start}/`].some((path) => `${about}/`.startsWith(path));
  };
  return allOf(touched).filter((edit) => [...(touched[edit]?.tags ?? [])].some(isOf));
}

/** Trials that turn what is there into what is not, or the other way, as it is in the new plan. */
function byTurn(
  isThere: (side: Side) => boolean,
  wanted: boolean,
  tags: readonly string[],
  trials: readonly Trial[],
  touched: readonly Touched[],
  choose: typeof involved = involved,
): Causes {
  const parts = trials.flatMap(({ edits, from, to }) =>
    isThere(from) !== wanted && isThere(to) === wanted ? [partOf(choose(edits, tags, touched))] : [],
  );
  return withoutAmount(parts, tags, touched);
}

function withoutAmount(
  parts: readonly CausePart[],
  tags: readonly string[],
  touched: readonly Touched[],
): Causes {
  if (parts.length > 0) return { parts, onlyTogether: false };
  return { parts: [partOf(togetherInvolved(tags, touched))], onlyTogether: true };
}

function withTogether(
  parts: readonly CausePart[],
  whole: number,
  tags: readonly string[],
  touched: readonly Touched[],
): Causes {
  const sum = parts.reduce((total, { part }) => total + (part ?? 0), 0);
  const together = Math.abs(whole - sum) <= LEAST * Math.max(1, Math.abs(whole)) ? 0 : whole - sum;
  if (parts.length > 0) return { parts, together, onlyTogether: false };
  return { parts: [partOf(togetherInvolved(tags, touched), 0)], together, onlyTogether: true };
}

/** Of edits those that touch what the tags name; all where none does. */
function involved(
  edits: readonly number[],
  tags: readonly string[],
  touched: readonly Touched[],
): readonly number[] {
  const own = edits.filter(
    (edit) => touched[edit]?.everything || tags.some((tag) => touched[edit]?.tags.has(tag)),
  );
  return own.length > 0 ? own : edits;
}

/** Of edits those that touch the first of the tags that any does: a fill itself before its variety. */
function nearest(
  edits: readonly number[],
  tags: readonly string[],
  touched: readonly Touched[],
): readonly number[] {
  for (const tag of tags) {
    const own = edits.filter((edit) => touched[edit]?.tags.has(tag));
    if (own.length > 0) return own;
  }
  return involved(edits, tags, touched);
}

function allOf(touched: readonly Touched[]): number[] {
  return touched.map((_, edit) => edit);
}

/** The same of all edits, of what none does alone: two of them at least. */
function togetherInvolved(tags: readonly string[], touched: readonly Touched[]): readonly number[] {
  const all = allOf(touched);
  const own = involved(all, tags, touched);
  return own.length > 1 ? own : all;
}

function partOf(edits: readonly number[], part?: number): CausePart {
  const [first = 0, ...rest] = edits;
  return { edits: [first, ...rest], ...(part !== undefined && { part }) };
}

/** Parts of the same edits as one, the greatest first. */
function joined(parts: readonly CausePart[]): CausePart[] {
  const byEdits = new Map<string, CausePart>();
  for (const part of parts) {
    const key = part.edits.join(' ');
    const known = byEdits.get(key);
    byEdits.set(key, known ? { ...known, part: (known.part ?? 0) + (part.part ?? 0) } : part);
  }
  return [...byEdits.values()].sort(
    (a, b) => Math.abs(b.part ?? 0) - Math.abs(a.part ?? 0) || a.edits[0] - b.edits[0],
  );
}

function differsByWeek(
  a: ReadonlyMap<number, number> | undefined,
  b: ReadonlyMap<number, number> | undefined,
): boolean {
  if (!a || !b) return false;
  const weeks = new Set([...a.keys(), ...b.keys()]);
  return [...weeks].some((week) => Math.abs((a.get(week) ?? 0) - (b.get(week) ?? 0)) > LEAST);
}
