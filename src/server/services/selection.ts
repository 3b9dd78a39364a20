import type { Entry, Plan, PlanText } from '../../plan/model';
import type { PlaceNode, Span } from '../../plan/span';
import { cursorAt } from './cursor';
import { covers, type PlacePoint } from './entries';
import { outlineOf } from './outline';

/** Spans around a place, each inside the next: word, value, key with value, entry, section, file. */
export function selectionAt(plan: Plan, point: PlacePoint): Span[] {
  const file = plan.files.get(point.file);
  if (!file) return [];
  const place = cursorAt(file.text, point.offset);
  const at = place && { file: file.path, start: place.start, end: place.end };
  // Behind a value's blanks the caret speaks of it still, and stands outside of it.
  const word = at && at.end > at.start && covers(at, point) ? [at] : [];
  const whole = { file: file.path, start: 0, end: file.text.length };
  return nested([...word, ...around(plan, file, point), whole]);
}

function around(plan: Plan, file: PlanText, point: PlacePoint): Span[] {
  const sections = outlineOf(plan, file.path).filter(({ whole }) => covers(whole, point));
  const entries = sections.flatMap(({ children }) => children.filter(({ whole }) => covers(whole, point)));
  const inside = entries.flatMap(({ nameAt }) => {
    const entry = entryNamedAt(plan, nameAt);
    return entry ? placesAround(entry.places, point) : [];
  });
  return [...inside, ...entries.map(({ whole }) => whole), ...sections.map(({ whole }) => whole)];
}

function entryNamedAt(plan: Plan, at: Span): Entry | undefined {
  const sections: readonly ReadonlyMap<string, Entry>[] = [
    plan.rooms,
    plan.lots,
    plan.fills,
    plan.binTypes,
    plan.scrubbers,
    plan.nitrogenSources,
    plan.refrigerationGroups,
    plan.varieties,
    plan.regimes,
    plan.demand,
  ];
  for (const entries of sections)
    for (const entry of entries.values())
      if (entry.at.file === at.file && entry.at.start === at.start) return entry;
  return undefined;
}

/** From the innermost place outwards: each value, and each key with its value. */
function placesAround(node: PlaceNode, point: PlacePoint): Span[] {
  const children = [...(node.entries?.values() ?? []), ...(node.items ?? [])];
  const inner = children
    .filter((child) => covers(pairOf(child), point))
    .flatMap((child) => placesAround(child, point));
  return [...inner, ...(covers(node.span, point) ? [node.span] : []), ...(node.key ? [pairOf(node)] : [])];
}

function pairOf({ key, span }: PlaceNode): Span {
  return key ? { file: key.file, start: key.start, end: Math.max(key.end, span.end) } : span;
}

/** Smallest first, and only what is larger than the one before and holds it. */
function nested(spans: readonly Span[]): Span[] {
  const sorted = [...spans].sort((a, b) => a.end - a.start - (b.end - b.start));
  const kept: Span[] = [];
  for (const span of sorted) {
    const last = kept.at(-1);
    if (
      !last ||
      (span.start <= last.start && span.end >= last.end && span.end - span.start > last.end - last.start)
    )
      kept.push(span);
  }
  return kept;
}
