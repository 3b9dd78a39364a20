import type { ItemKind } from '../check/item-kinds';
import type { Entry } from '../entry';
import type {
  BinType,
  Demand,
  Expectation,
  Fill,
  Lot,
  NitrogenSource,
  Packing,
  Policy,
  RefrigerationGroup,
  RegimeOverride,
  Room,
  Scenario,
  Scrubber,
  Season,
  VarietyOverride,
} from '../model';
import type { PackedRun, Progress, Sale, Sample } from '../record-model';
import type { PlaceNode } from '../span';
import type { ReadingsLayout, TableLayout } from '../table-model';
import type { CheckedItem } from '../text/chunk';
import { readExpectation } from './expect';
import { readFill, readLot, readRegime, readVariety } from './fruit';
import { MapReader } from './map-reader';
import { readDemand, readPacking, readPolicy, readSeason } from './market';
import { type ChunkPlace, placesOfItem, spanAt } from './places';
import { readPackedRun, readProgress, readSale, readSample } from './records';
import { readBinType, readNitrogenSource, readRefrigerationGroup, readRoom, readScrubber } from './rooms';
import { readScenario } from './scenario';
import { readReadingsLayout, readTableLayout } from './tables';

/** What an item of each kind is in the plan. */
export interface ItemTypes {
  bins: BinType;
  rooms: Room;
  scrubbers: Scrubber;
  nitrogen: NitrogenSource;
  refrigeration: RefrigerationGroup;
  varieties: VarietyOverride;
  regimes: RegimeOverride;
  lots: Lot;
  fills: Fill;
  demand: Demand;
  expect: Expectation;
  scenarios: Scenario;
  tables: TableLayout;
  readings: ReadingsLayout;
  progress: Progress;
  samples: Sample;
  packed: PackedRun;
  sales: Sale;
  season: Season;
  packing: Packing;
  policy: Policy;
}

type Body<T> = Omit<T, 'id' | 'at' | 'places'>;
type Readers = { readonly [K in ItemKind]: (map: MapReader, head: Entry) => Entry & Body<ItemTypes[K]> };

/**
 * What a reader makes of a map, behind the item's head. Readers of what a plan has many of write the head themselves: an
 * object that is put together from two takes much more room while it is made.
 */
function headed<T>(read: (map: MapReader, places: PlaceNode) => T) {
  return (map: MapReader, head: Entry): Entry & T => ({ ...head, ...read(map, head.places) });
}

const READERS: Readers = {
  bins: headed(readBinType),
  rooms: readRoom,
  scrubbers: headed(readScrubber),
  nitrogen: headed(readNitrogenSource),
  refrigeration: headed(readRefrigerationGroup),
  varieties: headed(readVariety),
  regimes: headed(readRegime),
  lots: readLot,
  fills: readFill,
  demand: readDemand,
  expect: headed(readExpectation),
  scenarios: headed(readScenario),
  tables: headed(readTableLayout),
  readings: headed(readReadingsLayout),
  progress: readProgress,
  samples: readSample,
  packed: readPackedRun,
  sales: readSale,
  season: headed(readSeason),
  packing: headed(readPacking),
  policy: headed(readPolicy),
};

/** An item at its place in the plan. */
export interface BuiltItem<K extends ItemKind = ItemKind> {
  readonly kind: K;
  readonly value: ItemTypes[K] & { readonly id: string };
}

/** Makes an item's typed values; what was found wrong in it is undefined. */
export function buildItem(item: CheckedItem, place: ChunkPlace): BuiltItem {
  const { kind, key, value, bad, references } = item;
  const at = spanAt(place, key);
  const places = placesOfItem(place, item, at);
  const built = READERS[kind](new MapReader(place, value, bad, references), { id: key.name, at, places });
  return { kind, value: built as BuiltItem['value'] };
}
