import type { ReferableSection } from '../../plan/schema/values';
import type { CursorPlace } from './cursor';
import { guideAt } from './schema-guide';

/** What a place of the plan speaks of: an entry of a section. */
export interface Subject {
  readonly section: ReferableSection | 'demand';
  readonly id: string;
}

/** The entry whose figures belong to the place: the one named there, or the one whose own key it is. */
export function subjectAt(place: CursorPlace): Subject | undefined {
  const own = ownEntry(place.path);
  if (place.at === 'key') return own && own.depth === place.path.length ? own : keyReference(place);
  const refersTo = place.at === 'value' ? guideAt(place.path)?.['x-refers-to'] : undefined;
  return refersTo && place.text ? { section: refersTo, id: unquoted(place.text) } : undefined;
}

/** The entry the place lies in, however deep. */
export function entryAround(place: CursorPlace): Subject | undefined {
  return subjectAt(place) ?? ownEntry(place.path);
}

function ownEntry(path: readonly string[]): (Subject & { readonly depth: number }) | undefined {
  const depth = path[0] === 'plant' ? 3 : 2;
  const id = path[depth - 1];
  if (id === undefined) return undefined;
  if (path[0] === 'demand') return { section: 'demand', id, depth };
  const section = guideAt(path.slice(0, depth - 1))?.['x-section'];
  return section && { section, id, depth };
}

function keyReference(place: CursorPlace): Subject | undefined {
  const section = guideAt(place.path.slice(0, -1))?.['x-key-refers-to'];
  const id = place.path.at(-1);
  return section && id !== undefined ? { section, id } : undefined;
}

export function unquoted(text: string): string {
  return text.replace(/^(["'])(.*)\1$/, '$2');
}
