import type { Schema } from './schema-types';

/** Sections whose entries are keyed by identifier, at the top of a file. */
export const entrySections = [
  'bins',
  'rooms',
  'varieties',
  'regimes',
  'lots',
  'fills',
  'demand',
  'expect',
  'scenarios',
  'tables',
  'readings',
  'progress',
  'samples',
  'packed',
  'sales',
] as const;
/** The same, under `plant`. */
export const plantSections = ['scrubbers', 'nitrogen', 'refrigeration'] as const;
/** Sections that stand once in a plan. */
export const singleSections = ['season', 'packing', 'policy'] as const;

export type EntrySection = (typeof entrySections)[number] | (typeof plantSections)[number];
export type SingleSection = (typeof singleSections)[number];

/** What is read and checked by itself: an entry of a section, or a section that stands once. */
export type ItemKind = EntrySection | SingleSection;

export const itemKinds: readonly ItemKind[] = [...entrySections, ...plantSections, ...singleSections];

/** What a plan has by the hundred and what is recorded day by day. Their validators are loaded without the others'. */
const oftenTyped = ['lots', 'fills', 'demand', 'progress', 'samples', 'packed', 'sales'] as const;

export type OftenTyped = (typeof oftenTyped)[number];
export type SeldomTyped = Exclude<ItemKind, OftenTyped>;

export function isOftenTyped(kind: ItemKind): kind is OftenTyped {
  return (oftenTyped as readonly string[]).includes(kind);
}

const NAMES: Readonly<Record<ItemKind, string>> = {
  bins: 'bin type',
  rooms: 'room',
  varieties: 'variety',
  regimes: 'regime',
  lots: 'lot',
  fills: 'fill',
  demand: 'demand',
  expect: 'expectation',
  scenarios: 'scenario',
  tables: 'table',
  readings: 'file of readings',
  progress: 'progress of the fill',
  samples: 'sample',
  packed: 'packed run',
  sales: 'sale',
  scrubbers: 'scrubber',
  nitrogen: 'nitrogen source',
  refrigeration: 'refrigeration group',
  season: 'season',
  packing: 'packing',
  policy: 'policy',
};

/** What an item is called in messages. */
export function itemName(kind: ItemKind): string {
  return NAMES[kind];
}

export function isEntrySection(name: string): name is (typeof entrySections)[number] {
  return (entrySections as readonly string[]).includes(name);
}

export function isPlantSection(name: string): name is (typeof plantSections)[number] {
  return (plantSections as readonly string[]).includes(name);
}

export function isSingleSection(name: string): name is SingleSection {
  return (singleSections as readonly string[]).includes(name);
}

/** The schema of a section's map: what its keys define. */
export function schemaOfSection(plan: Schema, section: EntrySection): Schema {
  const parent = isPlantSection(section) ? plan.properties?.plant : plan;
  const found = parent?.properties?.[section];
  if (!found) throw new Error(`the schema has no section ${section}`);
  return found;
}

/** The schema of one item. */
export function schemaOfKind(plan: Schema, kind: ItemKind): Schema {
  if (isSingleSection(kind)) return plan.properties?.[kind] ?? {};
  const { additionalProperties } = schemaOfSection(plan, kind);
  return typeof additionalProperties === 'object' ? additionalProperties : {};
}
