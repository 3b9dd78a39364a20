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
const ALLOW = /^allow[ \t]+([a-z][a-z0-9-]*)[ \t]*(?:--|\u2014|\u2013)[ \t]*(\S.*)$/;

/** Finds `# lotwright: allow <code> -- <reason>` comments. `root` tells comments from text that looks like one. */
export function allowComments(text: string, root: Node | undefined): AllowComment[] {
  if (!text.includes('lotwright')) return [];
  const found: AllowComment[] = [];
  const shape = shapeOf(root);
  for (const match of text.matchAll(ADDRESS)) {
    const start = match.index;
    const before = text[start - 1];
    if (before !== undefined && !/\s/.test(before)) continue;
    if (isInScalar(shape, start)) continue;
    const words = (match[1] ?? '').trimEnd();
    const end = start + match[0].trimEnd().length;
    const allow = ALLOW.exec(words);
    const allows = allow ? { code: allow[1] ?? '', reason: (allow[2] ?? '').trim() } : undefined;
    found.push({ start, end, allows, covers: covered(text, shape, start, end) });
  }
  return found;
}

function covered(text: string, shape: Shape, start: number, end: number) {
  const lineStart = text.lastIndexOf('\n', start - 1) + 1;
  if (text.slice(lineStart, start).trim() !== '') return { start: lineStart, end };
  const below = /\n[ \t]*([^\s#][^\r\n]*)/g;
  below.lastIndex = end;
  const next = below.exec(text);
  if (!next) return { start, end };
  const content = next.index + next[0].length - (next[1] ?? '').length;
  const line = { start: content, end: next.index + next[0].length };
  const pairEnd = shape.pairEnds.get(content);
  return pairEnd === undefined ? line : { start: content, end: Math.max(pairEnd, line.end) };
}

/** What comments are held against: where pairs end, by their keys' starts, and the scalars in the text's order. */
interface Shape {
  readonly pairEnds: ReadonlyMap<number, number>;
  readonly scalars: readonly { readonly start: number; readonly end: number }[];
}

function shapeOf(root: Node | undefined): Shape {
  const pairEnds = new Map<number, number>();
  const scalars: { start: number; end: number }[] = [];
  if (root) visit(root);
  return { pairEnds, scalars };

  function visit(node: Node): void {
    if (node.kind === 'scalar') scalars.push(node);
    else if (node.kind === 'list') node.items.forEach(visit);
    else
      for (const { key, value } of node.pairs) {
        pairEnds.set(key.start, Math.max(key.end, value.end));
        scalars.push(key);
        visit(value);
      }
  }
}

function isInScalar({ scalars }: Shape, offset: number): boolean {
  let low = 0;
  let high = scalars.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((scalars[middle]?.start ?? 0) <= offset) low = middle + 1;
    else high = middle;
  }
  const last = scalars[low - 1];
  return last !== undefined && offset < last.end;
}
