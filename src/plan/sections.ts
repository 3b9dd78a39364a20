import type { EntrySection } from './check/item-kinds';
import type { Entry, Plan } from './model';
import type { ReferableSection } from './schema/values';

/** What the plan calls the map of each section's entries. */
export const mapOfSection = {
  bins: 'binTypes',
  rooms: 'rooms',
  scrubbers: 'scrubbers',
  nitrogen: 'nitrogenSources',
  refrigeration: 'refrigerationGroups',
  varieties: 'varieties',
  regimes: 'regimes',
  lots: 'lots',
  fills: 'fills',
  demand: 'demand',
  expect: 'expectations',
  scenarios: 'scenarios',
  tables: 'tables',
  readings: 'readings',
  progress: 'progress',
  samples: 'samples',
  packed: 'packed',
  sales: 'sales',
} as const satisfies Readonly<Record<EntrySection, keyof Plan>>;

/** The entries of a section by identifier, as the plan defines them. */
export function entriesOf(plan: Plan, section: ReferableSection): ReadonlyMap<string, Entry> {
  return plan[mapOfSection[section]];
}
