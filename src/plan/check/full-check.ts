import type { Problem } from '../problem';
import type { ProblemSink } from '../problem-sink';
import { type KeyNode, type Node, pairOf, plainValue } from '../text/nodes';
import type { Checked, Item, ItemCheck } from './checked';
import { cutNumber } from './comma-messages';
import { badKey, missingKeys, unknownKey } from './key-messages';
import { overlayErrors } from './overlay-errors';
import { escapeStep, unescapeStep } from './pointer';
import { itemSchema, schemaOfKey } from './schema';
import { schemaErrors } from './schema-errors';
import type { Schema } from './schema-types';
import type { SchemaError } from './validator-types';
import { badValue } from './value-messages';
import { walk } from './walk';

/** Holds an item against the published schema by its generated validator, and tells all that is wrong. */
export function fullCheck(item: Item, sink: ProblemSink): ItemCheck {
  const bad = new Set<string>();
  for (const found of told(schemaErrors(item.kind, plainValue(item.value)))) report(item, found, sink, bad);
  if (item.kind === 'scenarios')
    for (const found of told(overlayErrors(item.value))) report(item, found, sink, bad);
  return { bad, references: walk(item, bad, sink) };
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

function report(item: Item, { error, missing }: Told, sink: ProblemSink, bad: Set<string>): void {
  const { keyword, instancePath, params } = error;
  const place = () => find(item, instancePath);
  if (keyword === 'required') sink.add(() => missingKeys(place(), missing));
  else if (keyword === 'additionalProperties') {
    const name = String(params.additionalProperty);
    cutValue(place(), name, instancePath, bad);
    sink.add(() => withKey(place(), name, unknownKey));
  } else if (keyword === 'propertyNames') {
    const name = String(params.propertyName);
    bad.add(`${instancePath}/${escapeStep(name)}`);
    cutValue(place(), name, instancePath, bad);
    sink.add(() => withKey(place(), name, badKey));
  } else {
    bad.add(instancePath);
    sink.add(() => badValue(place(), error));
  }
}

/** Of a number that a comma cut, `1,500`, nothing is computed from what stands before the comma. */
function cutValue({ node }: Checked, name: string, instancePath: string, bad: Set<string>): void {
  const key = /^\d/.test(name) ? pairOf(node, name)?.key : undefined;
  const cut = key && cutNumber(node, key);
  if (cut) bad.add(`${instancePath}/${escapeStep(cut.pair.key.name)}`);
}

function withKey(
  checked: Checked,
  name: string,
  tell: (checked: Checked, key: KeyNode) => Problem | undefined,
) {
  const key = pairOf(checked.node, name)?.key;
  return key && tell(checked, key);
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
