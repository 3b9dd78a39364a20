import type { ItemKind } from '../check/item-kinds';
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
type Readers = { readonly [K in ItemKind]: (map: MapReader, places: PlaceNode) => Body<ItemTypes[K]> };

const READERS: Readers = {
  bins: readBinType,
  rooms: readRoom,
  scrubbers: readScrubber,
  nitrogen: readNitrogenSource,
  refrigeration: readRefrigerationGroup,
  varieties: readVariety,
  regimes: readRegime,
  lots: readLot,
  fills: readFill,
  demand: readDemand,
  expect: readExpectation,
  scenarios: readScenario,
  tables: readTableLayout,
  readings: readReadingsLayout,
  progress: readProgress,
  samples: readSample,
  packed: readPackedRun,
  sales: readSale,
  season: readSeason,
  packing: readPacking,
  policy: readPolicy,
};

/** An item at its place in the plan. */
export interface BuiltItem<K extends ItemKind = ItemKind> {
  readonly kind: K;
  readonly value: ItemTypes[K] & { readonly id: string };
}

/** Makes an item's typed values; what was found wrong in it is undefined. */
export function buildItem(item: CheckedItem, place: ChunkPlace): BuiltItem {
  const places = placesOfItem(place, item);
  const body = READERS[item.kind](new MapReader(place, item.value, item.bad, { span: places.span }), places);
  const value = { id: item.key.name, at: places.key ?? spanAt(place, item.key), places, ...body };
  return { kind: item.kind, value: value as BuiltItem['value'] };
}
