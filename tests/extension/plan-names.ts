import fs from 'node:fs';
import path from 'node:path';
import { isScalar, parseDocument, visit } from 'yaml';
import { root } from '../cli/in-process';

/** Words of the plan language: a text may name them in backticks only. */
const planKeys = new Set(
  fs
    .readdirSync(path.join(root, 'schemas'))
    .filter((name) => name.endsWith('.json'))
    .flatMap((name) => [
      ...fs.readFileSync(path.join(root, 'schemas', name), 'utf8').matchAll(/"([a-z-]+)": \{/g),
    ])
    .map(([, key]) => key ?? ''),
);

/** Names that a plan's text gives: its values, and the keys it has of its own. */
export function namesIn(...texts: readonly string[]): ReadonlySet<string> {
  const names = new Set<string>();
  for (const text of texts)
    visit(parseDocument(text, { logLevel: 'error', uniqueKeys: false }), {
      Scalar: (_at, { value }) => {
        if (typeof value !== 'string') return;
        names.add(value);
        for (const part of value.split(/[ ,/]+/)) names.add(part);
      },
      Pair: (_at, { key }) => {
        if (isScalar(key) && !planKeys.has(String(key.value))) names.add(String(key.value));
      },
    });
  return names;
}
