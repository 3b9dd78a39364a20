import type { Reference } from '../model';
import type { Problem } from '../problem';
import { type KeyNode, type Node, pairOf, plainValue } from '../text/nodes';
import type { Checked, Item } from './checked';
import { badKey, missingKeys, unknownKey } from './key-messages';
import { escapeStep, unescapeStep } from './pointer';
import { itemSchema, schemaOfKey } from './schema';
import type { Schema } from './schema-types';
import { validators } from './validate.generated';
import type { SchemaError } from './validator-types';
import { badValue } from './value-messages';
import { walk } from './walk';

/** What checking an item against the schema gave. Places are relative to its chunk. */
export interface ItemCheck {
  readonly problems: readonly Problem[];
  /** JSON pointers to the values that are not as expected: nothing is to be computed from them. */
  readonly bad: ReadonlySet<string>;
  readonly references: readonly Reference[];
}

/** Holds an item against the published schema, and against what a schema cannot say of a single value. */
export function checkItem(item: Item): ItemCheck {
  const validate = validators[item.kind];
  const problems: Problem[] = [];
  const bad = new Set<string>();
  if (!validate(plainValue(item.value)))
    for (const found of told(validate.errors ?? [])) report(item, found, problems, bad);
  const references = walk(item, bad, problems);
  return { problems, bad, references };
}

interface Told {
  readonly error: SchemaError;
  readonly missing: readonly string[];
}

/** The errors worth a message: one for each value, and one for all keys that a map lacks. */
function told(errors: readonly SchemaError[]): Told[] {
  const missing = new Map<string, string[]>();
  const seen = new Set<string>();
  const kept: Told[] = [];
  for (const error of errors) {
    if (error.schemaPath.includes('/propertyNames/')) continue;
    if (error.keyword === 'required') {
      const key = String(error.params.missingProperty);
      const before = missing.get(error.instancePath);
      if (before) before.push(key);
      else {
        const keys = [key];
        missing.set(error.instancePath, keys);
        kept.push({ error, missing: keys });
      }
    } else if (error.keyword === 'additionalProperties' || error.keyword === 'propertyNames')
      kept.push({ error, missing: [] });
    else if (!seen.has(error.instancePath)) {
      seen.add(error.instancePath);
      kept.push({ error, missing: [] });
    }
  }
  return kept;
}

function report(item: Item, { error, missing }: Told, problems: Problem[], bad: Set<string>): void {
  const checked = find(item, error.instancePath);
  if (error.keyword === 'required') problems.push(missingKeys(checked, missing));
  else if (error.keyword === 'additionalProperties') {
    const key = keyIn(checked.node, String(error.params.additionalProperty));
    if (key) problems.push(unknownKey(checked, key));
  } else if (error.keyword === 'propertyNames') {
    const name = String(error.params.propertyName);
    const key = keyIn(checked.node, name);
    bad.add(`${error.instancePath}/${escapeStep(name)}`);
    if (key) problems.push(badKey(checked, key));
  } else {
    bad.add(error.instancePath);
    problems.push(badValue(checked, error));
  }
}

function keyIn(node: Node, name: string): KeyNode | undefined {
  return pairOf(node, name)?.key;
}

function find(item: Item, pointer: string): Checked {
  let checked: Checked = { item, node: item.value, key: item.key, schema: itemSchema(item.kind), path: [] };
  for (const step of pointer.split('/').slice(1).map(unescapeStep)) {
    const path: readonly string[] = [...checked.path, step];
    if (checked.node.kind === 'list') {
      const node: Node | undefined = checked.node.items[Number(step)];
      if (!node) return checked;
      checked = { ...checked, node, schema: checked.schema.items ?? {}, path };
    } else {
      const pair = pairOf(checked.node, step);
      if (!pair) return checked;
      const schema: Schema = schemaOfKey(checked.schema, step) ?? {};
      checked = { item, node: pair.value, key: pair.key, schema, path };
    }
  }
  return checked;
}
