import planSchemaText from '../../../schemas/lot-plan.schema.json';
import { type ItemKind, isSingleSection, schemaOfKind, schemaOfSection } from './item-kinds';
import type { Schema } from './schema-types';

/** The published schema of a plan file. */
export const planSchema = planSchemaText as unknown as Schema;

const byKind = new Map<ItemKind, Schema>();

/** The schema of an entry, or of a section that stands once. */
export function itemSchema(kind: ItemKind): Schema {
  // Found when first asked for: a section that is new in the language is not in the published schema until it is made.
  const schema = byKind.get(kind) ?? schemaOfKind(planSchema, kind);
  byKind.set(kind, schema);
  return schema;
}

/** The section whose entries a section's own keys name, as those of `progress` name fills. */
export function keyRefersTo(kind: ItemKind): string | undefined {
  return isSingleSection(kind) ? undefined : schemaOfSection(planSchema, kind)['x-key-refers-to'];
}

/** The schema of a map's value by its key; undefined for a key that is not known. */
export function schemaOfKey(schema: Schema, key: string): Schema | undefined {
  if (schema.properties && Object.hasOwn(schema.properties, key)) return schema.properties[key];
  return typeof schema.additionalProperties === 'object' ? schema.additionalProperties : undefined;
}

/** The first example of a value, as it is written in a plan. */
export function exampleOf(schema: Schema): string | undefined {
  const example = schema.examples?.[0];
  if (example === undefined) {
    if (schema.items) return inBrackets(exampleOf(schema.items));
    if (!schema.properties) return undefined;
    const parts = (schema.required ?? []).map(
      (key) => `${key}: ${exampleOf(schema.properties?.[key] ?? {})}`,
    );
    return parts.length > 0 ? `{ ${parts.join(', ')} }` : undefined;
  }
  return written(example);
}

/** As it stands in a plan, maps in braces. */
function written(example: unknown): string {
  if (typeof example !== 'object' || example === null) return String(example);
  if (Array.isArray(example)) return `[${example.map(written).join(', ')}]`;
  const pairs = Object.entries(example).map(([key, value]) => `${key}: ${written(value)}`);
  return `{ ${pairs.join(', ')} }`;
}

function inBrackets(text: string | undefined): string | undefined {
  return text === undefined ? undefined : `[${text}]`;
}
