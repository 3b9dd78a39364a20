import type { Difference } from './differences';
import type { Side } from './side';
import type { Touched } from './touched';
import type { CausePart, Causes } from './types';

/** Some edits tried on the old plan, and what that came to. */
export interface Trial {
  readonly edits: readonly number[];
  readonly side: Side;
}

export interface CauseInputs {
  readonly old: Side;
  readonly now: Side;
  readonly touched: readonly Touched[];
  /** Empty for a single edit: all there is comes of it. */
  readonly trials: readonly Trial[];
}

const LEAST = 1e-6;

/** Which edits a difference comes of. */
export function causesOf({ consequence, tags }: Difference, inputs: CauseInputs): Causes {
  // Without an edit there is only what could not be read.
  if (inputs.touched.length === 0) return { parts: [], onlyTogether: false };
  if (inputs.touched.length === 1) return ofTheOne(consequence.before, consequence.after, consequence.kind);
  if (consequence.kind === 'finding')
    return ofFinding(consequence.key.slice('finding/'.length), tags, inputs);
  if (consequence.kind === 'value') return ofValue(inputs);
  return ofAmount(consequence.key, tags, inputs);
}

function ofTheOne(before: number | undefined, after: number | undefined, kind: string): Causes {
  const isAmount = kind !== 'finding' && before !== undefined && after !== undefined;
  const part: CausePart = { edits: [0], ...(isAmount && { part: after - before }) };
  return { parts: [part], ...(isAmount && { together: 0 }), onlyTogether: false };
}

/** Each trial's difference to the old plan, given to those of its edits that touch what it is of. */
function ofAmount(key: string, tags: readonly string[], inputs: CauseInputs): Causes {
  const { old, now, trials, touched } = inputs;
  const [before, after] = [old.measures.get(key), now.measures.get(key)];
  if (before?.value === undefined || after?.value === undefined) return ofPresence(key, tags, inputs);
  const parts: CausePart[] = [];
  for (const { edits, side } of trials) {
    const tried = side.measures.get(key);
    if (!tried) continue;
    // What is by week may move without a change of its sum: its edits are named with a part of 0.
    const part = (tried.value ?? 0) - before.value;
    const moves = differsByWeek(before.byWeek, tried.byWeek);
    if (Math.abs(part) > LEAST || moves) parts.push(partOf(involved(edits, tags, touched), part));
  }
  return withTogether(joined(parts), after.value - before.value, tags, touched);
}

/** A schedule's value by variety, so that edits tried in one bundle each get their own. */
function ofValue({ old, now, trials, touched }: CauseInputs): Causes {
  const valueOf = ({ measures }: Side) => measures.get('value')?.value;
  const [before, after] = [valueOf(old), valueOf(now)];
  if (before === undefined || after === undefined) return { parts: [], onlyTogether: false };
  const parts: CausePart[] = [];
  for (const { edits, side } of trials) {
    let rest = (valueOf(side) ?? 0) - before;
    for (const variety of new Set([...old.worth.keys(), ...side.worth.keys()])) {
      const part = (side.worth.get(variety) ?? 0) - (old.worth.get(variety) ?? 0);
      if (Math.abs(part) <= LEAST) continue;
      parts.push(partOf(involved(edits, [`variety:${variety}`], touched), part));
      rest -= part;
    }
    if (Math.abs(rest) > LEAST) parts.push(partOf(edits, rest));
  }
  return withTogether(joined(parts), after - before, [], touched);
}

/** What is there in one plan only, or a room left closed: edits after which it is as in the new plan. */
function ofPresence(key: string, tags: readonly string[], { now, trials, touched }: CauseInputs): Causes {
  const isThere = (side: Side) => side.measures.get(key)?.value !== undefined;
  const parts = trials.flatMap(({ edits, side }) =>
    isThere(side) === isThere(now) ? [partOf(involved(edits, tags, touched))] : [],
  );
  return withoutAmount(parts, tags, touched);
}

function ofFinding(key: string, tags: readonly string[], { now, trials, touched }: CauseInputs): Causes {
  const isNew = now.findings.has(key);
  const parts = trials.flatMap(({ edits, side }) =>
    side.findings.has(key) === isNew ? [partOf(involved(edits, tags, touched))] : [],
  );
  return withoutAmount(parts, tags, touched);
}

function withoutAmount(
  parts: readonly CausePart[],
  tags: readonly string[],
  touched: readonly Touched[],
): Causes {
  if (parts.length > 0) return { parts, onlyTogether: false };
  const edits = involved(
    touched.map((_, edit) => edit),
    tags,
    touched,
  );
  return { parts: [partOf(edits)], onlyTogether: true };
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
  const edits = involved(
    touched.map((_, edit) => edit),
    tags,
    touched,
  );
  return { parts: [partOf(edits, 0)], together, onlyTogether: true };
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
