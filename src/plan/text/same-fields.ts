import { WrittenFigure } from '../build/written-figure';
import { isSpan } from '../span';
import type { PlacedChunk, ReadChunk } from './kept-reading';
import { MovingSpan } from './moving-span';

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
    if (chunk.brief || stays.has(chunk)) continue;
    const name = entryOf(chunk.placed);
    if (name !== undefined) replaced.set(name, chunk);
  }
  return replaced.size > 0 ? replaced : undefined;
}

/** The chunk with all of the one it replaces that is the same in both. */
export function withSameFields(read: ReadChunk, replaced: Replaced): ReadChunk {
  const name = entryOf(read.placed);
  const before = name === undefined ? undefined : replaced.get(name)?.placed;
  if (name === undefined || !before || read.brief) return read;
  replaced.delete(name);
  const { items, references, allowances } = read.placed;
  return {
    ...read,
    placed: {
      ...read.placed,
      items: items.map((item, index) => {
        const { value } = before.items[index] ?? item;
        return { ...item, value: fieldsKept(value, item.value) };
      }),
      references: kept(before.references, references),
      allowances: kept(before.allowances, allowances),
    },
  };
}

/** Kind and identifier of the one entry that a chunk holds. */
function entryOf({ items }: PlacedChunk): string | undefined {
  const [item] = items;
  return item && items.length === 1 ? `${item.kind} ${item.value.id}` : undefined;
}

function fieldsKept<T extends object>(before: T, now: T): T {
  const fields: Record<string, unknown> = {};
  // Places are made when they are asked for, from the text that stands there now.
  for (const [name, value] of Object.entries(now))
    fields[name] = name === 'places' ? value : kept((before as Record<string, unknown>)[name], value);
  return fields as T;
}

function kept<T>(before: T | undefined, now: T): T {
  if (before === undefined || !isSame(before, now)) return now;
  follow(before, now);
  return before;
}

/** Whether both are the same plain data but for where it stands. */
function isSame(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (isSpan(a)) return isSpan(b) && a.file === b.file;
  if (a instanceof WrittenFigure) return a.saysAs(b);
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
function follow(before: unknown, now: unknown): void {
  if (before === now || typeof before !== 'object' || typeof now !== 'object') return;
  if (before === null || now === null) return;
  if (before instanceof MovingSpan && now instanceof MovingSpan) {
    before.follow(now);
    return;
  }
  if (before instanceof WrittenFigure && now instanceof WrittenFigure) {
    before.follow(now);
    return;
  }
  const parts = partsOf(now);
  for (const [index, [, part]] of partsOf(before).entries()) follow(part, parts[index]?.[1]);
}
