import { fruitData } from '../../src/fruit/data';
import { type Day, parseDay } from '../../src/plan/dates';
import { type Figure, referenceFigure } from '../../src/plan/figure';
import type {
  Fill,
  Lot,
  Maturity,
  Packing,
  Plan,
  Policy,
  Room,
  Season,
  VarietyOverride,
} from '../../src/plan/model';
import { usualAssumptions } from '../../src/room/assumptions';
import type { FilledRoom, LotInRoom } from '../../src/room/types';
import { given, ownVariety, planWith, present, somewhere, written } from '../fruit/plans';

export function day(text: string): Day {
  return present(parseDay(text), text);
}

const places = { span: somewhere };
const usual = { citation: 'usual for tests', known: 'common practice' } as const;

function degrees(value: number): Figure<'degC'> {
  return written(value, 'degC');
}

export interface LotValues {
  readonly id?: string;
  readonly variety?: string;
  readonly picked?: string;
  readonly firmnessLbf?: number;
  readonly starch?: number;
  readonly starchScale?: Maturity['starchScale'];
  readonly ethylene?: number;
  readonly field?: number;
  readonly treatments?: readonly ('1-mcp' | 'antioxidant')[];
}

export function maturity(values: LotValues): Maturity | undefined {
  const { firmnessLbf, starch, ethylene, starchScale } = values;
  if (firmnessLbf === undefined && starch === undefined && ethylene === undefined) return undefined;
  return {
    at: somewhere,
    tested: undefined,
    starch: starch === undefined ? undefined : written(starch, '1'),
    starchScale: starchScale ?? 'one-to-eight',
    firmness: firmnessLbf === undefined ? undefined : written(firmnessLbf * 4.4482216152605, 'N'),
    solubleSolids: undefined,
    ethylene: ethylene === undefined ? undefined : written(ethylene, 'ppm'),
  };
}

export function lotOf(values: LotValues): Lot {
  const picked = day(values.picked ?? '2026-09-01');
  return {
    id: values.id ?? 'L1',
    at: somewhere,
    places,
    variety: given(values.variety ?? 'Gala'),
    block: undefined,
    grower: undefined,
    picked: given({ first: picked, last: picked }),
    expectedBins: written(100, 'bins'),
    receivedBins: undefined,
    fieldTemperature: degrees(values.field ?? 20),
    maturity: maturity(values),
    treatments: (values.treatments ?? []).map(given),
  };
}

export interface RoomValues {
  readonly lots?: readonly LotValues[];
  readonly regime?: string;
  readonly firstBin?: string;
  readonly lastBin?: string;
  /** Null for a room kept in air. */
  readonly sealed?: string | null;
  readonly law?: Room['law'];
  readonly confidence?: number;
  readonly daysToEmpty?: number;
  readonly seasonEnds?: string;
  readonly varieties?: readonly VarietyOverride[];
}

/** A room of Gala sealed a week after picking, unless said otherwise. */
export function roomOf(values: RoomValues): { plan: Plan; filled: FilledRoom } {
  const fruit = fruitData(planWith(values.varieties ?? []));
  const room = { id: 'R1', at: somewhere, places, law: values.law ?? 'none' } as Room;
  const lots = (values.lots ?? [{}]).map(lotOf);
  const sealed = values.sealed === undefined ? '2026-09-08' : values.sealed;
  const fill: Fill = {
    id: 'F1',
    at: somewhere,
    places,
    room: given('R1'),
    regime: given(values.regime ?? 'gala-standard'),
    firstBin: given(day(values.firstBin ?? '2026-09-01')),
    lastBin: given(day(values.lastBin ?? '2026-09-05')),
    sealed: sealed === null ? undefined : given(day(sealed)),
    lots: lots.map(({ id }) => ({ lot: given(id), bins: written(100, 'bins') })),
    open: undefined,
  };
  const inRoom = lots.map((lot): LotInRoom => {
    const variety = present(fruit.variety(lot.variety?.value ?? ''), 'variety');
    return { lot, variety, bins: written(100, 'bins'), fruit: written(30_000, 'kg') };
  });
  const filled: FilledRoom = {
    fill,
    room,
    capacity: { room },
    assumptions: usualAssumptions,
    regime: fruit.regime(fill.regime?.value ?? ''),
    lots: inRoom,
    varieties: [],
    flush: [],
    arrivals: [],
    intake: [],
  };
  return { plan: planOf(values), filled };
}

function planOf(values: RoomValues): Plan {
  const season = {
    starts: given(day('2026-08-24')),
    ends: given(day(values.seasonEnds ?? '2027-12-31')),
  } as Season;
  const packing = {
    daysToEmpty: written(values.daysToEmpty ?? 14, 'days'),
    packout: new Map(),
  } as unknown as Packing;
  const policy = {
    confidence: referenceFigure('confidence', '%', values.confidence ?? 90, usual),
    findings: new Map(),
  } as unknown as Policy;
  return { season, packing, policy, demand: new Map() } as unknown as Plan;
}

/** A variety whose life in store the planner set. */
export function galaKeeping(days: number): VarietyOverride {
  return ownVariety('Gala', { storageLife: written(days, 'days') });
}
