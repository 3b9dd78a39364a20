import type { Node } from './nodes';

/** A comment that speaks to the program. Offsets are relative to the chunk. */
export interface AllowComment {
  readonly start: number;
  readonly end: number;
  /** Undefined where the comment does not have the form it needs. */
  readonly allows: { readonly code: string; readonly reason: string } | undefined;
  /** What it covers: its own line, or the entry, key or line below. */
  readonly covers: { readonly start: number; readonly end: number };
}

const ADDRESS = /#[ \t]*lotwright[ \t]*:[ \t]*([^\r\n]*)/g;
const ALLOW = /^allow[ \t]+([a-z][a-z0-9-]*)[ \t]*(?:--|—|–)[ \t]*(\S.*)$/;

/** Finds `# lotwright: allow <code> -- <reason>` comments. `root` tells comments from text that looks like one. */
export function allowComments(text: string, root: Node | undefined): AllowComment[] {
  if (!text.includes('lotwright')) return [];
  const found: AllowComment[] = [];
  for (const match of text.matchAll(ADDRESS)) {
    const start = match.index;
    const before = text[start - 1];
    if (before !== undefined && !/\s/.test(before)) continue;
    if (root && isInScalar(root, start)) continue;
    const words = (match[1] ?? '').trimEnd();
    const end = start + match[0].trimEnd().length;
    const allow = ALLOW.exec(words);
    const allows = allow ? { code: allow[1] ?? '', reason: (allow[2] ?? '').trim() } : undefined;
    found.push({ start, end, allows, covers: covered(text, root, start, end) });
  }
  return found;
}

function covered(text: string, root: Node | undefined, start: number, end: number) {
  const lineStart = text.lastIndexOf('\n', start - 1) + 1;
  if (text.slice(lineStart, start).trim() !== '') return { start: lineStart, end };
  const below = /\n[ \t]*([^\s#][^\r\n]*)/g;
  below.lastIndex = end;
  const next = below.exec(text);
  if (!next) return { start, end };
  const content = next.index + next[0].length - (next[1] ?? '').length;
  const line = { start: content, end: next.index + next[0].length };
  const pairEnd = root && endOfPairAt(root, content);
  return pairEnd === undefined ? line : { start: content, end: Math.max(pairEnd, line.end) };
}

function endOfPairAt(node: Node, start: number): number | undefined {
  if (node.kind === 'scalar' || start < node.start || start > node.end) return undefined;
  const children = node.kind === 'list' ? node.items : node.pairs.map(({ value }) => value);
  if (node.kind === 'map')
    for (const { key, value } of node.pairs) if (key.start === start) return Math.max(key.end, value.end);
  for (const child of children) {
    const found = endOfPairAt(child, start);
    if (found !== undefined) return found;
  }
  return undefined;
}

function isInScalar(node: Node, offset: number): boolean {
  if (node.kind === 'scalar') return node.start <= offset && offset < node.end;
  if (node.kind === 'list') return node.items.some((item) => isInScalar(item, offset));
  return node.pairs.some(
    ({ key, value }) => (key.start <= offset && offset < key.end) || isInScalar(value, offset),
  );
}
