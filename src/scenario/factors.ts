import { canonicalName } from '../fruit/data';
import type { Week } from '../plan/dates';
import { compute, countedFigure, type Figure, type Unit } from '../plan/figure';
import type { Demand, Fill, Lot, Plan } from '../plan/model';
import { changedFrom } from './demand-to-come';
import { comeIn, weekToCome } from './to-come';

export type Share = Figure<'%'>;
/** The share for what is of a variety; undefined where it stays as it is. */
export type ShareOf = (variety: string | undefined) => Share | undefined;

/** One share for all, and others by variety in its place. */
export function shareOf(all: Share | undefined, byVariety: ReadonlyMap<string, Share>): ShareOf {
  const own = new Map([...byVariety].map(([name, share]) => [canonicalName(name), share]));
  return (variety) => (variety === undefined ? undefined : own.get(canonicalName(variety))) ?? all;
}

/** So many per cent of what there was, in whole bins or cartons. */
function part<U extends Unit>(now: Figure<U>, share: Share): Figure<U> {
  return compute(now.name, now.unit, 'round(now * share / 100)', { now, share }, (v) =>
    Math.round((v.now * v.share) / 100),
  );
}

/**
 * The plan with another crop: every lot's bins, and those of it in each fill, whole. A fill loses lots of no bin. Where
 * the plan holds records, bins that have come in stay, and so do fills of which they say what went in: only what is
 * still to come can be more or less.
 */
export function withCrop(plan: Plan, share: ShareOf): Plan {
  const known = comeIn(plan);
  const shareOfLot = (id: string) =>
    known.ofLot.get(id) === Number.POSITIVE_INFINITY ? undefined : share(plan.lots.get(id)?.variety?.value);
  const lots = new Map(
    [...plan.lots].map(([id, lot]) => {
      const times = shareOfLot(id);
      return [id, times ? lotTimes(lot, times, known.ofLot.get(id) ?? 0) : lot] as const;
    }),
  );
  const placed = new Map<string, number>();
  const fills = new Map(
    [...plan.fills].map(([id, fill]) => {
      const shares = fill.lots.map(({ lot }) => shareOfLot(lot.value));
      const stays = known.fills.has(id) || shares.every((one) => one === undefined);
      return [id, stays ? fill : fillTimes(fill, shares, placed, known.notPlaced)] as const;
    }),
  );
  return { ...plan, lots, fills };
}

function lotTimes(lot: Lot, share: Share, cameIn: number): Lot {
  return {
    ...lot,
    expectedBins: lot.expectedBins && partToCome(lot.expectedBins, share, cameIn),
    receivedBins: lot.receivedBins && part(lot.receivedBins, share),
  };
}

/** What has come in, and so many per cent of the rest. */
function partToCome(expected: Figure<'bins'>, share: Share, bins: number): Figure<'bins'> {
  if (bins === 0) return part(expected, share);
  if (bins >= expected.value) return expected;
  const received = countedFigure('bins that have come in', 'bins', bins, 'the receipts of the plan');
  return compute(
    expected.name,
    'bins',
    'received + round((expected - received) * share / 100)',
    { received, expected, share },
    (v) => v.received + Math.round(((v.expected - v.received) * v.share) / 100),
  );
}

/** Bins of a lot that come after others of it: whole, and together no more than the share of them all. */
function partAfter(before: number, now: Figure<'bins'>, share: Share): Figure<'bins'> {
  if (before === 0) return part(now, share);
  const others = countedFigure(
    'bins of the lot in fills before this one',
    'bins',
    before,
    'the fills of the plan',
  );
  return compute(
    now.name,
    'bins',
    'round((others + now) * share / 100) - round(others * share / 100)',
    { others, now, share },
    (v) => Math.round(((v.others + v.now) * v.share) / 100) - Math.round((v.others * v.share) / 100),
  );
}

/** `placed`: bins of each lot in the fills before, which is added to. `certain`: of each lot those that stay, first of all. */
function fillTimes(
  fill: Fill,
  shares: readonly (Share | undefined)[],
  placed: Map<string, number>,
  certain: ReadonlyMap<string, number>,
): Fill {
  const lots = fill.lots
    .map((one, index) => {
      const share = shares[index];
      const before = placed.get(one.lot.value) ?? 0;
      placed.set(one.lot.value, before + one.bins.value);
      if (!share) return one;
      const stays = (certain.get(one.lot.value) ?? 0) - before;
      return {
        ...one,
        bins: stays > 0 ? partToCome(one.bins, share, stays) : partAfter(-stays, one.bins, share),
      };
    })
    .filter(({ bins }) => bins.value > 0);
  return { ...fill, lots };
}

/** The plan with other orders: cartons of every week that is still to come, whole. */
export function withDemand(plan: Plan, share: ShareOf): Plan {
  const first = weekToCome(plan);
  const demand = new Map(
    [...plan.demand].map(([id, one]) => {
      const times = share(one.variety?.value);
      return [id, times ? demandTimes(one, times, first) : one] as const;
    }),
  );
  return { ...plan, demand };
}

function demandTimes(demand: Demand, share: Share, first: Week | undefined): Demand {
  const partly =
    isPartlyPast(demand, first) &&
    changedFrom(demand, first, (week, cartons) => [week, part(cartons, share)]);
  if (partly) return partly;
  return {
    ...demand,
    cartons: demand.cartons && part(demand.cartons, share),
    byWeek: new Map([...demand.byWeek].map(([week, cartons]) => [week, part(cartons, share)])),
  };
}

/** Whether something is wanted before a week, or would be if it moved by so many. */
function isPartlyPast({ weeks }: Demand, first: Week | undefined, by = 0): first is Week {
  return first !== undefined && weeks !== undefined && weeks.value.first + Math.min(0, by) < first;
}

/**
 * The plan with all orders so many weeks later; earlier where below 0. What then lies outside the season is not sold.
 * What was wanted in weeks that are past stays; what moves earlier than the first week to come is wanted in that one.
 */
export function withDemandMoved(plan: Plan, weeks: number): Plan {
  if (weeks === 0) return plan;
  const first = weekToCome(plan);
  const demand = new Map([...plan.demand].map(([id, one]) => [id, demandMoved(one, weeks, first)]));
  return { ...plan, demand };
}

function demandMoved(demand: Demand, by: number, first: Week | undefined): Demand {
  const { weeks, byWeek } = demand;
  const partly =
    isPartlyPast(demand, first, by) && changedFrom(demand, first, (week, cartons) => [week + by, cartons]);
  if (partly) return partly;
  return {
    ...demand,
    weeks: weeks && { ...weeks, value: { first: weeks.value.first + by, last: weeks.value.last + by } },
    byWeek: new Map([...byWeek].map(([week, cartons]): [Week, typeof cartons] => [week + by, cartons])),
  };
}

/** Per cent that a stress test asks for. */
export function askedShare(percent: number, what: string): Share {
  return countedFigure(`${what}, of what the plan has`, '%', percent, 'as asked for');
}
