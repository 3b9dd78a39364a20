import { type ItemKind, isOftenTyped } from './item-kinds';
import { oftenErrors } from './often-errors';
import { seldomErrors } from './seldom-errors';
import type { SchemaError } from './validator-types';

/** What the published schema has against an item, as its generated validator tells it; none where it is as it should be. */
export function schemaErrors(kind: ItemKind, value: unknown): readonly SchemaError[] {
  return isOftenTyped(kind) ? oftenErrors(kind, value) : seldomErrors(kind, value);
}
