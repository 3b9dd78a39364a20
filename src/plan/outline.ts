import type { Node } from './text/nodes';
import { normalText } from './text/normal';
import { parseChunk } from './text/parse';

const natural = new Intl.Collator('en', { numeric: true, sensitivity: 'variant' });

/**
 * A plan file as lines that each say one value with its whole path (`lots L12 maturity firmness: 78 N`), sorted, without
 * comments and layout: two files that say the same have the same outline, and a difference of outlines reads as a
 * change of the plan. Numbers stand as they are written (`24.00`), and text without its quotes, but where it would be read
 * as something else without them (`'80'`): no two values that the plan tells apart look alike. What is not read as a plan file, conflict marks included, stays as it is.
 */
export function outlineOf(text: string): string {
  const { text: normal, problems: before } = normalText('', text);
  if (normal === undefined || before.length > 0) return text;
  const { root, problems } = parseChunk(normal);
  if (problems.length > 0 || root?.kind !== 'map') return text;
  const lines: string[] = [];
  collect(root, '', lines);
  return lines
    .sort((a, b) => natural.compare(a, b) || (a < b ? -1 : 1))
    .map((line) => `${line}\n`)
    .join('');
}

function collect(node: Node, path: string, into: string[]): void {
  if (node.kind === 'map' && node.pairs.length > 0) {
    for (const { key, value } of node.pairs)
      collect(value, path === '' ? key.name : `${path} ${key.name}`, into);
    return;
  }
  if (node.kind === 'list' && node.items.some(({ kind }) => kind !== 'scalar')) {
    for (const [index, item] of node.items.entries()) collect(item, `${path} ${index + 1}`, into);
    return;
  }
  into.push(`${path}: ${written(node)}`);
}

function written(node: Node): string {
  if (node.kind === 'map') return '{}';
  if (node.kind === 'list') return `[${node.items.map(written).join(', ')}]`;
  if (typeof node.value !== 'string') return node.raw;
  const quoted = JSON.stringify(node.value);
  return READ_OTHERWISE.test(node.value) ? quoted : quoted.slice(1, -1);
}

/** Text that YAML takes for a number, a truth value or nothing where it has no quotes. */
const READ_OTHERWISE =
  /^(?:[-+]?(?:\.\d+|\d+(?:\.\d*)?)(?:e[-+]?\d+)?|0x[\da-f]+|0o[0-7]+|[-+]?\.inf|\.nan|true|false|null|~|)$/i;
