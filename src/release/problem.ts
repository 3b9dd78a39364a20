import type { RoomKeeping } from '../keeping/types';
import { type Day, firstDayOfWeek, type Week, weekOfDay } from '../plan/dates';
import type { Packing, Plan } from '../plan/model';
import { finish, type Steps } from '../plan/steps';
import { cartonsABin } from './cartons-a-bin';
import { demandWanted } from './demand-wanted';
import { type FieldSource, fieldSources } from './field-sources';
import { lastWeeksBeforeRefill } from './filled-again';
import {
  demandsFromStand,
  fieldFromStand,
  isReleased,
  leftIn,
  openRoomsTogether,
  packingFromStand,
  roomFromStand,
  type SeasonStand,
  type StillWanted,
  seasonStandOf,
} from './from-stand';
import { packhouseDays, packingDays, packingWeeks, type SeasonDays, weeksToEmpty } from './packing-weeks';
import { riskCost, roomWorth } from './risk';
import { type FruitSource, type RoomProducts, roomProductsSteps } from './room-products';
import type { ProblemRoom, ReleaseProblem } from './types';

/** Longer seasons than three years are slips of the keyboard, and would only cost memory. */
export const MOST_WEEKS = 156;

/** Rooms that are made in one step: about a millisecond. */
const ROOMS_A_STEP = 4;

/** Packed cartons left to wait longer than this are not worth telling apart. */
const MOST_WAIT_WEEKS = 12;

/** What a week of change counts where the plan sets no price: this share of what the room's fruit would bring. */
const CHANGE_SHARE_OF_WORTH = 0.002;

export interface ProblemOptions {
  /** Opening week of each fill in the schedule published last, which changes are counted from. */
  readonly published?: ReadonlyMap<string, Week> | undefined;
  /** Also where no fruit is left: then it has no room, and what has been packed and sold is in its standing. */
  readonly ofRecords?: boolean;
}

interface Change {
  readonly published: ReadonlyMap<string, Week> | undefined;
  readonly price: number | undefined;
}

interface Money {
  readonly cartonMass: number;
  readonly processingPrice: number;
  readonly change: Change;
  /** For a bin in air, each week that its room waits to open. */
  readonly weekInAir: number;
}

interface Season extends SeasonDays {
  readonly firstWeek: Week;
  readonly weeks: number;
}

/**
 * The release problem of a plan: rooms by fill, each with its opening window and what a bin of it packs into, and
 * the demand of each week.
 *
 * Days to empty a room are true to the day (`packingWeeks`). What cartons may wait is counted in whole weeks, so that none
 * waits longer while the packhouse works the same days in each; `packedWait` checks a schedule to the day.
 *
 * Where the plan says what has happened, only what is still to come is released (`SeasonStand`).
 *
 * Lots packed at harvest are rooms marked as from the field (`fieldSources`), after all others.
 *
 * A room without a window, without bins, or with a lot whose packout is not known is left out; so is a demand without
 * variety, class, weeks, cartons or price. Undefined where the season's days, the carton or the packhouse's bins a
 * week are missing, or where no fruit (see `ofRecords`) or no demand is left.
 */
export function releaseProblem(
  plan: Plan,
  keeping: ReadonlyMap<string, RoomKeeping>,
  options: ProblemOptions = {},
): ReleaseProblem | undefined {
  return finish(releaseProblemSteps(plan, keeping, options));
}

/** The same in steps, some rooms each. */
export function* releaseProblemSteps(
  plan: Plan,
  keeping: ReadonlyMap<string, RoomKeeping>,
  options: ProblemOptions = {},
): Steps<ReleaseProblem | undefined> {
  const season = seasonWeeks(plan);
  const { packing } = plan;
  const binsAWeek = packing?.binsAWeek?.value;
  const cartonMass = plan.season?.cartonMass?.value;
  if (!season || !packing || !positive(binsAWeek) || !positive(cartonMass)) return undefined;

  const parts = yield* problemFruitSteps(plan, keeping, options.ofRecords);
  if (!parts) return undefined;
  const { rooms, fromField, made } = parts;
  const { firstWeek, weeks } = season;
  const packedWaitWeeks = waitWeeks(packing, weeks);
  const emptyingWeeks = Math.min(weeks, weeksToEmpty(packing));
  const processingPrice = Math.max(0, packing.processingPrice.value);
  const change: Change = { published: options.published, price: plan.policy.priceOfChange?.value };
  const standing = seasonStandOf(plan, firstWeek);
  const { fullWeeks, ...bins } = packingFromStand(
    packingWeeks(packing, binsAWeek, season),
    standing,
    binsLeftOfWeek(plan, packing, binsAWeek, season),
  );
  const priceOfUneven = Math.max(0, plan.policy.priceOfUnevenWork?.value ?? 0);
  const ofProblem: ProblemRoom[] = [];
  const beforeRefill = lastWeeksBeforeRefill(plan, packing);
  for (const room of rooms) {
    if (ofProblem.length % ROOMS_A_STEP === 0) yield;
    const left = { ...room, filled: leftIn(room.filled, standing) };
    const own = problemRoom(left, packing, { firstWeek, weeks, emptyingWeeks }, made, {
      cartonMass,
      processingPrice,
      change,
      weekInAir: Math.max(0, plan.policy.priceOfWeekInAir?.value ?? 0),
    });
    const planned = emptiedBefore(own, beforeRefill.get(own.fill), firstWeek);
    ofProblem.push(standing ? roomFromStand(planned, standing, bins) : planned);
  }
  const wanted = demandsFromStand(made.demands, made.products, standing, packedWaitWeeks);
  yield;
  return {
    firstWeek,
    weeks,
    rooms: [
      ...(standing ? openRoomsTogether(ofProblem, standing, bins) : ofProblem),
      ...fromField.map((source) => roomFromField(source, packing, season, made, cartonMass)),
    ],
    products: made.products,
    demands: wanted.demands,
    ...bins,
    days: packhouseDays(packing, season),
    roomsOpenAtOnce: plan.policy.roomsOpenAtOnce?.value ?? null,
    packedWaitWeeks,
    costOfWaiting: Math.max(0, packing.costOfWaiting.value),
    processingPrice,
    ...(priceOfUneven > 0 && { evenWork: { price: priceOfUneven, fullWeeks } }),
    ...opensBefore(plan, rooms, standing),
    ...standingIn(standing, wanted, weeks),
  };
}

/** The fruit that a problem is made of, in the order of its rooms, and what it is packed into. */
export interface ProblemFruit {
  readonly rooms: readonly RoomKeeping[];
  readonly fromField: readonly FieldSource[];
  readonly fruit: readonly FruitSource[];
  readonly made: RoomProducts;
}

/** What `releaseProblem` makes its rooms and products of. */
export function problemFruit(
  plan: Plan,
  keeping: ReadonlyMap<string, RoomKeeping>,
): ProblemFruit | undefined {
  return finish(problemFruitSteps(plan, keeping));
}

function* problemFruitSteps(
  plan: Plan,
  keeping: ReadonlyMap<string, RoomKeeping>,
  ofRecords = false,
): Steps<ProblemFruit | undefined> {
  const season = seasonWeeks(plan);
  const { packing } = plan;
  const binsAWeek = packing?.binsAWeek?.value;
  if (!season || !packing || !positive(binsAWeek)) return undefined;
  const wanted = demandWanted(plan, season.firstWeek, season.weeks);
  const standing = seasonStandOf(plan, season.firstWeek);
  const rooms = [...keeping.values()].filter(
    (room) =>
      canBeReleased(room, packing) &&
      !isReleased(plan, standing, room.filled.fill.id, room.filled.bins?.value ?? 0),
  );
  const fromField = fieldFromStand(fieldSources(plan, packing, binsAWeek, season), standing);
  if (wanted.length === 0 || (!ofRecords && rooms.length + fromField.length === 0)) return undefined;
  const { weeks } = season;
  const packedWaitWeeks = waitWeeks(packing, weeks);
  const emptyingWeeks = Math.min(weeks, weeksToEmpty(packing));
  const fruit = [
    ...rooms.map((room) => fruitOfRoom(room, season, emptyingWeeks - 1 + packedWaitWeeks)),
    ...fromField.map((source) => fruitFromField(source, weeks, packedWaitWeeks)),
  ];
  return { rooms, fromField, fruit, made: yield* roomProductsSteps(fruit, wanted, packing, season) };
}

function fruitOfRoom(
  { filled, window, lots }: RoomKeeping,
  season: Season,
  weeksToSell: number,
): FruitSource {
  const { firstWeek, weeks } = season;
  const edge = (week: Week | undefined) => (week ?? firstWeek) - firstWeek;
  return {
    id: filled.fill.id,
    forMarkets: (filled.fill.forMarkets ?? []).map(({ value }) => value),
    first: Math.max(0, edge(window?.earliest.week)),
    last: Math.min(weeks - 1, edge(window?.latest.week) + weeksToSell),
    lots: lots.map(({ inRoom, firmnessOn }) => ({ lot: inRoom.lot, firmnessOn })),
  };
}

function fruitFromField(source: FieldSource, weeks: number, waitWeeks: number): FruitSource {
  const { id, first, mostBins } = source;
  const last = Math.min(weeks - 1, first + mostBins.length - 1 + waitWeeks);
  return { id, forMarkets: [], first, last, lots: [source] };
}

/** A lot packed at harvest as the problem has it: a room that is there in its weeks alone, without any risk. */
function roomFromField(
  { id, lot, bins, netFruit, first, mostBins }: FieldSource,
  packing: Packing,
  season: Season,
  { products, productOf }: RoomProducts,
  cartonMass: number,
): ProblemRoom {
  const fruit = [{ lot, fruit: { value: bins * netFruit } }];
  const ofLot = (one: string, packClass: string) => productOf(id, one, packClass);
  return {
    fill: id,
    room: id,
    bins,
    weeksToEmpty: mostBins.length,
    earliest: first,
    latest: first,
    bestBefore: first,
    pinned: null,
    cartonsABin: cartonsABin(fruit, bins, packing, products, ofLot, cartonMass, season),
    riskCost: new Array<number>(season.weeks).fill(0),
    fromField: { lot: lot.id, mostBins },
  };
}

/** Bins of a full week's that the packhouse can run on the days after the stand, in its week. */
export function binsLeftOfWeek({ stand }: Plan, packing: Packing, binsAWeek: number, season: Season): number {
  if (stand === undefined) return binsAWeek;
  return binsAWeek * packingDays(packing, season)(firstDayOfWeek(weekOfDay(stand + 1)), 7, stand + 1);
}

/** What of the standing those who read a schedule must know. */
function standingIn(
  standing: SeasonStand | undefined,
  { settled, sold, fromStock, leftOver }: StillWanted,
  weeks: number,
): Pick<ReleaseProblem, 'standing'> {
  if (!standing) return {};
  const { week, isPacked, stock } = standing;
  const opened = [...standing.opened].map(([fill, at]) => ({ fill, week: at }));
  return {
    standing: {
      week,
      isPacked,
      stock: [...stock.values()].reduce((sum, cartons) => sum + cartons, 0),
      opened,
      settled,
      sold,
      fromStock,
      leftOver,
      packed: Array.from({ length: weeks }, (_, at) => standing.packedByWeek.get(at) ?? 0),
    },
  };
}

/** Pairs of fills that both have a room here and are still to be opened. */
function opensBefore(
  { policy }: Plan,
  rooms: readonly RoomKeeping[],
  standing: SeasonStand | undefined,
): Pick<ReleaseProblem, 'opensBefore'> {
  const at = new Map(rooms.map(({ filled }, index) => [filled.fill.id, index]));
  const pairs = (policy.openBefore ?? []).flatMap(({ first, later }) => {
    if (standing?.opened.has(first.value) || standing?.opened.has(later.value)) return [];
    const [one, other] = [at.get(first.value), at.get(later.value)];
    return one === undefined || other === undefined ? [] : [[one, other] as const];
  });
  return pairs.length === 0 ? {} : { opensBefore: pairs };
}

/** The last day that a season may have which starts on a day. */
export function lastDayOfSeason(starts: Day): Day {
  return firstDayOfWeek(weekOfDay(starts) + MOST_WEEKS) - 1;
}

/** Undefined where the season's days are missing, or are none or too many. */
export function seasonWeeks(plan: Plan): Season | undefined {
  const starts = plan.season?.starts?.value;
  const ends = plan.season?.ends?.value;
  if (starts === undefined || ends === undefined) return undefined;
  const firstWeek = weekOfDay(starts);
  const weeks = weekOfDay(ends) - firstWeek + 1;
  return weeks >= 1 && weeks <= MOST_WEEKS ? { firstWeek, weeks, starts, ends } : undefined;
}

/** Whole weeks, so that no carton waits longer than the plan allows. */
function waitWeeks(packing: Packing, weeks: number): number {
  const wait = Math.floor(packing.packedWait.value / 7);
  return Math.max(0, Math.min(Number.isFinite(wait) ? wait : 0, MOST_WAIT_WEEKS, weeks - 1));
}

/** Whether a room has all that a schedule needs of it. */
export function canBeReleased(room: RoomKeeping, packing: Packing): boolean {
  if (!room.window || !positive(room.filled.bins?.value) || room.filled.lots.length === 0) return false;
  return room.filled.lots.every(
    ({ lot }) => (packing.packout.get(lot.variety?.value ?? '')?.shares.size ?? 0) > 0,
  );
}

function problemRoom(
  keeping: RoomKeeping,
  packing: Packing,
  season: { readonly firstWeek: Week; readonly weeks: number; readonly emptyingWeeks: number },
  { products, demands, productOf }: RoomProducts,
  money: Money,
): ProblemRoom {
  const { filled, window } = keeping;
  const { firstWeek, weeks } = season;
  const edge = (week: Week | undefined) => (week ?? firstWeek) - firstWeek;
  const bins = filled.bins?.value ?? 0;
  const bestBefore = edge(window?.bestBefore.week);
  const ofLot = (lot: string, packClass: string) => productOf(filled.fill.id, lot, packClass);
  const cartons = cartonsABin(filled.lots, bins, packing, products, ofLot, money.cartonMass, season);
  const worth = roomWorth(bins, cartons[clamp(bestBefore, weeks)] ?? [], demands, money.processingPrice);
  const pin = filled.fill.open?.value;
  const earliest = Math.max(0, edge(window?.earliest.week));
  const weekInAir = filled.fill.sealed ? 0 : bins * money.weekInAir;
  const published = money.change.published?.get(filled.fill.id);
  return {
    fill: filled.fill.id,
    room: filled.room.id,
    bins,
    weeksToEmpty: season.emptyingWeeks,
    earliest,
    latest: Math.min(weeks - 1, edge(window?.latest.week)),
    bestBefore: clamp(bestBefore, weeks),
    pinned: pin === undefined ? null : pin - firstWeek,
    cartonsABin: cartons,
    riskCost: riskCost(worth, bestBefore, weeks).map(
      (risk, week) => risk + weekInAir * Math.max(0, week - earliest),
    ),
    ...(weekInAir > 0 && { weekInAir }),
    ...(published !== undefined && {
      published: { week: published - firstWeek, price: money.change.price ?? worth * CHANGE_SHARE_OF_WORTH },
    }),
  };
}

/**
 * A room that is filled again is opened so early that it is empty by then. Where its fruit cannot be ready so early no
 * schedule helps, and a finding says so: then its window stays.
 */
function emptiedBefore(room: ProblemRoom, week: Week | undefined, firstWeek: Week): ProblemRoom {
  if (week === undefined) return room;
  const latest = Math.min(room.latest, week - firstWeek);
  return latest < room.earliest ? room : { ...room, latest };
}

function clamp(week: number, weeks: number): number {
  return Math.max(0, Math.min(weeks - 1, week));
}

function positive(value: number | undefined): value is number {
  return value !== undefined && Number.isFinite(value) && value > 0;
}
