import type { ComputedSeason } from '../findings/types';
import { thingKey } from './things';
import type { Edit, Thing } from './types';

/** What an edit touches first, as tags of measures; and whether all of the season may follow from it. */
export interface Touched {
  readonly tags: ReadonlySet<string>;
  readonly everything: boolean;
}

/** Fills, varieties and equipment that the entries of an edit belong to, in either plan. */
export function touchedBy({ entries }: Edit, seasons: readonly ComputedSeason[]): Touched {
  const tags = new Set<string>();
  let everything = false;
  for (const thing of entries) {
    tags.add(thingKey(thing));
    if (thing.kind === 'season' || thing.kind === 'packing' || thing.kind === 'policy') everything = true;
    for (const season of seasons) for (const tag of tagsIn(season, thing)) tags.add(tag);
  }
  return { tags, everything };
}

function* tagsIn(season: ComputedSeason, { kind, id }: Thing): Iterable<string> {
  if (kind === 'lots') yield `lot:${id}`;
  if (kind === 'rooms') yield `room:${id}`;
  const demand = kind === 'demand' ? season.plan.demand.get(id)?.variety?.value : undefined;
  if (demand !== undefined) yield `variety:${demand}`;
  if (kind === 'varieties') yield `variety:${id}`;
  for (const filled of season.filled.values()) {
    const { fill, room, lots } = filled;
    const isTouched = {
      fills: fill.id === id,
      rooms: room.id === id,
      lots: lots.some(({ lot }) => lot.id === id),
      regimes: fill.regime?.value === id,
      varieties: lots.some(({ lot, variety }) => lot.variety?.value === id || variety.name === id),
      bins: room.binType?.value === id,
    };
    if (!isTouched[kind as keyof typeof isTouched]) continue;
    yield `fill:${fill.id}`;
    for (const { lot } of lots) yield `variety:${lot.variety?.value ?? ''}`;
    if (room.scrubber) yield `scrubbers/${room.scrubber.value}`;
    if (room.nitrogen) yield `nitrogen/${room.nitrogen.value}`;
    if (room.refrigerationGroup) yield `refrigeration/${room.refrigerationGroup.value}`;
  }
}

/** More edits than so many are tried in bundles. */
const MOST_ALONE = 6;
/** Bundles, where there are more edits. */
const MOST_BUNDLES = 6;

/**
 * Edits that are tried together on the old plan. A few are each tried alone. Many are bundled so that those of one
 * bundle touch other fills and other varieties: what follows for a variety is then that one edit's. Edits that find
 * no such bundle share the one in which they meet fewest others.
 */
export function bundlesOf(touched: readonly Touched[]): number[][] {
  if (touched.length <= MOST_ALONE) return touched.map((_, edit) => [edit]);
  const bundles: number[][] = [];
  const order = touched
    .map((_, edit) => edit)
    .sort((a, b) => weight(touched[b]) - weight(touched[a]) || a - b);
  for (const edit of order) {
    const meets = (bundle: readonly number[]) =>
      bundle.filter((other) => meet(touched[edit], touched[other])).length;
    const free = bundles.find((bundle) => meets(bundle) === 0);
    if (free) free.push(edit);
    else if (bundles.length < MOST_BUNDLES) bundles.push([edit]);
    else {
      const least = bundles.reduce((best, bundle) => (meets(bundle) < meets(best) ? bundle : best));
      least.push(edit);
    }
  }
  return bundles.map((bundle) => bundle.sort((a, b) => a - b));
}

function weight(touched: Touched | undefined): number {
  return touched ? touched.tags.size + (touched.everything ? 1000 : 0) : 0;
}

/** Edits meet in a fill or a variety; shared equipment alone does not keep them apart. */
function meet(a: Touched | undefined, b: Touched | undefined): boolean {
  if (!a || !b) return false;
  if (a.everything || b.everything) return true;
  return [...a.tags].some(
    (tag) => (tag.startsWith('fill:') || tag.startsWith('variety:')) && b.tags.has(tag),
  );
}
