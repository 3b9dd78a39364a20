import type { Fix, Problem } from '../problem';
import type { Dimension } from '../quantity';
import { isEmpty, type KeyNode, type Node, type Pair } from '../text/nodes';
import { quoted } from '../text/say';
import { type Checked, nameOf, problemAt } from './checked';
import { aDimension, readable } from './quantity-messages';
import { exampleOf, schemaOfKey } from './schema';
import type { Schema } from './schema-types';

/** Digits in threes behind commas, as thousands are written; such a number does not begin with a nought. */
const IN_THREES = /^[+-]?[1-9]\d{0,2}(?:,\d{3})+(?![\d,])/;
const ONE_COMMA = /^([+-]?\d+),(\d+)(?![\d.,])/;

/** What a number with commas may mean, written as the plan language has it. */
interface Meanings {
  /** Without the commas between its thousands: the likelier, where there is one. */
  readonly thousands: string | undefined;
  readonly decimal: string | undefined;
}

/** What a text that has commas in its number may mean to a key. */
function meaningsOf(text: string, schema: Schema): Meanings {
  const thousands = IN_THREES.exec(text)?.[0];
  const decimal = ONE_COMMA.exec(text);
  const written = (newText: string | undefined) =>
    newText === undefined ? undefined : asExpected(newText, schema);
  return {
    thousands: written(thousands && thousands.replaceAll(',', '') + text.slice(thousands.length)),
    decimal: written(decimal ? `${decimal[1]}.${decimal[2]}${text.slice(decimal[0].length)}` : undefined),
  };
}

/** The text as the key takes it; undefined where it takes no such thing. */
function asExpected(text: string, schema: Schema): string | undefined {
  if (schema['x-dimension']) return readable(text, schema['x-dimension'] as Dimension)[0];
  if (schema.type === 'integer') return /^[+-]?\d+$/.test(text) ? text : undefined;
  return schema.type === 'number' && /^[+-]?\d+(?:\.\d+)?$/.test(text) ? text : undefined;
}

function sayMeant({ thousands, decimal }: Meanings): string {
  if (thousands && decimal)
    return ` Write it without a comma, ${quoted(thousands)}, which is likely meant; only where a decimal comma is meant, with a point, ${quoted(decimal)}.`;
  if (thousands) return ` Write it without commas: ${quoted(thousands)}.`;
  return decimal ? ` Write a decimal point: ${quoted(decimal)}.` : '';
}

function sayExpected(name: string, schema: Schema): string {
  const what = schema['x-dimension']
    ? aDimension(schema['x-dimension'] as Dimension)
    : schema.type === 'integer'
      ? 'a whole number'
      : 'a number';
  const example = exampleOf(schema);
  return ` \`${name}\` is ${what}${example === undefined ? '' : `, for example \`${example}\``}.`;
}

function fixesOf({ thousands, decimal }: Meanings, place: { start: number; end: number }): Fix[] {
  const edit = (newText: string) => [{ at: { file: '', start: place.start, end: place.end }, newText }];
  const fixes: Fix[] = [];
  if (thousands) fixes.push({ title: `Write \`${thousands}\``, edits: edit(thousands) });
  if (decimal) {
    const title = thousands ? `Write \`${decimal}\`, with a decimal point` : `Write \`${decimal}\``;
    fixes.push({ title, edits: edit(decimal) });
  }
  return fixes;
}

/** A value whose number has commas between its thousands; undefined where it has none. */
export function thousandsProblem(checked: Checked, text: string, code: string): Problem | undefined {
  if (!IN_THREES.test(text)) return undefined;
  const meanings = meaningsOf(text, checked.schema);
  const message = `${quoted(text)} has a comma.${sayMeant(meanings)}${sayExpected(nameOf(checked), checked.schema)}`;
  return problemAt(checked, code, message, checked.node, fixesOf(meanings, checked.node));
}

/** A number inside braces that its commas end: the pair it stands in, and the keys that its other digits are read as. */
interface CutNumber {
  readonly pair: Pair;
  readonly keys: readonly KeyNode[];
}

/** `{ height: 7,6 m }`: inside braces a comma ends the value, and the rest is read as a key, each group of digits as one. */
export function cutNumber(node: Node, key: KeyNode): CutNumber | undefined {
  if (node.kind !== 'map' || !node.flow || !/^\d/.test(key.name)) return undefined;
  const index = node.pairs.findIndex((pair) => pair.key === key);
  let first = index;
  while (goesOn(node.pairs[first - 1], node.pairs[first])) first--;
  const pair = node.pairs[first];
  if (first === index || pair?.value.kind !== 'scalar' || typeof pair.value.value !== 'number')
    return undefined;
  let last = index;
  while (goesOn(node.pairs[last], node.pairs[last + 1])) last++;
  return { pair, keys: node.pairs.slice(first + 1, last + 1).map((one) => one.key) };
}

/** Whether a key stands right behind the comma that ends what is before it, and says nothing itself. */
function goesOn(before: Pair | undefined, pair: Pair | undefined): boolean {
  if (!before || !pair || !/^\d/.test(pair.key.name) || !isEmpty(pair.value)) return false;
  const end = isEmpty(before.value) ? before.key.end : before.value.end;
  return pair.key.start === end + 1;
}

/** A number that its commas cut, told once at what stands behind the first; undefined at what follows. */
export function cutNumberProblem(
  checked: Checked,
  key: KeyNode,
  { pair, keys }: CutNumber,
): Problem | undefined {
  if (keys[0] !== key) return undefined;
  const raw = pair.value.kind === 'scalar' ? pair.value.raw : '';
  const text = [raw, ...keys.map(({ name }) => name)].join(',');
  const schema = schemaOfKey(checked.schema, pair.key.name) ?? {};
  const meanings = meaningsOf(text, schema);
  const place = { start: pair.value.start, end: keys.at(-1)?.end ?? key.end };
  const cut = keys.length > 1 ? 'cut by its commas' : 'read as two';
  return problemAt(
    checked,
    'unknown-key',
    `A comma separates values here, so ${quoted(text)} is ${cut}.${sayMeant(meanings)}${sayExpected(pair.key.name, schema)}`,
    key,
    fixesOf(meanings, place),
    [...checked.path, key.name],
  );
}
