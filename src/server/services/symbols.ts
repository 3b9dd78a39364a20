import { itemName } from '../../plan/check/item-kinds';
import type { Entry, Plan } from '../../plan/model';
import { entriesOf } from '../../plan/sections';
import type { Span } from '../../plan/span';
import { SECTIONS } from './entries';

/** An entry of a plan, found by its name. */
export interface EntrySymbol {
  readonly name: string;
  /** What kind of entry it is, for the list. */
  readonly kind: string;
  readonly at: Span;
}

/** Editors filter further themselves; more than this would only hold them up. */
const MOST_SYMBOLS = 500;

/** Entries whose names hold the letters of the query in their order, capitals or not; best matches first. */
export function symbolsMatching(plan: Plan, query: string): EntrySymbol[] {
  const wanted = query.toLowerCase().replace(/\s+/g, '');
  const found = everyEntry(plan).flatMap(({ entry, kind }) => {
    const rank = rankOf(entry.id.toLowerCase(), wanted);
    return rank === undefined ? [] : [{ symbol: { name: entry.id, kind, at: entry.at }, rank }];
  });
  return found
    .sort((a, b) => a.rank - b.rank || (a.symbol.name < b.symbol.name ? -1 : 1))
    .slice(0, MOST_SYMBOLS)
    .map(({ symbol }) => symbol);
}

function everyEntry(plan: Plan): { readonly entry: Entry; readonly kind: string }[] {
  const named = SECTIONS.flatMap((section) =>
    [...entriesOf(plan, section).values()].map((entry) => ({ entry, kind: itemName(section) })),
  );
  return [...named, ...[...plan.demand.values()].map((entry) => ({ entry, kind: 'demand' }))];
}

/** 0 for the name itself, then beginnings, then parts, then letters in order; undefined where it does not match. */
function rankOf(name: string, wanted: string): number | undefined {
  const packed = name.replace(/\s+/g, '');
  if (packed === wanted) return 0;
  if (packed.startsWith(wanted)) return 1;
  if (packed.includes(wanted)) return 2;
  let at = 0;
  for (const letter of wanted) {
    at = packed.indexOf(letter, at) + 1;
    if (at === 0) return undefined;
  }
  return 3;
}
