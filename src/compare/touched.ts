import type { ComputedSeason } from '../findings/types';
import { isMapKind, thingKey } from './things';
import type { Edit, PlanChange, Thing } from './types';

/** What an edit touches first, as tags of measures; and whether all of the season may follow from it. */
export interface Touched {
  readonly tags: ReadonlySet<string>;
  readonly everything: boolean;
}

/** A plan with its rooms filled. */
export type PlacedPlan = Pick<ComputedSeason, 'plan' | 'filled'>;

/** Fills, varieties and equipment that the entries of an edit belong to, in either plan. */
export function touchedBy({ entries, changes }: Edit, seasons: readonly PlacedPlan[]): Touched {
  const tags = new Set<string>();
  let everything = false;
  for (const thing of entries) {
    tags.add(thingKey(thing));
    for (const season of seasons) for (const tag of tagsIn(season, thing)) tags.add(tag);
  }
  for (const change of changes) {
    if (isMapKind(change.things[0].kind)) continue;
    const own = tagsOfKey(change, seasons);
    if (!own) everything = true;
    for (const tag of own ?? []) tags.add(tag);
  }
  return { tags, everything };
}

/** Keys of a season and its policy that nothing is computed from but what is said. */
const SAID = /^(name|currency|units|compare|findings|growers|uncertainty|price-of-change)\b/;

/** What a key of a section that stands once touches; undefined where all of the season may follow from it. */
function tagsOfKey({ key = '' }: PlanChange, seasons: readonly PlacedPlan[]): readonly string[] | undefined {
  if (SAID.test(key)) return [];
  const variety = /^packout\.([^.]+)/.exec(key)?.[1];
  if (variety !== undefined) return [`variety:${variety}`];
  if (key === 'most-scrubber-load')
    return seasons.flatMap(({ plan }) => [...plan.scrubbers.keys()].map((id) => `scrubbers/${id}`));
  return undefined;
}

function* tagsIn(season: PlacedPlan, { kind, id }: Thing): Iterable<string> {
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
