import { fruitData } from '../../src/fruit/data';
import { type Day, parseDay } from '../../src/plan/dates';
import { type Figure, planFigure, type Unit } from '../../src/plan/figure';
import type {
  BinType,
  Entry,
  Fill,
  Lot,
  NitrogenSource,
  Plan,
  Policy,
  RefrigerationGroup,
  Room,
  Scrubber,
} from '../../src/plan/model';
import { type Dimension, parseQuantity, unitOf } from '../../src/plan/quantity';
import type { Given, Span } from '../../src/plan/span';
import { roomCapacity } from '../../src/room/capacity';
import { filledRoom } from '../../src/room/filled-room';
import type { FilledRoom } from '../../src/room/types';

/** A small invented orchard, built by hand, for tests of rooms and plant. */

const AT: Span = { file: 'orchard.lotplan.yaml', start: 0, end: 1 };

function entry(id: string): Entry {
  return { id, at: AT, places: { span: AT } };
}

export function given<T>(value: T): Given<T> {
  return { value, at: AT };
}

/** A quantity as a planner writes it, in either system of units. */
export function written<U extends Unit>(text: string, dimension: Dimension): Figure<U> {
  const quantity = parseQuantity(text, dimension);
  if (!quantity) throw new Error(`${text} is not a ${dimension}`);
  const unit = ({ '°C': 'degC', min: 'min' } as Record<string, string>)[unitOf(dimension)];
  return planFigure(dimension, (unit ?? unitOf(dimension)) as U, quantity.value, AT, text);
}

export function figure<U extends Unit>(unit: U, value: number, name = 'given'): Figure<U> {
  return planFigure(name, unit, value, AT, String(value));
}

export function day(text: string): Day {
  const parsed = parseDay(text);
  if (parsed === undefined) throw new Error(`${text} is not a day`);
  return parsed;
}

export function aBinType(over: Partial<BinType> = {}): BinType {
  return {
    ...entry('plastic-1200'),
    length: figure('m', 1.2),
    width: figure('m', 1.0),
    height: figure('m', 0.78),
    netFruit: figure('kg', 300),
    tare: figure('kg', 38),
    material: 'plastic',
    ...over,
  };
}

export function aRoom(over: Partial<Room> = {}): Room {
  return {
    ...entry(over.id ?? 'R1'),
    length: figure('m', 18.6),
    width: figure('m', 9.0),
    height: figure('m', 7.6),
    binType: given('plastic-1200'),
    statedPlaces: undefined,
    stack: undefined,
    wallClearance: figure('m', 0.2),
    ceilingClearance: figure('m', 0.8),
    binGap: figure('m', 0.05),
    lostPlaces: figure('places', 0),
    coolerCapacity: figure('kW', 90),
    refrigerationGroup: given('main'),
    heatTransfer: figure('W/m2K', 0.2),
    tightness: { at: AT, from: figure('Pa', 250), to: figure('Pa', 125), after: figure('min', 22) },
    scrubber: given('S1'),
    nitrogen: given('N1'),
    law: 'none',
    ready: undefined,
    ...over,
  };
}

export function aScrubber(over: Partial<Scrubber> = {}): Scrubber {
  return {
    ...entry('S1'),
    kind: 'carbon',
    removal: figure('kg/day', 260),
    atLevel: figure('%', 3),
    beds: undefined,
    hoursADay: figure('h', 24),
    ...over,
  };
}

export function aNitrogenSource(
  points: readonly (readonly [purity: number, flow: number])[] = [
    [97, 150],
    [99, 80],
    [99.5, 55],
  ],
): NitrogenSource {
  return {
    ...entry('N1'),
    kind: 'membrane',
    flows: points.map(([purity, flow]) => ({ purity: figure('%', purity), flow: figure('m3/h', flow) })),
  };
}

export function aLot(id: string, variety: string, fieldTemperature = 20): Lot {
  return {
    ...entry(id),
    variety: given(variety),
    block: undefined,
    grower: undefined,
    picked: given({ first: day('2026-09-03'), last: day('2026-09-05') }),
    expectedBins: figure('bins', 300),
    receivedBins: undefined,
    fieldTemperature: figure('degC', fieldTemperature),
    maturity: undefined,
    treatments: [],
  };
}

export interface FillSpec {
  readonly id?: string;
  readonly room?: string;
  readonly regime?: string;
  readonly first?: string;
  readonly last?: string;
  readonly sealed?: string | undefined;
  readonly lots?: Readonly<Record<string, number>>;
  readonly open?: number;
}

export function aFill(spec: FillSpec = {}): Fill {
  const sealed = 'sealed' in spec ? spec.sealed : '2026-09-10';
  return {
    ...entry(spec.id ?? 'F1'),
    room: given(spec.room ?? 'R1'),
    regime: given(spec.regime ?? 'plain'),
    firstBin: given(day(spec.first ?? '2026-09-03')),
    lastBin: given(day(spec.last ?? '2026-09-08')),
    sealed: sealed === undefined ? undefined : given(day(sealed)),
    lots: Object.entries(spec.lots ?? { L1: 300, L2: 250 }).map(([id, bins]) => ({
      lot: given(id),
      bins: figure('bins', bins),
    })),
    open: spec.open === undefined ? undefined : given(spec.open),
  };
}

export interface RegimeSpec {
  readonly temperature?: number;
  readonly oxygen?: number | undefined;
  readonly carbonDioxide?: number | undefined;
  readonly humidity?: number;
  readonly conditioning?: { readonly temperature: number; readonly days: number };
}

function aRegime(id: string, spec: RegimeSpec) {
  const oxygen = 'oxygen' in spec ? spec.oxygen : 1.8;
  const carbonDioxide = 'carbonDioxide' in spec ? spec.carbonDioxide : 1.5;
  return {
    ...entry(id),
    like: undefined,
    varieties: undefined,
    temperature: figure('degC', spec.temperature ?? 1),
    oxygen: oxygen === undefined ? undefined : figure('%', oxygen),
    carbonDioxide: carbonDioxide === undefined ? undefined : figure('%', carbonDioxide),
    humidity: figure('%', spec.humidity ?? 93),
    storageLife: figure('days', 200),
    conditioning: spec.conditioning && {
      temperature: figure('degC', spec.conditioning.temperature),
      lasts: figure('days', spec.conditioning.days),
    },
    source: 'invented',
  };
}

export interface PlanSpec {
  readonly rooms?: readonly Room[];
  readonly binType?: BinType;
  readonly scrubbers?: readonly Scrubber[];
  readonly nitrogen?: readonly NitrogenSource[];
  readonly refrigeration?: readonly RefrigerationGroup[];
  readonly regimes?: Readonly<Record<string, RegimeSpec>>;
  readonly lots?: readonly Lot[];
  readonly fills?: readonly Fill[];
  readonly outside?: number;
  /** Evenly where left out. */
  readonly arrivals?: Policy['arrivals'];
}

const byId = <T extends Entry>(entries: readonly T[]) => new Map(entries.map((one) => [one.id, one]));

export function aPlan(spec: PlanSpec = {}): Plan {
  const regimes = spec.regimes ?? { plain: {} };
  return {
    files: new Map(),
    season: {
      at: AT,
      places: { span: AT },
      name: given('Test season'),
      starts: given(day('2026-08-24')),
      ends: given(day('2027-07-25')),
      units: 'metric',
      cartonMass: figure('kg', 18),
      currency: 'EUR',
      outsideTemperature: figure('degC', spec.outside ?? 20),
    },
    binTypes: byId([spec.binType ?? aBinType()]),
    rooms: byId(spec.rooms ?? [aRoom()]),
    scrubbers: byId(spec.scrubbers ?? [aScrubber()]),
    nitrogenSources: byId(spec.nitrogen ?? [aNitrogenSource()]),
    refrigerationGroups: byId(
      spec.refrigeration ?? [{ ...entry('main'), capacity: figure('kW', 400), refrigerant: undefined }],
    ),
    varieties: new Map(),
    regimes: byId(Object.entries(regimes).map(([id, one]) => aRegime(id, one))),
    lots: byId(spec.lots ?? [aLot('L1', 'Gala'), aLot('L2', 'Fuji')]),
    fills: byId(spec.fills ?? [aFill()]),
    demand: new Map(),
    expectations: new Map(),
    scenarios: new Map(),
    tables: new Map(),
    readings: new Map(),
    progress: new Map(),
    samples: new Map(),
    packed: new Map(),
    sales: new Map(),
    packing: undefined,
    policy: {
      at: undefined,
      places: undefined,
      confidence: figure('%', 90),
      roomsOpenAtOnce: undefined,
      intakeADay: figure('%', 10),
      mostScrubberLoad: figure('%', 100),
      arrivals: spec.arrivals ?? 'evenly',
      findings: new Map(),
    },
    references: [],
    allowances: [],
    problems: [],
  };
}

/** Every fill of a plan, computed; by fill identifier. */
export function filledRooms(plan: Plan): Map<string, FilledRoom> {
  const fruit = fruitData(plan);
  return new Map(
    [...plan.fills].map(([id, fill]) => {
      const room = plan.rooms.get(fill.room?.value ?? '');
      if (!room) throw new Error(`no room for ${id}`);
      const binType = plan.binTypes.get(room.binType?.value ?? '');
      return [id, filledRoom(plan, fruit, fill, roomCapacity(room, binType))];
    }),
  );
}

/** The one fill of a one-room plan. */
export function onlyRoom(plan: Plan): FilledRoom {
  const [room] = filledRooms(plan).values();
  if (!room) throw new Error('the plan has no fill');
  return room;
}

/** The value of a figure that must be there. */
export function known(wanted: Figure | undefined): number {
  if (!wanted) throw new Error('the figure is absent');
  return wanted.value;
}
