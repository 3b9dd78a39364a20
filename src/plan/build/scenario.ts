import {
  type EntrySection,
  type ItemKind,
  isEntrySection,
  isPlantSection,
  isSingleSection,
} from '../check/item-kinds';
import type { Figure } from '../figure';
import type { Overlay, Scenario, TakenOut } from '../scenario-model';
import type { PlaceNode } from '../span';
import type { MapReader } from './map-reader';

type Body<T> = Omit<T, 'id' | 'at' | 'places'>;

const TAKEN_OUT: readonly TakenOut['section'][] = [
  'rooms',
  'scrubbers',
  'nitrogen',
  'refrigeration',
  'lots',
  'fills',
  'demand',
  'pins',
];

export function readScenario(map: MapReader, places: PlaceNode): Body<Scenario> {
  const takeOut = map.map('take-out');
  return {
    says: map.text('says'),
    crop: map.quantity('crop', 'crop, of what the plan has', 'share'),
    cropOf: readShares(map.map('crop-of'), 'crop'),
    demand: map.quantity('demand', 'demand, of what the plan has', 'share'),
    demandOf: readShares(map.map('demand-of'), 'demand'),
    demandLater: map.quantity('demand-later', 'time by which orders come later', 'long time'),
    demandEarlier: map.quantity('demand-earlier', 'time by which orders come earlier', 'long time'),
    overlays: (['change', 'add'] as const).flatMap((how) =>
      overlaysIn(places, how).map((overlay) => ({ ...overlay, says: saidBy(map.map(how), overlay) })),
    ),
    takenOut: TAKEN_OUT.flatMap((section) =>
      (takeOut?.texts(section) ?? []).map((id): TakenOut => ({ section, id })),
    ),
  };
}

function readShares(map: MapReader | undefined, what: string): Map<string, Figure<'%'>> {
  const found = new Map<string, Figure<'%'>>();
  for (const { value } of map?.keys() ?? []) {
    const share = map?.quantity(value, `${what} of ${value}, of what the plan has`, 'share');
    if (share) found.set(value, share);
  }
  return found;
}

type Placed = Omit<Overlay, 'says'>;

/** What the entry says, the same for whatever order its keys stand in. */
function saidBy(map: MapReader | undefined, { kind, id }: Placed): string {
  const section = isPlantSection(kind) ? map?.map('plant')?.map(kind) : map?.map(kind);
  return (isSingleSection(kind) ? section : section?.map(id))?.content() ?? '';
}

function overlaysIn(places: PlaceNode, how: Overlay['how']): Placed[] {
  const sections = places.entries?.get(how)?.entries ?? new Map<string, PlaceNode>();
  return [...sections].flatMap(([name, section]) => {
    if (isSingleSection(name)) return overlayAt(how, name, name, section);
    if (isEntrySection(name)) return entriesIn(how, name, section);
    if (name !== 'plant') return [];
    return [...(section.entries ?? [])].flatMap(([kind, machines]) =>
      isPlantSection(kind) ? entriesIn(how, kind, machines) : [],
    );
  });
}

function entriesIn(how: Overlay['how'], kind: EntrySection, section: PlaceNode): Placed[] {
  // A scenario has no promises and no scenarios of its own.
  if (kind === 'expect' || kind === 'scenarios') return [];
  return [...(section.entries ?? [])].flatMap(([id, place]) => overlayAt(how, kind, id, place));
}

function overlayAt(
  how: Overlay['how'],
  kind: ItemKind,
  id: string,
  { key, span, entries }: PlaceNode,
): Placed[] {
  if (!key || !entries) return [];
  return [{ how, kind, id, at: key, value: span }];
}
