import { parseDay, parseWeek } from '../dates';
import type { Problem } from '../problem';
import type { ProblemSink } from '../problem-sink';
import { type Dimension, parseQuantity } from '../quantity';
import type { ReferableSection } from '../schema/values';
import type { KeyNode, MapNode, Node, Pair, ScalarNode } from '../text/nodes';
import type { Checked, Item, Named } from './checked';
import { spanProblem } from './date-messages';
import { isGood } from './good-text';
import { duplicateKey } from './key-messages';
import { escapeStep } from './pointer';
import { limitProblem } from './quantity-messages';
import { itemSchema, keyRefersTo, schemaOfKey } from './schema';
import type { Schema } from './schema-types';

/** A value that is visited, with the way to it: path and pointer are put together only where something is wrong. */
interface Visited {
  readonly node: Node;
  readonly key: KeyNode;
  readonly schema: Schema;
  readonly step: string;
  readonly above: Visited | undefined;
}

/** Maps with more pairs than this look up whether a key stands twice. */
const FEW_PAIRS = 8;

/**
 * Goes through an item's values beside their schema: collects the entries they name, and finds what a JSON Schema
 * cannot say (a day that no calendar has, a span that ends before it starts, a length of zero, a key twice). What it
 * finds is added to `sink` and `bad`.
 */
export function walk(item: Item, bad: Set<string>, sink: ProblemSink): Named[] {
  const references: Named[] = [];
  const named = keyRefersTo(item.kind);
  if (named) refer(named, item.key.name, item.key);
  visit({ node: item.value, key: item.key, schema: itemSchema(item.kind), step: '', above: undefined });
  return references;

  function visit(visited: Visited): void {
    const { node, schema, key } = visited;
    if (node.kind === 'scalar') scalar(visited, node);
    else if (node.kind === 'list')
      node.items.forEach((child, index) => {
        visit({ node: child, key, schema: schema.items ?? {}, step: String(index), above: visited });
      });
    else map(visited, node);
  }

  function map(visited: Visited, { pairs }: MapNode): void {
    const { schema } = visited;
    const seen = pairs.length > FEW_PAIRS ? new Map<string, KeyNode>() : undefined;
    for (const [index, { key, value }] of pairs.entries()) {
      const first = seen ? seen.get(key.name) : sameBefore(pairs, index);
      if (first) {
        sink.add(() => duplicateKey(checkedOf(item, visited), first, key));
        continue;
      }
      seen?.set(key.name, key);
      const below = schemaOfKey(schema, key.name);
      if (!below) continue;
      const child: Visited = { node: value, key, schema: below, step: key.name, above: visited };
      if (schema.propertyNames && isBad(child)) {
        // Either the key or the value is wrong; only the value below it is of no use then.
        if (value.kind !== 'scalar') visit(child);
        continue;
      }
      if (schema['x-key-refers-to']) refer(schema['x-key-refers-to'], key.name, key);
      const kind = schema['x-key-kind'];
      if (
        (kind === 'week' && parseWeek(key.name) === undefined) ||
        (kind === 'day' && parseDay(key.name) === undefined)
      ) {
        bad.add(pointerTo(child));
        const checked: Checked = { ...checkedOf(item, child), schema: { 'x-kind': kind } };
        sink.add(() => spanProblem(checked, key.name, key));
      }
      visit(child);
    }
  }

  function scalar(visited: Visited, node: ScalarNode): void {
    const { schema } = visited;
    if (typeof node.value !== 'string' || isBad(visited)) return;
    if (schema['x-refers-to']) refer(schema['x-refers-to'], node.value, node);
    if (isGood(schema, node.value)) return;
    const problem = beyondSchema(checkedOf(item, visited), node.value);
    if (!problem) return;
    bad.add(pointerTo(visited));
    sink.add(() => problem);
  }

  function isBad(visited: Visited): boolean {
    return bad.size > 0 && bad.has(pointerTo(visited));
  }

  function refer(section: string, id: string, place: Named['at']): void {
    references.push({ section: section as ReferableSection, id, at: place, span: undefined });
  }
}

function sameBefore(pairs: readonly Pair[], index: number): KeyNode | undefined {
  const name = pairs[index]?.key.name;
  for (let before = 0; before < index; before++) {
    const key = pairs[before]?.key;
    if (key?.name === name) return key;
  }
  return undefined;
}

function checkedOf(item: Item, visited: Visited): Checked {
  const { node, key, schema } = visited;
  return { item, node, key, schema, path: pathTo(visited) };
}

function pathTo({ step, above }: Visited): string[] {
  return above ? [...pathTo(above), step] : [];
}

function pointerTo({ step, above }: Visited): string {
  return above ? `${pointerTo(above)}/${escapeStep(step)}` : '';
}

function beyondSchema(checked: Checked, text: string): Problem | undefined {
  const dimension = checked.schema['x-dimension'];
  if (!dimension) return spanProblem(checked, text, checked.node);
  const quantity = parseQuantity(text, dimension as Dimension);
  return quantity && limitProblem(checked, quantity.value);
}
