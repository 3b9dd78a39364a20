import { nearest } from '../nearest';
import type { Fix, Problem } from '../problem';
import type { KeyNode } from '../text/nodes';
import { listed, quoted } from '../text/say';
import { type Checked, problemAt } from './checked';
import { itemName } from './item-kinds';
import { exampleOf } from './schema';
import type { Schema } from './schema-types';

/** What messages call the map that has, or lacks, a key. */
function owner({ item, path }: Checked): string {
  const whole =
    item.kind === item.key.name ? quoted(item.kind) : `${itemName(item.kind)} ${quoted(item.key.name)}`;
  return path.length === 0
    ? whole
    : `${quoted(path.filter((step) => !/^\d+$/.test(step)).join('.'))} of ${whole}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A key that the plan language does not have at this place. */
export function unknownKey(checked: Checked, key: KeyNode): Problem {
  const { schema, node } = checked;
  const keys = Object.keys(schema.properties ?? {});
  const used = new Set(node.kind === 'map' ? node.pairs.map(({ key: { name } }) => name) : []);
  const meant = nearest(
    key.name,
    keys.filter((name) => !used.has(name)),
  );
  const below = meant ? undefined : keys.find((name) => hasKey(schema.properties?.[name], key.name));
  const fixes: Fix[] = meant
    ? [
        {
          title: `Rename to \`${meant}\``,
          edits: [{ at: { file: '', start: key.start, end: key.end }, newText: meant }],
        },
      ]
    : [];
  const hint = meant
    ? ` Is \`${meant}\` meant?`
    : below
      ? ` It stands under \`${below}\`.`
      : ` The keys here are ${listed(keys, 'and', 20)}.`;
  return problemAt(
    checked,
    'unknown-key',
    `${capital(owner(checked))} has no key ${quoted(key.name)}.${hint}`,
    key,
    fixes,
    [...checked.path, key.name],
  );
}

function hasKey(schema: Schema | undefined, key: string): boolean {
  return schema?.properties !== undefined && Object.hasOwn(schema.properties, key);
}

/** Keys that a map must have. Told once for the map, at its key. */
export function missingKeys(checked: Checked, missing: readonly string[]): Problem {
  const { schema, key, node, path } = checked;
  const example = missing
    .slice(0, 2)
    .map((name) => `\`${name}: ${exampleOf(schema.properties?.[name] ?? {}) ?? '…'}\``)
    .join(' and ');
  const inList = path.length > 0 && /^\d+$/.test(path.at(-1) ?? '');
  const place = inList ? { start: node.start, end: Math.max(node.end, node.start) } : key;
  const names = missing.map((name) => `\`${name}\``);
  return problemAt(
    checked,
    'missing-key',
    `${capital(owner(checked))} lacks ${listed(names)}. Add for example ${example}.`,
    place,
  );
}

/** A map's key that is no identifier, or not of the kind the map holds. */
export function badKey(checked: Checked, key: KeyNode): Problem {
  const { schema } = checked;
  const path = [...checked.path, key.name];
  if (schema['x-key-kind'] === 'week')
    return problemAt(
      checked,
      'not-a-week',
      `${quoted(key.name)} is not a week. Weeks are written as in \`2026-W51\`.`,
      key,
      [],
      path,
    );
  return problemAt(checked, 'bad-identifier', identifierMessage(key.name), key, [], path);
}

/** Why a text is no identifier. */
export function identifierMessage(text: string): string {
  const example = /^\d/.test(text) ? `, as in \`R${text.slice(0, 10).replace(/[^\w.-]/g, '')}\`` : '';
  return /^[A-Za-z]/.test(text)
    ? `${quoted(text)} is not an identifier: letters, digits, spaces and . _ / ' - are allowed in one.`
    : `${quoted(text)} is not an identifier: one starts with a letter${example}, so that it is never read as a number.`;
}

/** A key that stands twice in one map. */
export function duplicateKey(checked: Checked, first: KeyNode, second: KeyNode): Problem {
  const problem = problemAt(
    checked,
    'duplicate-key',
    `${capital(owner(checked))} has ${quoted(second.name)} twice; the first counts. Delete one of them.`,
    second,
    [],
    [...checked.path, second.name],
  );
  const at = { file: '', start: first.start, end: first.end };
  return { ...problem, related: [{ at, message: 'It stands here first' }] };
}
