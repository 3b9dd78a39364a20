import type { RoomKeeping } from '../keeping/types';
import { type Week, weekOfDay } from '../plan/dates';
import type { Packing, Plan } from '../plan/model';
import { cartonsABin } from './cartons-a-bin';
import { demandWanted, type WantedDemand } from './demand-wanted';
import { packingBinsAWeek } from './packing-weeks';
import { riskCost, roomWorth } from './risk';
import type { ProblemDemand, ProblemRoom, ReleaseProblem } from './types';

/** Longer seasons than three years are slips of the keyboard, and would only cost memory. */
const MOST_WEEKS = 156;

/** Packed cartons left to wait longer than this are not worth telling apart. */
const MOST_WAIT_WEEKS = 12;

/** What a week of change counts where the plan sets no price: this share of what the room's fruit would bring. */
const CHANGE_SHARE_OF_WORTH = 0.002;

export interface ProblemOptions {
  /** Opening week of each fill in the schedule published last, which changes are counted from. */
  readonly published?: ReadonlyMap<string, Week> | undefined;
}

interface Change {
  readonly published: ReadonlyMap<string, Week> | undefined;
  readonly price: number | undefined;
}

type Product = ReleaseProblem['products'][number];

interface Season {
  readonly firstWeek: Week;
  readonly weeks: number;
}

/**
 * The release problem of a plan: rooms by fill, each with its opening window and what a bin of it packs into, and
 * the demand of each week.
 *
 * A room without a window, without bins, or with a lot whose packout is not known is left out; so is a demand without
 * variety, class, weeks, cartons or price. Undefined where the season's days, the carton or the packhouse's bins a
 * week are missing, or where no room or no demand is left.
 */
export function releaseProblem(
  plan: Plan,
  keeping: ReadonlyMap<string, RoomKeeping>,
  options: ProblemOptions = {},
): ReleaseProblem | undefined {
  const season = seasonWeeks(plan);
  const { packing } = plan;
  const binsAWeek = packing?.binsAWeek?.value;
  const cartonMass = plan.season?.cartonMass?.value;
  if (!season || !packing || !positive(binsAWeek) || !positive(cartonMass)) return undefined;

  const wanted = demandWanted(plan, season.firstWeek, season.weeks);
  const rooms = [...keeping.values()].filter((room) => canBeReleased(room, packing));
  if (wanted.length === 0 || rooms.length === 0) return undefined;

  const products = productsOf(rooms, wanted, packing);
  const demands = wanted.map((demand) => problemDemand(demand, products));
  const processingPrice = Math.max(0, packing.processingPrice.value);
  const change: Change = { published: options.published, price: plan.policy.priceOfChange?.value };
  return {
    ...season,
    rooms: rooms.map((room) =>
      problemRoom(room, packing, season, products, demands, { cartonMass, processingPrice, change }),
    ),
    products,
    demands,
    packingBins: packingBinsAWeek(packing, binsAWeek, season.firstWeek, season.weeks),
    roomsOpenAtOnce: plan.policy.roomsOpenAtOnce?.value ?? null,
    packedWaitWeeks: waitWeeks(packing, season.weeks),
    costOfWaiting: Math.max(0, packing.costOfWaiting.value),
    processingPrice,
    ...opensBefore(plan, rooms),
  };
}

/** Pairs of fills that both have a room here. */
function opensBefore({ policy }: Plan, rooms: readonly RoomKeeping[]): Pick<ReleaseProblem, 'opensBefore'> {
  const at = new Map(rooms.map(({ filled }, index) => [filled.fill.id, index]));
  const pairs = (policy.openBefore ?? []).flatMap(({ first, later }) => {
    const [one, other] = [at.get(first.value), at.get(later.value)];
    return one === undefined || other === undefined ? [] : [[one, other] as const];
  });
  return pairs.length === 0 ? {} : { opensBefore: pairs };
}

function seasonWeeks(plan: Plan): Season | undefined {
  const starts = plan.season?.starts?.value;
  const ends = plan.season?.ends?.value;
  if (starts === undefined || ends === undefined) return undefined;
  const firstWeek = weekOfDay(starts);
  const weeks = weekOfDay(ends) - firstWeek + 1;
  return weeks >= 1 && weeks <= MOST_WEEKS ? { firstWeek, weeks } : undefined;
}

/** Whole weeks, so that no carton waits longer than the plan allows. */
function waitWeeks(packing: Packing, weeks: number): number {
  const wait = Math.floor(packing.packedWait.value / 7);
  return Math.max(0, Math.min(Number.isFinite(wait) ? wait : 0, MOST_WAIT_WEEKS, weeks - 1));
}

function canBeReleased(room: RoomKeeping, packing: Packing): boolean {
  if (!room.window || !positive(room.filled.bins?.value) || room.filled.lots.length === 0) return false;
  return room.filled.lots.every(
    ({ lot }) => (packing.packout.get(lot.variety?.value ?? '')?.shares.size ?? 0) > 0,
  );
}

/** Every variety and pack class that a room gives or a customer wants. */
function productsOf(
  rooms: readonly RoomKeeping[],
  wanted: readonly WantedDemand[],
  packing: Packing,
): readonly Product[] {
  const products = new Map<string, Product>();
  const add = (variety: string, packClass: string) =>
    products.set(`${variety}\n${packClass}`, { variety, packClass });
  for (const room of rooms) {
    for (const { lot } of room.filled.lots) {
      const variety = lot.variety?.value ?? '';
      for (const packClass of packing.packout.get(variety)?.shares.keys() ?? []) add(variety, packClass);
    }
  }
  for (const demand of wanted) add(demand.variety, demand.packClass);
  return [...products.values()];
}

function problemDemand(demand: WantedDemand, products: readonly Product[]): ProblemDemand {
  const { variety, packClass, ...rest } = demand;
  const product = products.findIndex((one) => one.variety === variety && one.packClass === packClass);
  return { ...rest, product };
}

function problemRoom(
  keeping: RoomKeeping,
  packing: Packing,
  season: Season,
  products: readonly Product[],
  demands: readonly ProblemDemand[],
  money: { readonly cartonMass: number; readonly processingPrice: number; readonly change: Change },
): ProblemRoom {
  const { filled, window } = keeping;
  const { firstWeek, weeks } = season;
  const edge = (week: Week | undefined) => (week ?? firstWeek) - firstWeek;
  const bins = filled.bins?.value ?? 0;
  const bestBefore = edge(window?.bestBefore.week);
  const cartons = cartonsABin(filled.lots, bins, packing, products, money.cartonMass, season);
  const worth = roomWorth(bins, cartons[clamp(bestBefore, weeks)] ?? [], demands, money.processingPrice);
  const pin = filled.fill.open?.value;
  const published = money.change.published?.get(filled.fill.id);
  return {
    fill: filled.fill.id,
    room: filled.room.id,
    bins,
    weeksToEmpty: Math.max(1, Math.min(weeks, Math.ceil(packing.daysToEmpty.value / 7) || 1)),
    earliest: Math.max(0, edge(window?.earliest.week)),
    latest: Math.min(weeks - 1, edge(window?.latest.week)),
    bestBefore: clamp(bestBefore, weeks),
    pinned: pin === undefined ? null : pin - firstWeek,
    cartonsABin: cartons,
    riskCost: riskCost(worth, bestBefore, weeks),
    ...(published !== undefined && {
      published: { week: published - firstWeek, price: money.change.price ?? worth * CHANGE_SHARE_OF_WORTH },
    }),
  };
}

function clamp(week: number, weeks: number): number {
  return Math.max(0, Math.min(weeks - 1, week));
}

function positive(value: number | undefined): value is number {
  return value !== undefined && Number.isFinite(value) && value > 0;
}
