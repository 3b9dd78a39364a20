import type { Problem } from '../problem';
import type { ReferableSection } from '../schema/values';
import type { Span } from '../span';
import type { KeyNode, Node } from '../text/nodes';
import type { ItemKind } from './item-kinds';
import type { Schema } from './schema-types';

/** An entry, or a section that stands once, as it stands in a chunk. */
export interface Item {
  readonly kind: ItemKind;
  readonly key: KeyNode;
  readonly value: Node;
}

/** An entry that an item names, with the place in its chunk where it does. */
export interface Named {
  readonly section: ReferableSection;
  readonly id: string;
  readonly at: { readonly start: number; readonly end: number };
  /** The same in its file, once it was made for the value that names it. */
  span: Span | undefined;
}

/** What checking an item against the schema gave, beside problems. Places are relative to its chunk. */
export interface ItemCheck {
  /** JSON pointers to the values that are not as expected: nothing is to be computed from them. */
  readonly bad: ReadonlySet<string>;
  readonly references: readonly Named[];
}

/** A value with what is expected of it, while it is being checked. */
export interface Checked {
  readonly item: Item;
  readonly node: Node;
  /** The key it stands under; in a list, that of the list. */
  readonly key: KeyNode;
  readonly schema: Schema;
  readonly path: readonly string[];
}

/** What messages call the value: its key. */
export function nameOf({ key, path }: Checked): string {
  const last = path.at(-1);
  return last !== undefined && /^\d+$/.test(last) && path.length > 1 ? key.name : (last ?? key.name);
}

/** A problem with a value, at the smallest place that says what is meant. */
export function problemAt(
  checked: Checked,
  code: string,
  message: string,
  place: { readonly start: number; readonly end: number },
  fixes: Problem['fixes'] = [],
  about: readonly string[] = checked.path,
): Problem {
  const { kind, key } = checked.item;
  return {
    code,
    message,
    at: { file: '', start: place.start, end: place.end },
    about: [kind, ...(kind === key.name ? [] : [key.name]), ...about].join('/').slice(0, 120),
    ...(fixes.length > 0 ? { fixes } : {}),
  };
}
