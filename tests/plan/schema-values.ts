import fc from 'fast-check';
import type { Schema } from '../../src/plan/check/schema-types';

/** Values that a schema allows, and such values with something spoilt at one place. */
export function goodValue(schema: Schema): fc.Arbitrary<unknown> {
  if (schema.const !== undefined) return fc.constant(schema.const);
  if (schema.enum) return fc.constantFrom(...schema.enum);
  if (schema.pattern) return fc.stringMatching(new RegExp(schema.pattern), { size: '-1' });
  switch (schema.type) {
    case 'string':
      return fc.string({ minLength: schema.minLength ?? 0, maxLength: 12 });
    case 'integer':
      return fc.integer({ min: schema.minimum ?? -1000, max: Math.min(schema.maximum ?? 5000, 5000) });
    case 'number':
      return fc.double({ min: schema.minimum ?? -1000, max: schema.maximum ?? 5000, noNaN: true });
    case 'array':
      return fc.array(goodValue(schema.items ?? {}), { minLength: schema.minItems ?? 0, maxLength: 3 });
    default:
      return goodMap(schema);
  }
}

function goodMap({
  properties,
  required,
  additionalProperties,
  propertyNames,
}: Schema): fc.Arbitrary<unknown> {
  if (typeof additionalProperties === 'object')
    return fc.dictionary(
      fc.stringMatching(new RegExp(propertyNames?.pattern ?? '^[a-z]+$'), { size: '-1' }),
      goodValue(additionalProperties),
      { maxKeys: 2 },
    );
  const parts = Object.entries(properties ?? {}).map(([key, value]) => [key, goodValue(value)]);
  const model: Record<string, fc.Arbitrary<unknown>> = Object.fromEntries(parts);
  return fc.record(model, { requiredKeys: [...(required ?? [])] });
}

const SPOILS: readonly unknown[] = [
  null,
  '',
  ' ',
  'x',
  '12',
  '1 m',
  '1 kg',
  '3 %',
  '-3 %',
  '1,5 m',
  '2026-09-01',
  '2026-9-1',
  '2026-W01',
  '2026-W54',
  '2026-09-01..2026-09-02',
  '2026-W01..2026-W03',
  0,
  -1,
  1,
  1.5,
  1e3,
  2 ** 53,
  1e300,
  Number.NaN,
  Number.POSITIVE_INFINITY,
  true,
  false,
  [],
  {},
  [null],
  ['1 m'],
  { a: 1 },
  { x: { length: '1 m' } },
  'washington',
  '1-mcp',
  'Gala',
  '9R',
];
const KEYS: readonly string[] = [
  'x',
  '1',
  '',
  'bin_type',
  'length',
  '2026-W01',
  '2026-W99',
  'constructor',
  'toString',
  ' a',
  'R1',
];

/** A copy with one value replaced, removed or added, somewhere. `choices` decide where and how. */
export function spoilt(value: unknown, choices: readonly number[]): unknown {
  const copy: unknown = structuredClone(value);
  const [depth = 0, where = 0, what = 0, which = 0, key = 0] = choices;
  let holder: unknown = copy;
  for (let level = 0; level < depth; level++) {
    const below = childrenOf(holder).filter((child) => typeof child === 'object' && child !== null);
    const next = below[where % Math.max(1, below.length)];
    if (next === undefined) break;
    holder = next;
  }
  const spoil = SPOILS[which % SPOILS.length];
  if (Array.isArray(holder)) {
    if (what % 3 === 0) holder.pop();
    else holder.push(spoil);
  } else if (typeof holder === 'object' && holder !== null) {
    const map = holder as Record<string, unknown>;
    const keys = Object.keys(map);
    const old = keys[where % Math.max(1, keys.length)];
    if (what % 4 === 0 && old !== undefined) delete map[old];
    else if (what % 4 === 1) map[KEYS[key % KEYS.length] ?? 'x'] = spoil;
    else if (old !== undefined) map[old] = spoil;
  } else return spoil;
  return copy;
}

function childrenOf(value: unknown): unknown[] {
  return typeof value === 'object' && value !== null ? Object.values(value) : [];
}
