import { type Day, formatDay, parseDay, parseWeek, type Week } from '../../src/plan/dates';
import type { Harvest } from './harvest';
import type { RandomNumbers } from './random';
import type { GeneratedDemand } from './types';
import { type Kind, kinds } from './varieties';

export const BIN_KG = 300;
export const CARTON_KG = 18;
export const FIRST_WEEK = parseWeek('2026-W35') as Week;
const CARTONS_A_BIN = BIN_KG / CARTON_KG;
const WEEKS_A_ROOM_LASTS = 4.6;
const WEEKS_A_MONTH = 365.2425 / 12 / 7;

/** All demand together, of what the rooms will give. */
const DEMAND_OF_SUPPLY = 0.97;

/**
 * How much of the year's fruit the trade moves in a week, by month from August: the run of a stock that is drawn down
 * hardest from December to March and tails off into the summer.
 */
const WEEKLY_SHAPE: Readonly<Record<string, number>> = {
  '08': 70,
  '09': 80,
  '10': 92,
  '11': 102,
  '12': 112,
  '01': 114,
  '02': 114,
  '03': 110,
  '04': 104,
  '05': 98,
  '06': 88,
  '07': 74,
};

/** Weeks round the holidays, of a usual week. */
const HOLIDAYS: Readonly<Record<string, number>> = {
  '2026-W50': 1.15,
  '2026-W51': 1.25,
  '2026-W52': 0.75,
  '2026-W53': 0.65,
  '2027-W01': 0.85,
  '2027-W12': 1.08,
  '2027-W13': 0.85,
};

/** What the markets want, so that it fits what was harvested: nearly all of it, and not quite at the right time. */
export function generateDemand(
  harvest: Harvest,
  weekLabels: readonly string[],
  random: RandomNumbers,
): GeneratedDemand[] {
  const demands: GeneratedDemand[] = [];
  for (const kind of kinds) {
    const bins = binsOf(harvest, kind);
    if (bins === 0) continue;
    const weeks = weekLabels.slice(kind.sale[0], lastSale(harvest, kind) + 1);
    const shape = weeks.map((week, index) => shapeOf(week, index, weeks.length));
    const supply = (share: number) => suppliedCartons(kind, bins, share, shape) * DEMAND_OF_SUPPLY;
    const first = supply(kind.packout.first);
    const homeShare = kind.export ? random.between(0.6, 0.68) : 1;
    const slug = kind.name.toLowerCase().replaceAll(' ', '-');
    const make = (market: string, packClass: 'first' | 'second', cartons: number, price: number) => ({
      id: `${slug}-${market}`,
      market,
      variety: kind.name,
      packClass,
      firstWeek: kind.sale[0],
      cartons: byWeek(cartons, shape, random),
      price,
      leastFirmness: packClass === 'second' ? undefined : market === 'export' ? 58 : 55,
    });
    demands.push(make('home', 'first', first * homeShare, kind.price));
    if (kind.export) demands.push(make('export', 'first', first * (1 - homeShare), kind.price - 1));
    demands.push(
      make('wholesale', 'second', supply(kind.packout.second), Math.round(kind.price * 0.48 * 2) / 2),
    );
  }
  return demands;
}

/** One room lasts for some weeks of selling: a store with few of a variety sells it for a shorter time. */
function lastSale(harvest: Harvest, kind: Kind): number {
  const rooms = harvest.fills.filter((fill) => fill.kind === kind).length;
  return Math.min(kind.sale[1], kind.sale[0] + Math.ceil(rooms * WEEKS_A_ROOM_LASTS) - 1);
}

/** Bins of the variety in store. */
export function binsOf(harvest: Harvest, kind: Kind): number {
  const own = new Set(harvest.lots.filter((lot) => lot.kind === kind).map((lot) => lot.id));
  let bins = 0;
  for (const fill of harvest.fills) for (const [lot, inRoom] of fill.lots) if (own.has(lot)) bins += inRoom;
  return bins;
}

/** Cartons that the bins give if they are packed as the market takes them, losing some for each month in store. */
function suppliedCartons(kind: Kind, bins: number, sharePercent: number, shape: readonly number[]): number {
  const all = shape.reduce((sum, value) => sum + value, 0);
  const harvested = ((parseDay(kind.harvest[1]) as Day) - (FIRST_WEEK * 7 - 3)) / 7;
  return shape.reduce((sum, value, index) => {
    const months = Math.max(0, kind.sale[0] + index - harvested) / WEEKS_A_MONTH;
    const share = (sharePercent / 100) * (1 - (kind.packout.lossAMonth / 100) * months);
    return sum + ((bins * value) / all) * CARTONS_A_BIN * share;
  }, 0);
}

function shapeOf(week: string, index: number, weeks: number): number {
  const month = monthOf(week);
  // A variety comes into the shops, and leaves them, over two weeks.
  const edge = Math.min(1, 0.7 + 0.15 * Math.min(index, weeks - 1 - index));
  return (WEEKLY_SHAPE[month] ?? 100) * (HOLIDAYS[week] ?? 1) * edge;
}

function monthOf(week: string): string {
  const thursday = (parseWeek(week) as Week) * 7;
  return formatDay(thursday).slice(5, 7);
}

function byWeek(total: number, shape: readonly number[], random: RandomNumbers): number[] {
  const uneven = shape.map((value) => value * random.normal(1, 0.03));
  const all = uneven.reduce((sum, value) => sum + value, 0);
  return uneven.map((value) => Math.round((total * value) / all / 10) * 10);
}

/**
 * Bins a week the packhouse needs for the busiest three weeks together, and a little over; in a small store, to empty
 * its largest room in two weeks.
 */
export function packingBinsAWeek(
  demands: readonly GeneratedDemand[],
  weeks: number,
  largestRoom: number,
): number {
  const bins = Array.from({ length: weeks }, () => 0);
  for (const demand of demands.filter((one) => one.packClass === 'first')) {
    const kind = kinds.find((one) => one.name === demand.variety) as Kind;
    for (const [index, cartons] of demand.cartons.entries()) {
      const week = demand.firstWeek + index;
      bins[week] = (bins[week] ?? 0) + cartons / (CARTONS_A_BIN * (kind.packout.first / 100) * 0.95);
    }
  }
  const threeWeeks = bins.map((_, index) => sum(bins.slice(index, index + 3)) / 3);
  return Math.ceil(Math.max(...threeWeeks.map((need) => need * 1.1), largestRoom / 2) / 20) * 20;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}
