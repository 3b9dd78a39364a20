import { type Week, weekOfDay } from '../plan/dates';
import { figureWith } from '../plan/figure';
import type { Plan } from '../plan/model';
import type { FilledRoom } from '../room/types';
import type { FieldSource } from './field-sources';
import type { PackingWeeks } from './packing-weeks';
import type { ProblemDemand, ProblemRoom, ReleaseProblem } from './types';

/**
 * Where the season stands, for a schedule of what is still to come. Weeks are indexes from the season's first.
 *
 * - No room opens before the stand's week any more, but those that have opened in fact.
 * - Where packing is recorded, what was packed before is done: rooms hold what is left in them, the packhouse packs
 *   nothing in weeks that are past, and what these wanted is no longer asked for. Packed cartons that were not sold wait in
 *   the cold store and go first to what is wanted in the weeks that they may wait.
 * - Where openings are recorded but no packing, what has been packed is not known: opened rooms are packed as the model
 *   would have, from the week in which they were opened.
 */
export interface SeasonStand {
  readonly week: number;
  /** Whether packing is recorded. */
  readonly isPacked: boolean;
  /** Week of opening of each fill that is open or was, by fill. */
  readonly opened: ReadonlyMap<string, number>;
  /** Bins packed of a lot from a fill, by both. */
  readonly packedOfLot: ReadonlyMap<string, number>;
  /** Bins packed of each fill; of a lot from the field under `lot:` and its identifier. */
  readonly packed: ReadonlyMap<string, number>;
  readonly packedByWeek: ReadonlyMap<number, number>;
  /** Packed and not sold, by variety and class. */
  readonly stock: ReadonlyMap<string, number>;
  /** Sold by week, and by market, variety and class. */
  readonly sold: ReadonlyMap<number, ReadonlyMap<string, number>>;
}

/** Undefined where the plan records neither progress nor packing: then all of it is still to come. */
export function seasonStandOf(plan: Plan, firstWeek: Week): SeasonStand | undefined {
  const { stand } = plan;
  if (stand === undefined || (plan.progress.size === 0 && plan.packed.size === 0)) return undefined;
  // A week is past once its last day is: what is known goes to the end of that day.
  const now = weekOfDay(stand + 1);
  const opened = new Map<string, number>();
  const packed = new Map<string, number>();
  const packedOfLot = new Map<string, number>();
  const packedByWeek = new Map<number, number>();
  for (const { fill, lot, day, bins } of plan.packed.values()) {
    if (!day || !bins) continue;
    add(packed, fill ? fill.value : fieldKey(lot?.value ?? ''), bins.value);
    if (fill) add(packedOfLot, keyOf(fill.value, lot?.value), bins.value);
    const week = weekOfDay(day.value);
    packedByWeek.set(week - firstWeek, (packedByWeek.get(week - firstWeek) ?? 0) + bins.value);
  }
  for (const fill of plan.fills.values())
    if (fill.opened) opened.set(fill.id, weekOfDay(fill.opened.value) - firstWeek);
  const sold = new Map<number, Map<string, number>>();
  for (const { week, market, variety, packClass, cartons } of plan.sales.values()) {
    if (!week) continue;
    const ofWeek = sold.get(week.value - firstWeek) ?? new Map<string, number>();
    sold.set(week.value - firstWeek, ofWeek);
    add(ofWeek, keyOf(market?.value, variety?.value, packClass?.value), cartons?.value ?? 0);
  }
  return {
    week: Math.max(0, now - firstWeek),
    isPacked: plan.packed.size > 0,
    opened,
    packed,
    packedOfLot,
    packedByWeek,
    stock: stockOf(plan),
    sold,
  };
}

/** Whether nothing is left in a room to be released. */
export function isReleased(
  plan: Plan,
  standing: SeasonStand | undefined,
  fill: string,
  bins: number,
): boolean {
  if (!standing) return false;
  return plan.fills.get(fill)?.emptied !== undefined || (standing.packed.get(fill) ?? 0) >= bins;
}

/** What a room holds, without what was packed of each of its lots. */
export function leftIn(filled: FilledRoom, standing: SeasonStand | undefined): FilledRoom {
  const packed = standing?.isPacked ? (standing.packed.get(filled.fill.id) ?? 0) : 0;
  if (!standing || packed === 0 || !filled.bins) return filled;
  const lots = filled.lots.map((one) => {
    const done = standing.packedOfLot.get(keyOf(filled.fill.id, one.lot.id)) ?? 0;
    const share = one.bins.value > 0 ? Math.max(0, 1 - done / one.bins.value) : 0;
    return { ...one, fruit: figureWith(one.fruit, { value: one.fruit.value * share }) };
  });
  return { ...filled, lots, bins: figureWith(filled.bins, { value: filled.bins.value - packed }) };
}

/** A room with what is left in it (`leftIn`), in the weeks that are left to it. */
export function roomFromStand(
  room: ProblemRoom,
  standing: SeasonStand,
  packing: Pick<PackingWeeks, 'packingBins' | 'lastWeekBins'>,
): ProblemRoom {
  const { fill, earliest, weeksToEmpty, bins } = room;
  const opened = standing.opened.get(fill);
  if (opened === undefined) return { ...room, earliest: Math.max(earliest, standing.week) };
  // What has been done is no change that could be spared.
  const done = { ...room, ...(room.published && { published: { ...room.published, price: 0 } }) };
  if (!standing.isPacked) return { ...done, earliest: opened, latest: opened, pinned: opened };
  const week = Math.max(opened, standing.week);
  return {
    ...done,
    earliest: week,
    latest: week,
    pinned: week,
    weeksToEmpty: Math.max(opened + weeksToEmpty - week, weeksNeeded(bins, week, packing)),
  };
}

/**
 * Opened rooms with the weeks that the packhouse needs for all of them: none can be left closed, so that those opened
 * earlier go first and the others wait for longer than `days-to-empty` where they must.
 */
export function openRoomsTogether(
  rooms: readonly ProblemRoom[],
  standing: SeasonStand,
  packing: Pick<PackingWeeks, 'packingBins' | 'lastWeekBins'>,
): readonly ProblemRoom[] {
  if (!standing.isPacked || standing.opened.size < 2) return rooms;
  const since = ({ fill }: ProblemRoom) => standing.opened.get(fill) ?? Number.POSITIVE_INFINITY;
  const open = rooms.filter(({ fill }) => standing.opened.has(fill)).sort((a, b) => since(a) - since(b));
  const weeks = new Map<string, number>();
  let bins = 0;
  for (const room of open) {
    bins += room.bins;
    weeks.set(room.fill, Math.max(room.weeksToEmpty, weeksNeeded(bins, room.earliest, packing)));
  }
  return rooms.map((room) => ({ ...room, weeksToEmpty: weeks.get(room.fill) ?? room.weeksToEmpty }));
}

/** Fruit from the field, without what was packed of it and the weeks that are past. */
export function fieldFromStand(
  sources: readonly FieldSource[],
  standing: SeasonStand | undefined,
): readonly FieldSource[] {
  if (!standing?.isPacked) return sources;
  const packed = new Map(standing.packed);
  return sources.flatMap((source) => {
    // Of a lot's weeks of picking the earlier are packed first.
    const key = fieldKey(source.lot.id);
    const done = Math.min(source.bins, packed.get(key) ?? 0);
    add(packed, key, -done);
    const past = Math.max(0, standing.week - source.first);
    const mostBins = source.mostBins.slice(past);
    const bins = source.bins - done;
    return bins <= 0 || mostBins.length === 0
      ? []
      : [{ ...source, bins, first: source.first + past, mostBins }];
  });
}

/** What the packhouse can still run: nothing in weeks that are past, and in this one what has not been run yet. */
export function packingFromStand(
  weeks: PackingWeeks,
  standing: SeasonStand | undefined,
  /** Bins that can be run on the days of the stand's week that are still to come. */
  binsLeftOfWeek: number,
): PackingWeeks {
  if (!standing?.isPacked) return weeks;
  const left = (bins: number, week: number) =>
    week < standing.week
      ? 0
      : week === standing.week
        ? Math.max(0, Math.min(binsLeftOfWeek, bins - (standing.packedByWeek.get(week) ?? 0)))
        : bins;
  const { packingBins, lastWeekBins, fullWeeks } = weeks;
  const still = packingBins.map(left);
  return {
    ...weeks,
    packingBins: still,
    fullWeeks: fullWeeks.map((share, week) => (week < standing.week ? 0 : share)),
    ...(lastWeekBins && { lastWeekBins: lastWeekBins.map((bins, week) => Math.min(bins, still[week] ?? 0)) }),
  };
}

/** What is still wanted, and of what was wanted before: what is asked for no more, and what of it was sold. */
export interface StillWanted {
  readonly demands: readonly ProblemDemand[];
  /** Cartons by demand and week. */
  readonly settled: readonly (readonly number[])[];
  /** Cartons by demand and week: sold as recorded, or filled from the cold store. */
  readonly sold: readonly (readonly number[])[];
  /** Cartons of it that the cold store fills, in weeks still to come. */
  readonly fromStock: number;
  /** Cartons by product of the cold store that fill nothing. */
  readonly leftOver: readonly number[];
}

/**
 * What is still wanted: nothing in weeks that are past, in this one what has not left yet, and of the weeks that packed
 * cartons may wait what the stock in the cold store does not fill: the earliest first, of one week the dearest.
 */
export function demandsFromStand(
  demands: readonly ProblemDemand[],
  products: ReleaseProblem['products'],
  standing: SeasonStand | undefined,
  waitWeeks: number,
): StillWanted {
  if (!standing?.isPacked) return { demands, settled: [], sold: [], fromStock: 0, leftOver: [] };
  const wanted = demands.map(({ cartons }) => [...cartons]);
  const sold = demands.map(({ cartons }) => cartons.map(() => 0));
  const dearest = demands
    .map((demand, at) => ({ demand, at, ...products[demand.product] }))
    .sort((a, b) => worth(b.demand) - worth(a.demand) || a.at - b.at);
  const fill = (week: number, left: Map<string, number>, key: (one: (typeof dearest)[number]) => string) => {
    for (const one of dearest) {
      const [row, done] = [wanted[one.at], sold[one.at]];
      const taken = Math.min(row?.[week] ?? 0, left.get(key(one)) ?? 0);
      if (!row || !done || taken <= 0) continue;
      row[week] = (row[week] ?? 0) - taken;
      done[week] = (done[week] ?? 0) + taken;
      add(left, key(one), -taken);
    }
  };
  for (const [week, cartons] of standing.sold)
    fill(week, new Map(cartons), ({ demand, variety, packClass }) =>
      keyOf(demand.market, variety, packClass),
    );
  for (const row of wanted) row.fill(0, 0, standing.week);
  const stock = new Map(standing.stock);
  const before = sumOf(stock.values());
  for (let week = standing.week; week <= standing.week + waitWeeks; week++)
    fill(week, stock, ({ variety, packClass }) => keyOf(variety, packClass));
  const fromStock = before - sumOf(stock.values());
  return {
    demands: demands.map((demand, at) => ({ ...demand, cartons: wanted[at] ?? demand.cartons })),
    settled: demands.map(({ cartons }, at) =>
      cartons.map((count, week) => count - (wanted[at]?.[week] ?? 0)),
    ),
    sold,
    fromStock,
    leftOver: products.map(({ variety, packClass }) => takeAll(stock, keyOf(variety, packClass))),
  };
}

/** Fruit of one variety and class may be several products: what is left is told of the first. */
function takeAll(stock: Map<string, number>, key: string): number {
  const left = stock.get(key) ?? 0;
  stock.delete(key);
  return left;
}

/** Packed and not sold; where no sale is recorded all is taken as sold. */
function stockOf(plan: Plan): Map<string, number> {
  const stock = new Map<string, number>();
  if (plan.sales.size === 0) return stock;
  for (const { lot, cartons } of plan.packed.values()) {
    const variety = plan.lots.get(lot?.value ?? '')?.variety?.value;
    for (const [packClass, count] of cartons) add(stock, keyOf(variety, packClass), count.value);
  }
  for (const { variety, packClass, cartons } of plan.sales.values())
    add(stock, keyOf(variety?.value, packClass?.value), -(cartons?.value ?? 0));
  for (const [key, count] of stock) if (count <= 0) stock.delete(key);
  return stock;
}

/** Weeks that the packhouse needs for so many bins at the least. */
function weeksNeeded(
  bins: number,
  from: number,
  { packingBins, lastWeekBins }: Pick<PackingWeeks, 'packingBins' | 'lastWeekBins'>,
): number {
  let left = bins;
  for (let week = from; week < packingBins.length; week++) {
    const all = packingBins[week] ?? 0;
    // Of its last week a room may have some days only.
    if (left <= Math.min(all, lastWeekBins?.[week] ?? all)) return week - from + 1;
    left -= all;
  }
  return 1;
}

function worth({ price, priceOfShortage }: Pick<ProblemDemand, 'price' | 'priceOfShortage'>): number {
  return price + priceOfShortage;
}

function fieldKey(lot: string): string {
  return `lot:${lot}`;
}

function keyOf(...words: readonly (string | undefined)[]): string {
  return JSON.stringify(words);
}

function add(map: Map<string, number>, key: string, count: number): void {
  map.set(key, (map.get(key) ?? 0) + count);
}

function sumOf(counts: Iterable<number>): number {
  let sum = 0;
  for (const count of counts) sum += count;
  return sum;
}
