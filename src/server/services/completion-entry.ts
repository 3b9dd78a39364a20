import type { Proposal } from './completion-types';
import { type Guide, guideAt } from './schema-guide';

/** Sections whose entries can be written whole, and what a new one is called until the planner names it. */
const NEW_ENTRY: Readonly<Record<string, readonly [name: string, what: string]>> = {
  bins: ['bin-type', 'bin type'],
  rooms: ['R0', 'room'],
  lots: ['L0', 'lot'],
  fills: ['R0-fill', 'fill'],
  demand: ['D0', 'demand'],
  regimes: ['regime', 'regime'],
  expect: ['promise', 'expectation'],
  scenarios: ['what-if', 'scenario'],
  samples: ['T0', 'sample'],
  packed: ['P0', 'packed run'],
  sales: ['V0', 'sale'],
  'plant.scrubbers': ['S0', 'scrubber'],
  'plant.nitrogen': ['N0', 'nitrogen source'],
  'plant.refrigeration': ['group', 'refrigeration group'],
};

/** How an entry of which no single key is required begins. */
const BEGINS: Readonly<Record<string, string>> = {
  expect: 'no-shortage: { variety: Gala }',
  scenarios: 'crop: 80 %',
};

const STEP = '  ';

/**
 * A whole new entry of the section: its name and every key it needs, each with an example to be written over. Lines
 * after the first are indented to stand below a name at `column`.
 */
export function newEntry(path: readonly string[], column: number): Proposal[] {
  const found = NEW_ENTRY[path.join('.')];
  const guide = guideAt([...path, 'x']);
  if (!found || !guide) return [];
  const [name, what] = found;
  const indent = ' '.repeat(column);
  const begins = BEGINS[path.join('.')];
  const lines =
    begins === undefined
      ? required(guide).flatMap(([key, child]) => keyLines(key, child, indent + STEP))
      : [`${indent}${STEP}${begins}`];
  const newText = [`${name}:`, ...lines].join('\n');
  return [
    {
      label: `new ${what}`,
      kind: 'entry',
      detail: 'with all it needs',
      documentation: `Writes a ${what} with an example for each key it needs. Write your own over them.`,
      newText,
      snippet: withPlaces(newText),
    },
  ];
}

/** The name and every value of an entry as a place to be filled, its example in it. */
export function withPlaces(entry: string): string {
  let place = 0;
  return entry
    .replace(/[\\$]/g, '\\$&')
    .replace(/^[^:\n]+|(?<=: |\[)[^\s{}[\],](?:[^{}[\],\n]*[^\s{}[\],])?/g, (example) => {
      place += 1;
      return `\${${place}:${example}}`;
    });
}

function required(guide: Guide): [string, Guide][] {
  const keys = new Set(guide.required);
  return Object.entries(guide.properties ?? {}).filter(([key]) => keys.has(key));
}

function keyLines(key: string, guide: Guide, indent: string): string[] {
  const value = exampleOf(guide);
  return value === undefined ? [] : [`${indent}${key}: ${value}`];
}

/** The schema's own example; of a map, those of the keys it needs, in braces. */
function exampleOf(guide: Guide): string | undefined {
  const example = guide.examples?.[0];
  if (example !== undefined && typeof example !== 'object') return String(example);
  if (guide.enum?.[0] !== undefined) return guide.enum[0];
  if (guide.items) {
    const item = exampleOf(guide.items);
    return `[${item === undefined ? '' : item}]`;
  }
  if (guide.properties) {
    const parts = required(guide).flatMap(([key, child]) => {
      const value = exampleOf(child);
      return value === undefined ? [] : [`${key}: ${value}`];
    });
    return `{ ${parts.join(', ')} }`;
  }
  return guide.type === 'object' ? '{}' : undefined;
}
