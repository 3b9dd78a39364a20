import type { OftenTyped } from './item-kinds';
import { validators } from './validate-often.generated';
import type { SchemaError } from './validator-types';

/** What the published schema has against an item of a kind that is typed often. A module of its own, which is loaded when it is needed. */
export function oftenErrors(kind: OftenTyped, value: unknown): readonly SchemaError[] {
  const validate = validators[kind];
  return validate(value) ? [] : (validate.errors ?? []);
}
