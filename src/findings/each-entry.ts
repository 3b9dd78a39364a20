import type { ComputedSeason, FindIn, InEntry, Rule } from './types';

/** Maps of a season whose entries a rule may look at one by one. */
export type EntryMap = keyof InEntry;

/**
 * Rules that say of each entry of these maps what they say of it alone: what they find in a season is what they find
 * entry by entry, together. They are run again only for entries that have changed. So are rules with `inEntry`, which
 * says by itself of which maps it speaks. All other rules look at the season as a whole. A test compares both ways of
 * running them over thousands of edits.
 */
const EACH: Readonly<Record<string, readonly EntryMap[]>> = {
  'room-overfilled': ['filled'],
  'room-partly-filled': ['filled'],
  'variety-unsuited-to-regime': ['filled'],
  'chilling-risk': ['filled'],
  'intake-too-fast': ['filled'],
  'cooling-overloaded': ['filled'],
  'freezing-risk': ['filled'],
  'seal-waits-after-last-bin': ['filled'],
  'sealed-late': ['filled'],
  'room-too-leaky': ['filled'],
  'sealed-without-scrubber': ['filled'],
  'oxygen-below-limit': ['filled'],
  'oxygen-below-breakpoint': ['filled'],
  'room-too-dry': ['filled'],
  'nitrogen-cannot-reach': ['filled'],
  'places-disagree': ['capacities'],
  'stack-too-high': ['capacities'],
  'room-not-ready': ['fills'],
  'growers-share-a-room': ['fills'],
  'window-empty': ['keeping'],
  'weak-lot-shortens-room': ['keeping'],
  'over-mature-lot-sealed': ['keeping'],
  'claim-before-law-allows': ['filled', 'keeping'],
  'carbon-dioxide-early': ['keeping'],
  'opened-outside-window': ['keeping'],
};

/** The maps whose entries a rule looks at one by one; none for one that looks at the whole. */
export function mapsOf({ code, inEntry }: Pick<Rule, 'code' | 'inEntry'>): readonly EntryMap[] {
  return inEntry ? entryMapsOf(inEntry) : (EACH[code] ?? []);
}

function entryMapsOf(inEntry: InEntry): EntryMap[] {
  return Object.keys(inEntry) as EntryMap[];
}

/** The season's map of that name. */
export function mapIn(season: ComputedSeason, map: EntryMap): ReadonlyMap<string, unknown> {
  if (map === 'capacities' || map === 'filled' || map === 'keeping') return season[map];
  return season.plan[map];
}

/** A rule that says of each entry by itself what is wrong with it. */
export function ofEntries(inEntry: InEntry): Pick<Rule, 'find' | 'inEntry'> {
  return { inEntry, find: (season) => foundInAll(season, inEntry) };
}

function* foundInAll(season: ComputedSeason, inEntry: InEntry) {
  for (const map of entryMapsOf(inEntry)) {
    const find = findIn(inEntry, map);
    if (!find) continue;
    for (const entry of mapIn(season, map).values()) {
      const found = find(season, entry);
      if (found) yield* found;
    }
  }
}

/** What looks at an entry of that map. */
export function findIn(inEntry: InEntry | undefined, map: EntryMap): FindIn<unknown> | undefined {
  return inEntry?.[map] as FindIn<unknown> | undefined;
}
