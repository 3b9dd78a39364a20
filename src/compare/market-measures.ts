import type { ComputedSeason } from '../findings/types';
import type { Week } from '../plan/dates';
import { type WholeSeason, wholeSeasonOf } from '../release/season-whole';
import type { ReleaseProblem } from '../release/types';
import type { Measure } from './measure';
import type { AmountUnit, MeasureKind, Subject } from './types';

/** Less is rounding: amounts of a schedule are not whole. */
const LEAST = 1e-6;

/**
 * What the schedule packs, sells, leaves short and leaves over, week by week, and what it is worth; in weeks
 * that are past what was recorded of it. Where deliveries are not recorded, the past is in neither.
 */
export function marketMeasures({ release, plan }: ComputedSeason): Measure[] {
  if (!release) return [];
  const { problem, result } = release;
  const whole = wholeSeasonOf(problem, result.schedule, plan);
  const season: Subject = { of: 'season' };
  return [
    byWeek('bins-packed', 'bins-packed', season, 'bins', [], problem.firstWeek, whole.packed),
    ...productMeasures(problem, whole),
    { kind: 'value', key: 'value', about: season, unit: 'money', value: whole.value, tags: [] },
  ];
}

/**
 * Money of each variety alone: what is sold and goes to processing, less what is short. The rest of a schedule's value
 * (waiting, risk, uneven work) belongs to no variety.
 */
export function worthByVariety({ release, plan }: ComputedSeason): Map<string, number> {
  const worth = new Map<string, number>();
  if (!release) return worth;
  const { problem, result } = release;
  const { demands, sold: allSold, processed } = wholeSeasonOf(problem, result.schedule, plan);
  const add = (variety: string, money: number) => worth.set(variety, (worth.get(variety) ?? 0) + money);
  demands.forEach((demand, index) => {
    demand.cartons.forEach((wanted, week) => {
      const sold = allSold[index]?.[week] ?? 0;
      const money = sold * demand.price - Math.max(0, wanted - sold) * demand.priceOfShortage;
      add(problem.products[demand.product]?.variety ?? '', money);
    });
  });
  problem.products.forEach(({ variety }, product) => {
    add(variety, sum(processed[product] ?? []) * problem.processingPrice);
  });
  return worth;
}

interface ProductAmounts {
  readonly variety: string;
  readonly packClass: string;
  readonly sold: number[];
  readonly short: number[];
  readonly surplus: number[];
  readonly shortOf: Map<string, number>;
}

function productMeasures(problem: ReleaseProblem, { demands, sold, processed }: WholeSeason): Measure[] {
  const products = new Map<string, ProductAmounts>();
  const of = (product: number): ProductAmounts => {
    const { variety = '', packClass = '' } = problem.products[product] ?? {};
    const key = `${variety}/${packClass}`;
    const none = () => new Array<number>(problem.weeks).fill(0);
    const known = products.get(key) ?? {
      variety,
      packClass,
      sold: none(),
      short: none(),
      surplus: none(),
      shortOf: new Map<string, number>(),
    };
    products.set(key, known);
    return known;
  };
  demands.forEach((demand, index) => {
    const into = of(demand.product);
    demand.cartons.forEach((wanted, week) => {
      const given = sold[index]?.[week] ?? 0;
      into.sold[week] = (into.sold[week] ?? 0) + given;
      // By demand, not by sum: too much of one does not make up for too little of another.
      const short = Math.max(0, wanted - given);
      into.short[week] = (into.short[week] ?? 0) + short;
      if (short > LEAST) into.shortOf.set(demand.id, (into.shortOf.get(demand.id) ?? 0) + short);
    });
  });
  processed.forEach((row, product) => {
    const into = of(product);
    row.forEach((cartons, week) => {
      into.surplus[week] = (into.surplus[week] ?? 0) + cartons;
    });
  });
  return [...products].flatMap(([key, one]) => {
    const about: Subject = { of: 'product', variety: one.variety, packClass: one.packClass };
    const tags = [`variety:${one.variety}`];
    const measure = (kind: MeasureKind, amounts: readonly number[]) =>
      byWeek(kind, `${kind}/${key}`, about, 'cartons', tags, problem.firstWeek, amounts);
    return [
      measure('cartons-sold', one.sold),
      { ...measure('cartons-short', one.short), byOrder: one.shortOf },
      measure('cartons-surplus', one.surplus),
    ];
  });
}

function byWeek(
  kind: MeasureKind,
  key: string,
  about: Subject,
  unit: AmountUnit,
  tags: readonly string[],
  firstWeek: Week,
  amounts: readonly number[],
): Measure {
  const weeks = amounts.flatMap((amount, week) =>
    amount > LEAST ? [[firstWeek + week, amount] as const] : [],
  );
  return {
    kind,
    key,
    about,
    unit,
    tags,
    value: sum(weeks.map(([, amount]) => amount)),
    byWeek: new Map(weeks),
  };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
