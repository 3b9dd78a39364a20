import type { SeldomTyped } from './item-kinds';
import { validators } from './validate-seldom.generated';
import type { SchemaError } from './validator-types';

/** What the published schema has against an item of any other kind. A module of its own, which is loaded when it is needed. */
export function seldomErrors(kind: SeldomTyped, value: unknown): readonly SchemaError[] {
  const validate = validators[kind];
  return validate(value) ? [] : (validate.errors ?? []);
}
