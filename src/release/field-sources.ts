import { fruitData } from '../fruit/data';
import { firmnessAfter, firmnessCourseInAir } from '../keeping/firmness';
import { type Day, firstDayOfWeek, formatWeek, type Week, weekOfDay } from '../plan/dates';
import type { Lot, Packing, Plan, Room } from '../plan/model';
import { packingDays, type SeasonDays } from './packing-weeks';

/** A lot's bins of one week of picking that are in no fill and are packed at harvest. */
export interface FieldSource {
  /** Tells it apart from every fill: no identifier of a plan has brackets. */
  readonly id: string;
  readonly lot: Lot;
  readonly bins: number;
  /** Kilograms in a bin. */
  readonly netFruit: number;
  /** First week of the season in which it can be packed. */
  readonly first: number;
  /** Most bins of it in each week from there, on the working days on which it is there; one week at least. */
  readonly mostBins: readonly number[];
  /** Newtons, in cold air since picking; undefined where it was not tested. */
  firmnessOn(day: Day): number | undefined;
}

interface Season extends SeasonDays {
  readonly firstWeek: Week;
  readonly weeks: number;
}

/** Longer pickings are slips of the keyboard. */
const MOST_PICKING_DAYS = 120;

/**
 * What is packed at harvest: of each lot that says so the bins in no fill, spread evenly over its days of picking, those
 * of a week together. They are there from the first day of picking in that week to so many days after the last one. A
 * lot without picking days, packout or a bin of known content is left out, and so is what is past before the season
 * begins.
 */
export function fieldSources(plan: Plan, packing: Packing, binsAWeek: number, season: Season): FieldSource[] {
  const lots = [...plan.lots.values()].filter(({ packedAtHarvest }) => packedAtHarvest);
  if (lots.length === 0) return [];
  const fruit = fruitData(plan);
  const worked = packingDays(packing, season);
  return lots.flatMap((lot) => {
    const { first, last } = lot.picked?.value ?? { first: 0, last: -1 };
    const variety = lot.variety && fruit.variety(lot.variety.value);
    const shares = packing.packout.get(lot.variety?.value ?? '')?.shares.size ?? 0;
    const [left, netFruit] = [binsInNoFill(plan, lot), netFruitOf(plan, lot)];
    const days = last - first + 1;
    if (!variety || shares === 0 || netFruit === undefined || left <= 0) return [];
    if (days < 1 || days > MOST_PICKING_DAYS) return [];
    const course = firmnessCourseInAir(lot, variety);
    const parts = weeksOfPicking(first, last);
    return parts.flatMap((part): FieldSource[] => {
      const until = part.last + Math.floor(lot.packedAtHarvest?.value ?? 0);
      const weeks = weeksThere(season, part.first, until);
      if (weeks.length === 0) return [];
      const share = (week: number) => {
        const monday = firstDayOfWeek(season.firstWeek + week);
        return worked(monday, until - monday + 1, part.first);
      };
      const week = parts.length > 1 ? `, picked in ${formatWeek(weekOfDay(part.first))}` : '';
      return [
        {
          id: `${lot.id} (from the field${week})`,
          lot,
          bins: (left * (part.last - part.first + 1)) / days,
          netFruit,
          first: weeks[0] ?? 0,
          mostBins: weeks.map((at) => binsAWeek * share(at)),
          firmnessOn: (day) => course && firmnessAfter(course, day - first),
        },
      ];
    });
  });
}

/** Bins of a lot, as received or else as expected, that no fill takes; never below 0. */
export function binsInNoFill(plan: Plan, lot: Lot): number {
  const bins = (lot.receivedBins ?? lot.expectedBins)?.value ?? 0;
  let placed = 0;
  for (const fill of plan.fills.values())
    for (const part of fill.lots) if (part.lot.value === lot.id) placed += part.bins.value;
  return Math.max(0, bins - placed);
}

/**
 * A bin's fruit, kg: of the room that has other bins of the lot, else of the kind of bin that most rooms take; among
 * several the first by identifier, so that the order of a plan's entries changes nothing.
 */
export function netFruitOf(plan: Plan, lot: Lot): number | undefined {
  const fills = [...plan.fills.values()].filter(({ lots }) => lots.some((part) => part.lot.value === lot.id));
  const rooms = [...plan.rooms.values()];
  const ofLot = rooms.filter(({ id }) => fills.some(({ room }) => room?.value === id));
  const kind = commonBin(ofLot) ?? commonBin(rooms) ?? [...plan.binTypes.keys()].sort()[0];
  const netFruit = plan.binTypes.get(kind ?? '')?.netFruit?.value;
  return netFruit !== undefined && netFruit > 0 ? netFruit : undefined;
}

/** The bin type that most of the rooms take. */
function commonBin(rooms: readonly Room[]): string | undefined {
  const kinds = rooms.flatMap(({ binType }) => (binType ? [binType.value] : []));
  const times = (kind: string) => kinds.filter((one) => one === kind).length;
  return [...new Set(kinds)].sort((a, b) => times(b) - times(a) || (a < b ? -1 : 1))[0];
}

function weeksOfPicking(first: Day, last: Day): { readonly first: Day; readonly last: Day }[] {
  const parts: { first: Day; last: Day }[] = [];
  for (let day = first; day <= last; ) {
    const sunday = firstDayOfWeek(weekOfDay(day)) + 6;
    parts.push({ first: day, last: Math.min(last, sunday) });
    day = sunday + 1;
  }
  return parts;
}

/** Weeks of the season from one day to another, both included. */
function weeksThere({ firstWeek, weeks }: Season, from: Day, until: Day): number[] {
  const first = Math.max(0, weekOfDay(from) - firstWeek);
  const last = Math.min(weeks - 1, weekOfDay(until) - firstWeek);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, at) => first + at);
}
