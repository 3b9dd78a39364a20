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
