import { canonicalName } from '../fruit/data';
import type { Week } from '../plan/dates';
import { compute, countedFigure, type Figure, type Unit } from '../plan/figure';
import type { Demand, Fill, Lot, Plan } from '../plan/model';

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

/** The plan with another crop: every lot's bins, and those of it in each fill, whole. A fill loses lots of no bin. */
export function withCrop(plan: Plan, share: ShareOf): Plan {
  const lots = new Map(
    [...plan.lots].map(([id, lot]) => {
      const times = share(lot.variety?.value);
      return [id, times ? lotTimes(lot, times) : lot] as const;
    }),
  );
  const placed = new Map<string, number>();
  const fills = new Map(
    [...plan.fills].map(([id, fill]) => {
      const shares = fill.lots.map(({ lot }) => share(plan.lots.get(lot.value)?.variety?.value));
      return [id, shares.every((one) => one === undefined) ? fill : fillTimes(fill, shares, placed)] as const;
    }),
  );
  return { ...plan, lots, fills };
}

function lotTimes(lot: Lot, share: Share): Lot {
  return {
    ...lot,
    expectedBins: lot.expectedBins && part(lot.expectedBins, share),
    receivedBins: lot.receivedBins && part(lot.receivedBins, share),
  };
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

/** `placed`: bins of each lot in the fills before, which is added to. */
function fillTimes(fill: Fill, shares: readonly (Share | undefined)[], placed: Map<string, number>): Fill {
  const lots = fill.lots
    .map((one, index) => {
      const share = shares[index];
      const before = placed.get(one.lot.value) ?? 0;
      placed.set(one.lot.value, before + one.bins.value);
      return share ? { ...one, bins: partAfter(before, one.bins, share) } : one;
    })
    .filter(({ bins }) => bins.value > 0);
  return { ...fill, lots };
}

/** The plan with other orders: cartons of every week, whole. */
export function withDemand(plan: Plan, share: ShareOf): Plan {
  const demand = new Map(
    [...plan.demand].map(([id, one]) => {
      const times = share(one.variety?.value);
      return [id, times ? demandTimes(one, times) : one] as const;
    }),
  );
  return { ...plan, demand };
}

function demandTimes(demand: Demand, share: Share): Demand {
  return {
    ...demand,
    cartons: demand.cartons && part(demand.cartons, share),
    byWeek: new Map([...demand.byWeek].map(([week, cartons]) => [week, part(cartons, share)])),
  };
}

/** The plan with all orders so many weeks later; earlier where below 0. What then lies outside the season is not sold. */
export function withDemandMoved(plan: Plan, weeks: number): Plan {
  if (weeks === 0) return plan;
  const demand = new Map([...plan.demand].map(([id, one]) => [id, demandMoved(one, weeks)]));
  return { ...plan, demand };
}

function demandMoved(demand: Demand, by: number): Demand {
  const { weeks, byWeek } = demand;
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
