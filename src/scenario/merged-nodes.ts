import type { Node, Pair } from '../plan/text/nodes';

/**
 * One map laid over another: its keys take the place of those of the same name, map by map; a list or a plain value is
 * put in the place of the one there was. Keys that are new come last.
 */
export function mergedNodes(base: Node, over: Node): Node {
  if (base.kind !== 'map' || over.kind !== 'map') return over;
  const laid = new Map<string, Pair>();
  for (const pair of over.pairs) if (!laid.has(pair.key.name)) laid.set(pair.key.name, pair);
  const kept = base.pairs.map((pair): Pair => {
    const other = laid.get(pair.key.name);
    if (!other) return pair;
    laid.delete(pair.key.name);
    return { key: other.key, value: mergedNodes(pair.value, other.value) };
  });
  return { ...base, pairs: [...kept, ...laid.values()] };
}

/** The same node with all its places moved. */
export function movedNode(node: Node, by: number): Node {
  const at = { start: node.start + by, end: node.end + by };
  if (node.kind === 'scalar') return { ...node, ...at };
  if (node.kind === 'list') return { ...node, ...at, items: node.items.map((item) => movedNode(item, by)) };
  return {
    ...node,
    ...at,
    pairs: node.pairs.map(({ key, value }) => ({
      key: { ...key, start: key.start + by, end: key.end + by },
      value: movedNode(value, by),
    })),
  };
}
