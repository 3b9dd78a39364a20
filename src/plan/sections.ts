import type { Entry, Plan } from './model';
import type { ReferableSection } from './schema/values';

/** What the trade calls one entry of each section. */
export const entryNames: Readonly<Record<ReferableSection, string>> = {
  bins: 'bin type',
  rooms: 'room',
  scrubbers: 'scrubber',
  nitrogen: 'nitrogen source',
  refrigeration: 'refrigeration group',
  varieties: 'variety',
  regimes: 'regime',
  lots: 'lot',
  fills: 'fill',
};

/** The entries of a section by identifier, as the plan defines them. */
export function entriesOf(plan: Plan, section: ReferableSection): ReadonlyMap<string, Entry> {
  const sections = {
    bins: plan.binTypes,
    rooms: plan.rooms,
    scrubbers: plan.scrubbers,
    nitrogen: plan.nitrogenSources,
    refrigeration: plan.refrigerationGroups,
    varieties: plan.varieties,
    regimes: plan.regimes,
    lots: plan.lots,
    fills: plan.fills,
  };
  return sections[section];
}
