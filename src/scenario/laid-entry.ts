import { type BuiltItem, buildItem } from '../plan/build/build-item';
import { type ChunkPlace, spanAt } from '../plan/build/places';
import { checkItem } from '../plan/check/check-item';
import { type ItemKind, isSingleSection } from '../plan/check/item-kinds';
import type { Plan, Reference } from '../plan/model';
import type { Problem } from '../plan/problem';
import { MOST_PROBLEMS, ProblemSink } from '../plan/problem-sink';
import type { Span } from '../plan/span';
import type { Pair } from '../plan/text/nodes';
import { parseChunk } from '../plan/text/parse';
import { placedProblem } from '../plan/text/place-problem';
import { mergedNodes, movedNode } from './merged-nodes';

/** An entry as it is with a scenario laid over it. */
export interface LaidEntry {
  readonly item: BuiltItem;
  readonly references: readonly Reference[];
  readonly problems: readonly Problem[];
}

/** Further apart than the offsets of any text that is read. */
const APART = 2 ** 32;

/**
 * Builds an entry from its own text and what a scenario lays over it, by the plan's own checking and reading: what is
 * wrong in it is undefined, and every value has its place where it was written, in the entry or in the scenario.
 * Undefined where either text cannot be read.
 */
export function laidEntry(
  plan: Plan,
  kind: ItemKind,
  base: Span | undefined,
  over: Span,
): LaidEntry | undefined {
  const top = pairAt(plan, over);
  const under = base && pairAt(plan, base);
  if (!top || (base && !under)) return undefined;
  const moved = movedNode(top.value, APART);
  const key = under?.key ?? { ...top.key, start: top.key.start + APART, end: top.key.end + APART };
  const value = under ? mergedNodes(under.value, moved) : moved;
  const place = twoPlaces(base ?? over, over);
  const sink = new ProblemSink(MOST_PROBLEMS);
  const item = { kind, key, value };
  const check = checkItem(item, sink);
  return {
    item: buildItem({ ...item, ...check }, place),
    references: check.references.map(({ section, id, at }) => ({ section, id, at: spanAt(place, at) })),
    problems: sink.problems.map((problem) => placedProblem(problem, place)),
  };
}

/** The key and value that a stretch of a plan's text holds. */
function pairAt(plan: Plan, { file, start, end }: Span): Pair | undefined {
  const text = plan.files.get(file)?.text.slice(start, end);
  const { root, problems } = text === undefined ? { root: undefined, problems: [] } : parseChunk(text);
  return root?.kind === 'map' && problems.length === 0 ? root.pairs[0] : undefined;
}

/** A place of two texts: offsets beyond `APART` are of the second one. */
function twoPlaces(base: Span, over: Span): ChunkPlace {
  return {
    file: base.file,
    offset: base.start,
    keep: (span) => {
      const own = span.start - base.start;
      if (own < APART / 2) return;
      const by = over.start - base.start - APART;
      Object.assign(span, { file: over.file, start: span.start + by, end: span.end + by });
    },
  };
}

/** All of an entry's text: from its key to the end of its value. */
export function wholeOf(at: Span, value: Span): Span {
  return { file: at.file, start: at.start, end: Math.max(at.end, value.end) };
}

/** The text of an entry, or of a section that stands once, as the plan has it; undefined where it has none. */
export function standingText(plan: Plan, kind: ItemKind, id: string): Span | undefined {
  if (!isSingleSection(kind)) {
    const entry = entriesOfKind(plan, kind).get(id);
    return entry && wholeOf(entry.at, entry.places.span);
  }
  const section = plan[kind];
  const { at, places } = section ?? {};
  return at && places ? wholeOf(at, places.span) : undefined;
}

type EntryKind = Exclude<ItemKind, 'season' | 'packing' | 'policy'>;

/** The name that each section's entries have in the plan. */
export const MAP_OF = {
  bins: 'binTypes',
  rooms: 'rooms',
  scrubbers: 'scrubbers',
  nitrogen: 'nitrogenSources',
  refrigeration: 'refrigerationGroups',
  varieties: 'varieties',
  regimes: 'regimes',
  lots: 'lots',
  fills: 'fills',
  demand: 'demand',
} as const;

export type LaidKind = keyof typeof MAP_OF;

export function isLaidKind(kind: ItemKind): kind is LaidKind {
  return Object.hasOwn(MAP_OF, kind);
}

function entriesOfKind(
  plan: Plan,
  kind: EntryKind,
): ReadonlyMap<string, { at: Span; places: { span: Span } }> {
  return isLaidKind(kind) ? plan[MAP_OF[kind]] : new Map();
}
