import { parseDay, parseWeek } from '../dates';
import type { Reference } from '../model';
import type { Problem } from '../problem';
import type { ProblemSink } from '../problem-sink';
import { type Dimension, parseQuantity } from '../quantity';
import type { ReferableSection } from '../schema/values';
import type { Node } from '../text/nodes';
import type { Checked, Item } from './checked';
import { spanProblem } from './date-messages';
import { duplicateKey } from './key-messages';
import { escapeStep } from './pointer';
import { limitProblem } from './quantity-messages';
import { itemSchema, schemaOfKey } from './schema';

/**
 * Goes through an item's values beside their schema: collects the entries they name, and finds what a JSON Schema
 * cannot say (a day that no calendar has, a span that ends before it starts, a length of zero, a key twice). What it
 * finds is added to `sink` and `bad`.
 */
export function walk(item: Item, bad: Set<string>, sink: ProblemSink): Reference[] {
  const references: Reference[] = [];
  visit({ item, node: item.value, key: item.key, schema: itemSchema(item.kind), path: [] }, '');
  return references;

  function visit(checked: Checked, pointer: string): void {
    const { node, schema, path } = checked;
    if (node.kind === 'scalar') scalar(checked, node, pointer);
    else if (node.kind === 'list')
      node.items.forEach((child, index) => {
        const step = String(index);
        visit(
          { ...checked, node: child, schema: schema.items ?? {}, path: [...path, step] },
          `${pointer}/${step}`,
        );
      });
    else map(checked, node, pointer);
  }

  function map(checked: Checked, node: Node & { kind: 'map' }, pointer: string): void {
    const { schema, path } = checked;
    const seen = new Map<string, Checked['key']>();
    for (const { key, value } of node.pairs) {
      const first = seen.get(key.name);
      if (first) {
        sink.add(() => duplicateKey(checked, first, key));
        continue;
      }
      seen.set(key.name, key);
      const below = schemaOfKey(schema, key.name);
      if (!below) continue;
      const child: Checked = { item, node: value, key, schema: below, path: [...path, key.name] };
      const childPointer = `${pointer}/${escapeStep(key.name)}`;
      if (bad.has(childPointer) && schema.propertyNames) {
        // Either the key or the value is wrong; only the value below it is of no use then.
        if (value.kind !== 'scalar') visit(child, childPointer);
        continue;
      }
      if (schema['x-key-refers-to']) refer(schema['x-key-refers-to'], key.name, key);
      const kind = schema['x-key-kind'];
      if (
        (kind === 'week' && parseWeek(key.name) === undefined) ||
        (kind === 'day' && parseDay(key.name) === undefined)
      ) {
        bad.add(childPointer);
        sink.add(() => spanProblem({ ...child, schema: { 'x-kind': kind } }, key.name, key));
      }
      visit(child, childPointer);
    }
  }

  function scalar(checked: Checked, node: Node & { kind: 'scalar' }, pointer: string): void {
    const { schema } = checked;
    if (typeof node.value !== 'string' || bad.has(pointer)) return;
    if (schema['x-refers-to']) refer(schema['x-refers-to'], node.value, node);
    const problem = beyondSchema(checked, node.value);
    if (!problem) return;
    bad.add(pointer);
    sink.add(() => problem);
  }

  function refer(section: string, id: string, { start, end }: { start: number; end: number }): void {
    references.push({ section: section as ReferableSection, id, at: { file: '', start, end } });
  }
}

function beyondSchema(checked: Checked, text: string): Problem | undefined {
  const { schema, node } = checked;
  const dimension = schema['x-dimension'];
  if (dimension) {
    const quantity = parseQuantity(text, dimension as Dimension);
    return quantity && limitProblem(checked, quantity.value);
  }
  const kind = schema['x-kind'];
  if (!kind) return undefined;
  const read = kind.startsWith('day') ? parseDay : parseWeek;
  const ends = text.split('..').map(read);
  const [first, last = first] = ends;
  const isGood = first !== undefined && last !== undefined && !ends.includes(undefined) && first <= last;
  return isGood ? undefined : spanProblem(checked, text, node);
}
