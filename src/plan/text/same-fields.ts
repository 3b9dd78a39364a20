import type { ChunkPlace } from '../build/places';
import { isSpan, type Span } from '../span';
import type { PlacedChunk, ReadChunk } from './kept-reading';

/**
 * An entry that was read again and says in most of its fields what it said before: these are the very objects of the
 * last reading, at the place of this one. So whoever looked only at them need not look again.
 */

/** Chunks of the last reading that stand no more, by the entry each of them held. Each is taken once. */
export type Replaced = Map<string, ReadChunk>;

export function replacedBy(
  old: readonly ReadChunk[],
  taken: readonly (ReadChunk | undefined)[],
): Replaced | undefined {
  const stays = new Set(taken);
  const replaced = new Map<string, ReadChunk>();
  for (const chunk of old) {
    const name = entryOf(chunk.placed);
    if (name !== undefined && !chunk.brief && !stays.has(chunk)) replaced.set(name, chunk);
  }
  return replaced.size > 0 ? replaced : undefined;
}

/** The chunk with all of the one it replaces that is the same in both. */
export function withSameFields(read: ReadChunk, replaced: Replaced): ReadChunk {
  const name = entryOf(read.placed);
  const before = name === undefined ? undefined : replaced.get(name)?.placed;
  if (name === undefined || !before || read.brief) return read;
  replaced.delete(name);
  const moving = new Moving(read.place);
  const { items, references, allowances } = read.placed;
  return {
    ...read,
    placed: {
      ...read.placed,
      items: items.map((item, index) => {
        const { value } = before.items[index] ?? item;
        return { ...item, value: fieldsKept(value, item.value, moving) };
      }),
      references: kept(before.references, references, moving),
      allowances: kept(before.allowances, allowances, moving),
    },
  };
}

/** Kind and identifier of the one entry that a chunk holds. */
function entryOf({ items }: PlacedChunk): string | undefined {
  const [item] = items;
  return item && items.length === 1 ? `${item.kind} ${item.value.id}` : undefined;
}

function fieldsKept<T extends object>(before: T, now: T, moving: Moving): T {
  const fields: Record<string, unknown> = {};
  // Places are made when they are asked for, from the text that stands there now.
  for (const [name, value] of Object.entries(now))
    fields[name] = name === 'places' ? value : kept((before as Record<string, unknown>)[name], value, moving);
  return fields as T;
}

function kept<T>(before: T | undefined, now: T, moving: Moving): T {
  if (before === undefined || !isSame(before, now)) return now;
  moving.move(before, now);
  return before;
}

/** Whether both are the same plain data but for where it stands. */
function isSame(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (isSpan(a)) return isSpan(b) && a.file === b.file;
  const [inA, inB] = [partsOf(a), partsOf(b)];
  return (
    Array.isArray(a) === Array.isArray(b) &&
    inA.length === inB.length &&
    inA.every(([name, value], index) => name === inB[index]?.[0] && isSame(value, inB[index]?.[1]))
  );
}

function partsOf(data: object): (readonly [unknown, unknown])[] {
  return data instanceof Map ? [...data] : Object.entries(data);
}

/** Brings spans to where those that are the same stand now, and has them move with the chunk from then on. */
class Moving {
  private readonly moved = new Set<Span>();

  constructor(private readonly place: ChunkPlace) {}

  move(before: unknown, now: unknown): void {
    if (before === now || typeof before !== 'object' || typeof now !== 'object') return;
    if (before === null || now === null) return;
    if (isSpan(before) && isSpan(now)) {
      this.span(before, now);
      return;
    }
    const parts = partsOf(now);
    for (const [index, [, part]] of partsOf(before).entries()) this.move(part, parts[index]?.[1]);
  }

  /** A span may stand in several fields. */
  private span(before: Span, now: Span): void {
    if (this.moved.has(before)) return;
    this.moved.add(before);
    Object.assign(before, { start: now.start, end: now.end });
    this.place.keep?.(before);
  }
}
