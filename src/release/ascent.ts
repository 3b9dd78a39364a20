import { marketPrices } from './market-prices';
import { type PricedSeason, pricedSeason } from './priced-season';
import { RoomsAtPrices } from './room-at-prices';
import { pricesIn, type Shared, type SharedPrices, sharedOf } from './shared-prices';
import type { ReleaseProblem } from './types';

/** Turns without a lower limit after which steps are made shorter, and by how much. */
const PATIENCE = 5;
const SHORTER = 0.7;
/** A limit lower by less than this share is none to speak of. */
const LOWER = 1e-5;
/** The first step as a share of the distance to what is known, and the step that leads nowhere any more. */
const FIRST_STEP = 0.5;
const SHORTEST = 3e-3;
/** How much of a turn's choices goes into the shares; the rest is what went before. */
const OF_LAST_TURN = 0.03;
/** How strongly a direction is bent away from turning back on the last one. */
const BEND = 1.5;

export interface AscentOptions {
  readonly turns: number;
  /** Value of a schedule that is known: how far there is to go at most. */
  readonly known: number;
  readonly shouldStop?: (() => boolean) | undefined;
}

/** A week that a room may open in, and how often it was its best lately. */
export interface LikelyOpening {
  readonly room: number;
  readonly week: number;
  readonly share: number;
}

export interface Ascent {
  /** What the prices limit every schedule to, as the ascent worked it out; `boundAtPrices` works it out anew. */
  readonly limit: number;
  readonly prices: SharedPrices;
  readonly flatPrices: Float64Array;
  readonly season: PricedSeason;
  readonly shared: Shared;
  readonly openings: readonly LikelyOpening[];
}

/**
 * Looks for prices of what rooms share at which the season's limit is lowest: what is asked too much gets dearer, what is
 * left over cheaper, by steps as long as the distance to a known schedule makes sensible, bent so that they do not turn
 * back. No solver and no clock: so many turns, and always the same.
 */
export function ascend(problem: ReleaseProblem, unmet: readonly number[], options: AscentOptions): Ascent {
  const season = pricedSeason(problem, unmet);
  const shared = sharedOf(problem);
  const climb = new Climb(season, shared, marketPrices(problem), options.known, FIRST_STEP);
  const likely = new Float64Array(season.wayWeek.length);
  for (let turn = 0; turn < options.turns && !climb.ended; turn++) {
    if (options.shouldStop?.()) break;
    climb.turn();
    for (let way = 0; way < likely.length; way++) likely[way] = (likely[way] as number) * (1 - OF_LAST_TURN);
    for (const way of climb.rooms.chosen) if (way >= 0) likely[way] = (likely[way] as number) + OF_LAST_TURN;
  }
  const prices = pricesIn(climb.best, problem.weeks);
  const openings = openingsOf(season, likely);
  return { limit: climb.lowest, prices, flatPrices: climb.best, season, shared, openings };
}

function openingsOf(season: PricedSeason, likely: Float64Array): LikelyOpening[] {
  const openings: LikelyOpening[] = [];
  for (let room = 0; room < season.rooms; room++) {
    for (let way = season.firstWay[room] ?? 0; way < (season.firstWay[room + 1] ?? 0); way++)
      openings.push({ room, week: season.wayWeek[way] ?? 0, share: likely[way] ?? 0 });
  }
  return openings;
}

/** The ascent as it goes: prices, the lowest limit so far and the prices it stands at. */
export class Climb {
  readonly rooms: RoomsAtPrices;
  readonly best: Float64Array;
  lowest = Number.POSITIVE_INFINITY;
  private readonly prices: SharedPrices;
  private readonly flatTaken: Float64Array;
  private readonly taken: SharedPrices;
  private readonly direction: Float64Array;
  /** Places of prices that can move: the others stay as they are. */
  private readonly moving: Int32Array;
  private since = 0;

  constructor(
    private readonly season: PricedSeason,
    private readonly shared: Shared,
    /** Prices to start from; changed. */
    private readonly flat: Float64Array,
    private known: number,
    /** Length of the first step, 1 for the whole distance to what is known. */
    private step: number,
  ) {
    this.moving = Int32Array.from([...shared.scale.keys()].filter((at) => (shared.scale[at] ?? 0) > 0));
    this.rooms = new RoomsAtPrices(season, shared);
    this.best = flat.slice();
    this.prices = pricesIn(flat, season.weeks);
    this.flatTaken = new Float64Array(flat.length);
    this.taken = pricesIn(this.flatTaken, season.weeks);
    this.direction = new Float64Array(flat.length);
  }

  /** Begins anew at other prices, `flat` of the constructor as its caller has changed it. */
  restart(known: number, step: number): void {
    this.known = known;
    this.step = step;
    this.since = 0;
    this.lowest = Number.POSITIVE_INFINITY;
    this.direction.fill(0);
  }

  get ended(): boolean {
    return this.step < SHORTEST || this.lowest <= this.known;
  }

  /** The limit at the present prices, then a step to others. */
  turn(): void {
    const { season, shared, flat } = this;
    this.flatTaken.fill(0);
    let limit = season.constant + this.rooms.best(this.prices, this.taken);
    for (const at of this.moving) limit += (flat[at] as number) * (shared.amounts[at] as number);
    this.judge(limit);
    this.asPace();
    const norm = this.bend();
    if (norm <= 0) {
      this.step = 0;
      return;
    }
    const length = (this.step * Math.max(limit - this.known, 0)) / norm;
    for (const at of this.moving) {
      const moved =
        (flat[at] as number) + length * (this.direction[at] as number) * (shared.scale[at] as number);
      flat[at] = Math.min(shared.upper[at] as number, Math.max(shared.lower[at] as number, moved));
    }
  }

  private judge(limit: number): void {
    if (limit < this.lowest - LOWER * Math.abs(limit)) this.since = 0;
    else if (++this.since >= PATIENCE) {
      this.step *= SHORTER;
      this.since = 0;
    }
    if (limit >= this.lowest) return;
    this.lowest = limit;
    this.best.set(this.flat);
  }

  /** Bins packed by week as differences of pace, which prices of pace are for. */
  private asPace(): void {
    const { packing, pace } = this.taken;
    const { weekBefore, paceOfBin } = this.shared;
    for (let week = 0; week < pace.length; week++) {
      const before = weekBefore[week] as number;
      if (before < 0) continue;
      pace[week] =
        (packing[week] as number) * (paceOfBin[week] as number) -
        (packing[before] as number) * (paceOfBin[before] as number);
    }
  }

  /** The next direction; returns its squared length as prices are scaled. */
  private bend(): number {
    const { flatTaken: taken, direction, flat } = this;
    const { amounts, scale, lower, upper } = this.shared;
    let along = 0;
    let before = 0;
    for (const at of this.moving) {
      const weight = scale[at] as number;
      let over = (taken[at] as number) - (amounts[at] as number);
      const price = flat[at] as number;
      if ((over < 0 && price <= (lower[at] as number)) || (over > 0 && price >= (upper[at] as number)))
        over = 0;
      taken[at] = over;
      const last = direction[at] as number;
      along += weight * over * last;
      before += weight * last * last;
    }
    const back = along < 0 && before > 0 ? (-BEND * along) / before : 0;
    let norm = 0;
    for (const at of this.moving) {
      let next = (taken[at] as number) + back * (direction[at] as number);
      if (next < 0 && (flat[at] as number) <= (lower[at] as number)) next = 0;
      direction[at] = next;
      norm += (scale[at] as number) * next * next;
    }
    return norm;
  }
}
