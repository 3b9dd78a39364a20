import { type Day, firstDayOfWeek, formatDay, parseDay, parseWeek, type Week } from '../../src/plan/dates';
import { seededRandom } from '../../src/plan/random';
import { isLogged } from './logger-records';

/**
 * An invented season of the first sample plan, as it went: what came in, when rooms were filled, sealed and opened, what
 * was sampled, packed, sold and read. Nothing here comes from the tool's own calculations: rates and shares are written
 * down, and what differs from fruit to fruit is drawn with a fixed seed.
 */
export interface LotRecord {
  readonly lot: string;
  readonly variety: 'Gala' | 'Golden Delicious' | 'Braeburn';
  readonly receipts: readonly { readonly day: Day; readonly bins: number }[];
  readonly test: {
    readonly day: Day;
    readonly starch: number;
    readonly firmness: number;
    readonly solids: number;
  };
}

export interface FillRecord {
  readonly fill: string;
  readonly room: string;
  readonly lots: readonly { readonly lot: string; readonly bins: number }[];
  readonly days: readonly (readonly [step: string, day: Day])[];
}

export interface SampleRecord {
  readonly id: string;
  readonly lot: string;
  readonly fill: string;
  readonly taken: Day;
  readonly firmness: number;
  readonly solids: number;
  readonly rot: number;
}

export interface PackedRecord {
  readonly id: string;
  readonly lot: string;
  readonly fill: string;
  readonly day: Day;
  readonly bins: number;
  readonly first: number;
  readonly second: number;
}

export interface SaleRecord {
  readonly id: string;
  readonly market: string;
  readonly variety: string;
  readonly packClass: 'first' | 'second';
  readonly week: Week;
  readonly cartons: number;
  readonly price: number;
}

export interface SeasonRecords {
  readonly lots: readonly LotRecord[];
  readonly fills: readonly FillRecord[];
  readonly samples: readonly SampleRecord[];
  readonly packed: readonly PackedRecord[];
  readonly sales: readonly SaleRecord[];
}

const day = (text: string): Day => parseDay(text) ?? Number.NaN;
const week = (text: string): Week => parseWeek(text) ?? Number.NaN;

/** Lot, variety, days on which it came in, bins of each; its test with day, starch, firmness in N and solids in %. */
const HARVEST = [
  ['G1', 'Gala', '2026-09-02', [20, 20, 14], '2026-09-01', 5.4, 72, 12.6],
  ['G2', 'Gala', '2026-09-04', [22, 0, 0, 30], '2026-09-03', 5.1, 74, 12.4],
  ['G3', 'Gala', '2026-09-07', [14, 16, 12, 6], '2026-09-06', 4.8, 75, 12.3],
  ['G4', 'Gala', '2026-09-08', [30, 28, 20], '2026-09-07', 2.8, 83, 11.8],
  ['G5', 'Gala', '2026-09-10', [24, 20, 0, 0, 37], '2026-09-09', 2.9, 82, 11.9],
  ['G6', 'Gala', '2026-09-14', [26, 30, 20], '2026-09-12', 3.0, 81, 12.0],
  ['D1', 'Golden Delicious', '2026-09-16', [26, 24, 28, 19], '2026-09-15', 2.9, 77, 12.2],
  ['D2', 'Golden Delicious', '2026-09-19', [20, 0, 22, 24, 20], '2026-09-17', 3.0, 76, 12.4],
  ['D3', 'Golden Delicious', '2026-09-22', [22, 24, 26, 21], '2026-09-21', 3.1, 76, 12.5],
  ['B1', 'Braeburn', '2026-10-05', [28, 24, 26, 20], '2026-10-03', 3.0, 86, 11.6],
  ['B2', 'Braeburn', '2026-10-08', [26, 24, 0, 0, 41], '2026-10-06', 3.1, 85, 11.8],
  ['B3', 'Braeburn', '2026-10-12', [34, 30, 28], '2026-10-10', 3.2, 84, 11.9],
] as const;

/** Room by room what happened on which day. */
const ROOMS = [
  [
    'R1-gala',
    'R1',
    ['G1', 'G2', 'G3'],
    {
      'first-bin': '2026-09-02',
      'last-bin': '2026-09-10',
      cool: '2026-09-12',
      opened: '2026-09-21',
      emptied: '2026-10-16',
    },
  ],
  [
    'R2-gala',
    'R2',
    ['G4', 'G5', 'G6'],
    {
      'first-bin': '2026-09-08',
      'last-bin': '2026-09-16',
      cool: '2026-09-18',
      sealed: '2026-09-19',
      'low-oxygen': '2026-09-20',
      'set-point': '2026-09-22',
      opened: '2027-01-04',
      emptied: '2027-01-29',
    },
  ],
  [
    'R3-golden',
    'R3',
    ['D1', 'D2', 'D3'],
    {
      'first-bin': '2026-09-16',
      'last-bin': '2026-09-25',
      cool: '2026-09-27',
      sealed: '2026-09-28',
      'low-oxygen': '2026-09-29',
      'set-point': '2026-10-01',
      opened: '2026-11-09',
      emptied: '2026-12-04',
    },
  ],
  [
    'R4-braeburn',
    'R4',
    ['B1', 'B2', 'B3'],
    {
      'first-bin': '2026-10-05',
      'last-bin': '2026-10-14',
      cool: '2026-10-16',
      sealed: '2026-10-16',
      'low-oxygen': '2026-10-17',
      'set-point': '2026-10-20',
      opened: '2027-02-22',
    },
  ],
] as const;

/** Firmness lost in a month, newtons, as it came out in these rooms. */
const SOFTENING: Readonly<Record<string, number>> = { 'R2-gala': 3.1, 'R3-golden': 4.0, 'R4-braeburn': 2.6 };
/** Room, and the weeks in which it was packed. */
const PACKING = [
  ['R1-gala', '2026-W39', 4],
  ['R3-golden', '2026-W46', 4],
  ['R2-gala', '2027-W01', 4],
  ['R4-braeburn', '2027-W08', 4],
] as const;
const SHARES = { Gala: [0.62, 0.18], 'Golden Delicious': [0.6, 0.18], Braeburn: [0.61, 0.17] } as const;
const NET_FRUIT_KG = 300;
const CARTON_KG = 18;
/** Market, variety, class, first and last week, cartons a week, price. */
const MARKETS = [
  ['home', 'Gala', 'first', '2026-W39', '2026-W39', 180, 21.5],
  ['home', 'Gala', 'first', '2026-W40', '2026-W44', 250, 21.5],
  ['schools', 'Gala', 'second', '2026-W39', '2026-W44', 70, 11],
  ['home', 'Golden Delicious', 'first', '2026-W46', '2026-W50', 360, 20],
  ['home', 'Golden Delicious', 'first', '2026-W51', '2026-W51', 520, 20],
  ['home', 'Golden Delicious', 'first', '2026-W52', '2026-W52', 380, 20],
  ['wholesale', 'Golden Delicious', 'second', '2026-W46', '2026-W52', 110, 9.5],
  ['home', 'Gala', 'first', '2027-W01', '2027-W07', 320, 24],
  ['schools', 'Gala', 'second', '2027-W01', '2027-W07', 90, 11],
  ['home', 'Braeburn', 'first', '2027-W08', '2027-W14', 390, 23],
  ['wholesale', 'Braeburn', 'second', '2027-W08', '2027-W14', 100, 10],
] as const;

/** What the rooms were held at, in % and °C. */
const HOLD = new Map([
  ['R2', { oxygen: 1.5, carbonDioxide: 1.8, air: 0.8 }],
  ['R3', { oxygen: 2.0, carbonDioxide: 2.25, air: 0.0 }],
  ['R4', { oxygen: 1.8, carbonDioxide: 0.8, air: 1.0 }],
]);

/** The first day on which a room is sealed. */
export const FIRST_READING: Day = day('2026-09-19');

/** The season to the end of March. */
export function seasonRecords(): SeasonRecords {
  const random = seededRandom(2027);
  /** About normal: the sum of four uniform numbers, made to have the deviation. */
  const noise = (deviation: number) =>
    (random() + random() + random() + random() - 2) * Math.sqrt(3) * deviation;
  const lots = HARVEST.map(
    ([lot, variety, first, bins, tested, starch, firmness, solids]): LotRecord => ({
      lot,
      variety,
      receipts: bins.flatMap((count, index) => (count > 0 ? [{ day: day(first) + index, bins: count }] : [])),
      test: { day: day(tested), starch, firmness, solids },
    }),
  );
  const fills = ROOMS.map(
    ([fill, room, names, days]): FillRecord => ({
      fill,
      room,
      lots: names.map((lot) => ({ lot, bins: binsOf(lots, lot) })),
      days: Object.entries(days).map(([step, on]) => [step, day(on)] as const),
    }),
  );
  const samples = fills.flatMap((fill) => samplesOf(fill, lots, noise));
  const packed = PACKING.flatMap(([id, from, weeks]) => {
    const fill = fills.find((one) => one.fill === id);
    return fill ? packedOf(fill, lots, week(from), weeks, noise) : [];
  });
  return { lots, fills, samples, packed, sales: salesOf(packed, lots, noise) };
}

function binsOf(lots: readonly LotRecord[], lot: string): number {
  return (lots.find((one) => one.lot === lot)?.receipts ?? []).reduce((sum, { bins }) => sum + bins, 0);
}

/** Every fourth Tuesday from six weeks after sealing on, until the room is opened. */
function samplesOf(
  { fill, lots: inRoom, days }: FillRecord,
  lots: readonly LotRecord[],
  noise: (deviation: number) => number,
): SampleRecord[] {
  const on = new Map(days);
  const [sealed, opened] = [on.get('sealed'), on.get('opened')];
  if (sealed === undefined) return [];
  const samples: SampleRecord[] = [];
  const first = Math.ceil((sealed + 42 - 5) / 7) * 7 + 5;
  for (let taken = first; taken < (opened ?? Number.POSITIVE_INFINITY); taken += 28)
    for (const { lot } of inRoom) {
      const test = lots.find((one) => one.lot === lot)?.test;
      if (!test) continue;
      const months = (taken - test.day) / 30.4;
      samples.push({
        id: `T${String(samples.length + 1).padStart(2, '0')}-${fill}`,
        lot,
        fill,
        taken,
        firmness: test.firmness - (SOFTENING[fill] ?? 3) * months + noise(0.9),
        solids: Math.min(14, test.solids + 1.1 + noise(0.2)),
        rot: Math.max(0, Math.round(months + noise(1)) * 0.5),
      });
    }
  return samples;
}

/** The same bins every week, on its Tuesdays and Thursdays; each lot in turn until it is through. */
function packedOf(
  { fill, lots: inRoom }: FillRecord,
  lots: readonly LotRecord[],
  from: Week,
  weeks: number,
  noise: (deviation: number) => number,
): PackedRecord[] {
  const left = inRoom.map(({ lot, bins }) => ({ lot, bins }));
  const total = left.reduce((sum, { bins }) => sum + bins, 0);
  const runs: PackedRecord[] = [];
  for (let index = 0; index < 2 * weeks; index++) {
    const on = firstDayOfWeek(from + Math.floor(index / 2)) + (index % 2 === 0 ? 1 : 3);
    let quota = Math.round((total * (index + 1)) / (2 * weeks)) - Math.round((total * index) / (2 * weeks));
    for (const one of left) {
      const bins = Math.min(quota, one.bins);
      if (bins === 0) continue;
      quota -= bins;
      one.bins -= bins;
      const variety = lots.find(({ lot }) => lot === one.lot)?.variety ?? 'Gala';
      const [first, second] = SHARES[variety];
      const cartons = (bins * NET_FRUIT_KG) / CARTON_KG;
      runs.push({
        id: `P${String(runs.length + 1).padStart(2, '0')}-${fill}`,
        lot: one.lot,
        fill,
        day: on,
        bins,
        first: Math.round(cartons * (first - 0.02 + noise(0.012))),
        second: Math.round(cartons * (second + 0.005 + noise(0.008))),
      });
    }
  }
  return runs;
}

/** What was wanted, a little more or less, as far as it was packed by then. */
function salesOf(
  packed: readonly PackedRecord[],
  lots: readonly LotRecord[],
  noise: (deviation: number) => number,
): SaleRecord[] {
  const sales: SaleRecord[] = [];
  for (const [market, variety, packClass, first, last, wanted, price] of MARKETS) {
    for (let at = week(first); at <= week(last); at++) {
      const there = packed
        .filter((run) => run.day < firstDayOfWeek(at + 1))
        .filter((run) => lots.find(({ lot }) => lot === run.lot)?.variety === variety)
        .reduce((sum, run) => sum + run[packClass], 0);
      const gone = sales
        .filter((sale) => sale.variety === variety && sale.packClass === packClass)
        .reduce((sum, { cartons }) => sum + cartons, 0);
      const cartons = Math.min(there - gone, Math.round(wanted * (0.99 + noise(0.02))));
      if (cartons <= 0) continue;
      sales.push({
        id: `V${String(sales.length + 1).padStart(3, '0')}`,
        market,
        variety,
        packClass,
        week: at,
        cartons,
        price: Math.round((price + noise(0.2)) * 10) / 10,
      });
    }
  }
  return sales;
}

/**
 * Oxygen, carbon dioxide and temperature of the sealed rooms, four times a day, to the day before each is opened; none
 * while the logger had the room.
 */
export function readingRows(until: Day): string[] {
  const random = seededRandom(4711);
  const noise = (deviation: number) =>
    (random() + random() + random() + random() - 2) * Math.sqrt(3) * deviation;
  const rows: { readonly day: Day; readonly room: string; readonly cells: string }[] = [];
  for (const [, room, , days] of ROOMS) {
    const hold = HOLD.get(room);
    if (!hold || !('sealed' in days)) continue;
    const [sealed, opened] = [day(days.sealed), day(days.opened)];
    for (let on = sealed; on < opened; on++)
      for (const hour of [0, 6, 12, 18]) {
        const since = on - sealed + hour / 24;
        const oxygen = hold.oxygen + (20.9 - hold.oxygen) * Math.exp(-since / 0.45) + noise(0.05);
        const carbonDioxide = hold.carbonDioxide * (1 - Math.exp(-since / 3)) + noise(0.06);
        const air = hold.air + noise(0.12);
        const time = `${formatDay(on)} ${String(hour).padStart(2, '0')}:00`;
        const cells = [oxygen, Math.max(0, carbonDioxide)].map((value) => value.toFixed(2));
        rows.push({ day: on, room, cells: [time, room, ...cells, air.toFixed(1)].join(',') });
      }
  }
  return rows
    .filter((row) => row.day <= until && !isLogged(row.room, row.day))
    .sort((a, b) => (a.cells < b.cells ? -1 : 1))
    .map(({ cells }) => cells);
}
