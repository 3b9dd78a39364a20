import { nearest } from '../nearest';
import type { Fix, Problem } from '../problem';
import { isEmpty, type KeyNode, type Node } from '../text/nodes';
import { listed, quoted } from '../text/say';
import { type Checked, problemAt } from './checked';
import { cutNumber, cutNumberProblem } from './comma-messages';
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
export function unknownKey(checked: Checked, key: KeyNode): Problem | undefined {
  const cut = cutNumber(checked.node, key);
  if (cut) return cutNumberProblem(checked, key, cut);
  const { hint, fixes } = meantKey(checked, key);
  const message = `${capital(owner(checked))} has no key ${quoted(key.name)}.${hint}`;
  return problemAt(checked, 'unknown-key', message, key, fixes, [...checked.path, key.name]);
}

interface Meant {
  readonly hint: string;
  readonly fixes: readonly Fix[];
}

/** The keys that stand in a map; none of one of thousands, in which nobody misspelt one. */
function keysIn({ node }: Checked): string[] {
  return node.kind === 'map' && node.pairs.length < 200 ? node.pairs.map(({ key }) => key.name) : [];
}

/** The key that a map lacks and that was probably meant by one that it has. */
function freeKey(checked: Checked, typed: string): string | undefined {
  const used = new Set(keysIn(checked));
  const cut = uncut(checked, typed);
  if (cut) return used.has(cut.name) ? undefined : cut.name;
  const keys = Object.keys(checked.schema.properties ?? {});
  return nearest(
    typed,
    keys.filter((name) => !used.has(name)),
  );
}

function meantKey(checked: Checked, key: KeyNode): Meant {
  const { schema } = checked;
  const keys = Object.keys(schema.properties ?? {});
  const cut = uncut(checked, key.name);
  if (cut) return asKeyAndValue(key, cut);
  const free = freeKey(checked, key.name);
  if (free)
    return {
      hint: ` Is \`${free}\` meant?`,
      fixes: [
        {
          title: `Rename to \`${free}\``,
          edits: [{ at: { file: '', start: key.start, end: key.end }, newText: free }],
        },
      ],
    };
  const there = nearest(key.name, keys);
  if (there) return { hint: ` \`${there}\` is there already; keep one of the two.`, fixes: [] };
  const above = keys.find((name) => hasKey(schema.properties?.[name], key.name));
  if (above) return { hint: ` It stands under \`${above}\`.`, fixes: [] };
  return { hint: ` The keys here are ${listed(keys, 'and', 20)}.`, fixes: [] };
}

/** A key with its value, between which a colon, a space or both are missing. */
interface Uncut {
  readonly name: string;
  /** What stands between them. */
  readonly sign: string;
}

/**
 * In braces a colon ends a key only where a space stands behind it, and nothing has to end it: `{ bins:50 }` and
 * `{ bins 50 }` are maps of one key without a value.
 */
function uncut({ node, schema }: Checked, typed: string): Uncut | undefined {
  if (!isAloneInBraces(node, typed)) return undefined;
  const [, name = '', sign = ''] = /^([a-z-]+)( *[:=] *| +)[^\s:=]/.exec(typed) ?? [];
  return Object.hasOwn(schema.properties ?? {}, name) ? { name, sign } : undefined;
}

function isAloneInBraces(node: Node, name: string): boolean {
  if (node.kind !== 'map' || !node.flow) return false;
  const pair = node.pairs.find(({ key }) => key.name === name);
  return pair !== undefined && isEmpty(pair.value);
}

function asKeyAndValue({ name: typed, start, end }: KeyNode, { name, sign }: Uncut): Meant {
  const behind = start + name.length;
  const isColon = sign.trim() === ':';
  const isPlain = end - start === typed.length;
  const edit = {
    at: { file: '', start: behind, end: behind + sign.length },
    newText: ': ',
  };
  return {
    hint: isColon
      ? ` A space is missing behind the colon of \`${name}\`.`
      : ` A colon is missing behind \`${name}\`.`,
    fixes: isPlain
      ? [{ title: isColon ? 'Put a space behind the colon' : 'Put a colon behind it', edits: [edit] }]
      : [],
  };
}

function hasKey(schema: Schema | undefined, key: string): boolean {
  return schema?.properties !== undefined && Object.hasOwn(schema.properties, key);
}

/** Keys that a map must have. Told once for the map, at its key; not those that a key it has is likely to mean. */
export function missingKeys(checked: Checked, required: readonly string[]): Problem | undefined {
  const { schema, key, node, path } = checked;
  const unknown = keysIn(checked).filter((name) => !Object.hasOwn(schema.properties ?? {}, name));
  const meant = new Set(unknown.map((name) => freeKey(checked, name)));
  const missing = required.filter((name) => !meant.has(name));
  if (missing.length === 0) return undefined;
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
export function badKey(checked: Checked, key: KeyNode): Problem | undefined {
  const { schema } = checked;
  const cut = cutNumber(checked.node, key);
  if (cut) return cutNumberProblem(checked, key, cut);
  const path = [...checked.path, key.name];
  const name = quoted(key.name);
  switch (schema['x-key-kind']) {
    case 'week':
      return problemAt(
        checked,
        'not-a-week',
        `${name} is not a week. Weeks are written as in \`2026-W51\`.`,
        key,
        [],
        path,
      );
    case 'day':
      return problemAt(
        checked,
        'not-a-date',
        `${name} is not a day. Days are written as in \`2026-09-03\`.`,
        key,
        [],
        path,
      );
    case 'field':
      return problemAt(
        checked,
        'bad-identifier',
        `${name} is not a column's name in the plan. They are words in small letters, as in \`field-temperature\`; what the file calls it stands behind.`,
        key,
        [],
        path,
      );
    case 'code':
      return problemAt(
        checked,
        'bad-identifier',
        `${name} is not a finding's code. Codes are words in small letters with hyphens, as in \`room-partly-filled\`.`,
        key,
        [],
        path,
      );
    case 'class':
      return problemAt(
        checked,
        'bad-identifier',
        `${name} cannot name a pack class. A name starts with a letter and has letters, digits, spaces, _ and - only.`,
        key,
        [],
        path,
      );
    default: {
      const [whole, named = ''] = /^([A-Za-z][\w./' -]*):(?=[^\s:]+$)/.exec(key.name) ?? [];
      if (!whole || !isAloneInBraces(checked.node, key.name) || key.end - key.start !== key.name.length)
        return problemAt(checked, 'bad-identifier', identifierMessage(key.name), key, [], path);
      const { hint, fixes } = asKeyAndValue(key, { name: named, sign: ':' });
      return problemAt(checked, 'bad-identifier', `${identifierMessage(key.name)}${hint}`, key, fixes, path);
    }
  }
}

/** Why a text is no identifier. */
export function identifierMessage(text: string): string {
  const example = /^\d/.test(text) ? `, as in \`R${text.slice(0, 10).replace(/[^\w.-]/g, '')}\`` : '';
  return /^[A-Za-z]/.test(text)
    ? `${quoted(text)} is not an identifier: letters, digits, spaces and . _ / ' - are allowed in one.`
    : `${quoted(text)} is not an identifier: one starts with a letter${example}, so that it is never read as a number.`;
}

/** A key that stands twice in one map. */
export function duplicateKey(checked: Checked, first: KeyNode, second: KeyNode): Problem | undefined {
  // `12,000,000` in braces: a group of digits, told with its number.
  if (cutNumber(checked.node, second)) return undefined;
  const problem = problemAt(
    checked,
    'duplicate-key',
    `${capital(owner(checked))} has ${quoted(second.name)} twice; the first counts. Delete one of them.`,
    second,
    saysTheSame(checked.node, first, second),
    [...checked.path, second.name],
  );
  const at = { file: '', start: first.start, end: first.end };
  return { ...problem, related: [{ at, message: 'It stands here first' }] };
}

/** The fix where both have the same value: the second one goes. What it stands among is seen by who has the text. */
function saysTheSame(node: Node, first: KeyNode, second: KeyNode): Fix[] {
  const valueUnder = (key: KeyNode) =>
    node.kind === 'map' ? node.pairs.find((pair) => pair.key === key)?.value : undefined;
  const [one, other] = [valueUnder(first), valueUnder(second)];
  if (one?.kind !== 'scalar' || other?.kind !== 'scalar' || isEmpty(other) || one.raw !== other.raw)
    return [];
  const at = { file: '', start: second.start, end: other.end };
  return [{ title: 'Delete the second, which says the same', edits: [{ at, newText: '' }] }];
}
