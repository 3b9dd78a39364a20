import { IDENTIFIER } from '../schema/identifier';
import { type Node, pairOf, plainValue } from '../text/nodes';
import { type ItemKind, isEntrySection, isPlantSection, isSingleSection } from './item-kinds';
import { escapeStep } from './pointer';
import { schemaErrors } from './schema-errors';
import type { SchemaError } from './validator-types';

const IDENTIFIER_PATTERN = new RegExp(IDENTIFIER);

/**
 * What the plan's own validators find in the entries that a scenario changes and adds, by pointers from the scenario. A
 * change need not say all that an entry must have.
 */
export function overlayErrors(scenario: Node): SchemaError[] {
  return (['change', 'add'] as const).flatMap((how) =>
    pairsOf(pairOf(scenario, how)?.value).flatMap(([name, section]) => {
      const pointer = `/${how}/${escapeStep(name)}`;
      if (isSingleSection(name)) return how === 'change' ? errorsIn(name, section, pointer, how) : [];
      if (isEntrySection(name)) return entriesIn(name, section, pointer, how);
      if (name !== 'plant') return [];
      return pairsOf(section).flatMap(([kind, machines]) =>
        isPlantSection(kind)
          ? entriesIn(kind, machines, `${pointer}/${escapeStep(kind)}`, how)
          : [unknownKey(pointer, kind)],
      );
    }),
  );
}

function entriesIn(kind: ItemKind, section: Node, pointer: string, how: 'change' | 'add'): SchemaError[] {
  return pairsOf(section).flatMap(([id, entry]) =>
    IDENTIFIER_PATTERN.test(id)
      ? errorsIn(kind, entry, `${pointer}/${escapeStep(id)}`, how)
      : [error(pointer, 'propertyNames', { propertyName: id })],
  );
}

function errorsIn(kind: ItemKind, entry: Node, pointer: string, how: 'change' | 'add'): SchemaError[] {
  return schemaErrors(kind, plainValue(entry))
    .filter(({ keyword }) => how === 'add' || keyword !== 'required')
    .map((found) => ({ ...found, instancePath: `${pointer}${found.instancePath}` }));
}

function unknownKey(instancePath: string, additionalProperty: string): SchemaError {
  return error(instancePath, 'additionalProperties', { additionalProperty });
}

function error(instancePath: string, keyword: string, params: SchemaError['params']): SchemaError {
  return { instancePath, schemaPath: `#/${keyword}`, keyword, params };
}

/** The pairs of a map, the first where a key stands twice. */
function pairsOf(node: Node | undefined): [name: string, value: Node][] {
  if (node?.kind !== 'map') return [];
  const pairs = new Map<string, Node>();
  for (const { key, value } of node.pairs) if (!pairs.has(key.name)) pairs.set(key.name, value);
  return [...pairs];
}
