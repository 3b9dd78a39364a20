import type { RoomKeeping } from '../../keeping/types';
import { firstDayOfWeek, formatWeek } from '../../plan/dates';
import { figureWith } from '../../plan/figure';
import type { Demand } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import { counted, listed } from '../../plan/wording';
import type { ReleaseProblem } from '../../release/types';
import { cautionInShort } from '../../room/caution';
import { shower } from '../say';
import type { ComputedSeason } from '../types';

/** Lots too soft for an order that sets a least firmness, by order; and once a market, those never tested that it is sold. */
export function* softerThanMarketWants(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  const rooms = roomsByVariety(season);
  const untested = new Map<string, Untested>();
  for (const demand of season.plan.demand.values()) {
    const least = demand.leastFirmness;
    if (!least) continue;
    const judged = lotsForOrder(season, rooms, demand, least.value);
    noteUntested(untested, demand, judged);
    const soft = judged.filter((one) => one.firmness !== undefined);
    if (soft.length === 0) continue;
    const lots = soft.map(
      ({ lot, fill, week, firmness = 0 }) =>
        `${lot} in ${fill} (${show(figureWith(least, { value: firmness }))} in ${formatWeek(week)})`,
    );
    yield {
      code: 'softer-than-market-wants',
      message: `${demand.id} wants at least ${show(least)}. Expected to be softer while their room is packed, and not sold to it from then on: ${listed(lots, 5)}. Sell them elsewhere, or have their rooms opened sooner by the crew licensed for it. ${cautionInShort}`,
      at: demand.at,
      about: demand.id,
    };
  }
  for (const { first, lots } of untested.values()) yield untestedLots(first, [...lots]);
}

/** An order, and lots of which no firmness is known that may go to its market. */
interface Untested {
  readonly first: Demand;
  readonly lots: Set<string>;
}

function noteUntested(
  untested: Map<string, Untested>,
  demand: Demand,
  judged: readonly { readonly lot: string; readonly firmness: number | undefined }[],
): void {
  const market = demand.market?.value ?? '';
  for (const { lot, firmness } of judged) {
    if (firmness !== undefined) continue;
    const known = untested.get(market) ?? { first: demand, lots: new Set<string>() };
    untested.set(market, known);
    known.lots.add(lot);
  }
}

function untestedLots(demand: Demand, lots: readonly string[]): Problem {
  const market = demand.market ? ` of the market \`${demand.market.value}\`` : '';
  return {
    code: 'softer-than-market-wants',
    message: `Orders${market} set a least firmness, and none is known of ${counted(lots.length, 'lot that is in', 'lots that are in')} and may be sold there: ${listed(lots, 5)}. They are sold as if they were firm enough. Test them at harvest and write \`maturity: firmness\`, or add a sample.`,
    at: demand.leastFirmness?.origin.kind === 'plan' ? demand.leastFirmness.origin.at : demand.at,
    about: `${demand.market?.value ?? ''}/untested`,
  };
}

/** A room of the release problem, its place in it and how it keeps. */
interface ReleasedRoom {
  readonly room: ReleaseProblem['rooms'][number];
  readonly index: number;
  readonly kept: RoomKeeping;
}

/** Rooms that are to be released, by each variety they hold: every order is asked of those of its own. */
function roomsByVariety({ release, keeping }: ComputedSeason): ReadonlyMap<string, readonly ReleasedRoom[]> {
  const rooms = new Map<string, ReleasedRoom[]>();
  for (const [index, room] of (release?.problem.rooms ?? []).entries()) {
    const kept = keeping.get(room.fill);
    for (const { variety } of kept?.filled.varieties ?? []) {
      const known = rooms.get(variety.name) ?? [];
      rooms.set(variety.name, known);
      if (kept) known.push({ room, index, kept });
    }
  }
  return rooms;
}

/**
 * Lots of the demand's variety and markets that are too soft for it in a week in which their room is packed, or may be, with
 * the firmness expected in the first such week, N; and those that are in and of which no firmness is known.
 */
function lotsForOrder(
  { fruit, release }: ComputedSeason,
  rooms: ReadonlyMap<string, readonly ReleasedRoom[]>,
  demand: Demand,
  least: number,
) {
  const variety = demand.variety && fruit.variety(demand.variety.value)?.name;
  const weeks = demand.weeks?.value;
  if (!release || !variety || !weeks) return [];
  const { problem, result } = release;
  return (rooms.get(variety) ?? []).flatMap(({ room, index, kept }) => {
    const packed = result.schedule.packed[index] ?? [];
    const open = result.schedule.opens[index] ?? room.earliest;
    const end = Math.max(open, result.schedule.opens[index] == null ? room.latest : lastPacked(packed));
    const first = Math.max(weeks.first, problem.firstWeek + open);
    const last = Math.min(weeks.last, problem.firstWeek + end);
    const markets = kept.filled.fill.forMarkets ?? [];
    if (markets.length > 0 && !markets.some(({ value }) => value === demand.market?.value)) return [];
    return kept.lots.flatMap(({ lot, inRoom, firmnessOn }) => {
      if (inRoom.variety.name !== variety) return [];
      for (let week = first; week <= last; week++) {
        const firmness = firmnessOn(firstDayOfWeek(week) + 6);
        if (firmness === undefined ? lot.receivedBins !== undefined : firmness < least)
          return [{ lot: lot.id, fill: room.fill, week, firmness }];
      }
      return [];
    });
  });
}

function lastPacked(packed: readonly number[]): number {
  return packed.findLastIndex((bins) => bins >= 0.5);
}
