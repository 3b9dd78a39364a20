import type { ComputedSeason } from '../findings/types';
import { formatWeek } from '../plan/dates';
import { fixed } from '../plan/display';
import { counted } from '../plan/wording';
import { demandWanted } from '../release/demand-wanted';
import { toldOf } from '../release/season-whole';
import { LEAST_AMOUNT } from './amounts';
import { weekRanges } from './text-cells';
import type { SupplySeries } from './timeline-types';
import type { TimeAxis } from './timeline-weeks';

/** Name of the series of all products together. */
export const ALL_VARIETIES = 'All varieties';

/** Cartons by week on the axis, of one variety or of all. */
interface Amounts {
  readonly demand: number[];
  readonly supply: number[];
  readonly surplus: number[];
  readonly short: number[];
}

/** A variety's cartons by pack class. */
type ByClass = ReadonlyMap<string, Amounts>;

type AmountsOf = (variety: string, packClass: string) => Amounts;

/**
 * Demand and supply of all varieties together, then of each in the order of their names; behind a variety that is
 * asked for in several pack classes those classes, in the order of the plan's text.
 */
export function supplySeries(season: ComputedSeason, axis: TimeAxis): SupplySeries[] {
  const byVariety = new Map<string, Map<string, Amounts>>();
  const amounts: AmountsOf = (variety, packClass) => {
    const classes = byVariety.get(variety) ?? new Map<string, Amounts>();
    byVariety.set(variety, classes);
    const known = classes.get(packClass) ?? noAmounts(axis.weeks);
    classes.set(packClass, known);
    return known;
  };
  if (season.release) addSchedule(season, season.release, axis, amounts);
  else
    for (const wanted of demandWanted(season.plan, axis.firstWeek, axis.weeks))
      add(amounts(wanted.variety, wanted.packClass).demand, wanted.cartons);
  if (byVariety.size === 0) return [];
  const computed = season.release !== undefined;
  const told = (name: string, of: readonly Amounts[]) => series(name, together(of, axis), axis, computed);
  const varieties = [...byVariety].sort(([a], [b]) => (a < b ? -1 : 1));
  return [
    told(
      ALL_VARIETIES,
      varieties.flatMap(([, classes]) => [...classes.values()]),
    ),
    ...varieties.flatMap(([variety, classes]) => [
      told(variety, [...classes.values()]),
      ...classesApart(classes).map(([packClass, one]) => told(`${variety}, ${packClass}`, [one])),
    ]),
  ];
}

/** The classes that are wanted or sold; none where there is but one, which is the variety itself. */
function classesApart(classes: ByClass): [string, Amounts][] {
  const asked = [...classes].filter(([, { demand, supply }]) => sum(demand) > 0 || sum(supply) > 0);
  return asked.length > 1 ? asked : [];
}

function together(parts: readonly Amounts[], axis: TimeAxis): Amounts {
  const all = noAmounts(axis.weeks);
  for (const one of parts)
    for (const key of ['demand', 'supply', 'surplus', 'short'] as const) add(all[key], one[key]);
  return all;
}

function addSchedule(
  { plan }: Pick<ComputedSeason, 'plan'>,
  { problem, result }: NonNullable<ComputedSeason['release']>,
  axis: TimeAxis,
  amounts: AmountsOf,
): void {
  const shift = problem.firstWeek - axis.firstWeek;
  const { processed } = result.schedule;
  const { demands, sold } = toldOf(problem, result.schedule, plan);
  demands.forEach((demand, at) => {
    const { variety = '', packClass = '' } = problem.products[demand.product] ?? {};
    const into = amounts(variety, packClass);
    const given = demand.cartons.map((_, week) => sold[at]?.[week] ?? 0);
    add(into.demand, demand.cartons, shift);
    add(into.supply, given, shift);
    // By demand, not by sum: too much of one class does not make up for too little of another.
    add(
      into.short,
      demand.cartons.map((cartons, week) => Math.max(0, cartons - (given[week] ?? 0))),
      shift,
    );
  });
  problem.products.forEach(({ variety, packClass }, product) => {
    if (processed[product]?.some((cartons) => cartons >= LEAST_AMOUNT))
      add(amounts(variety, packClass).surplus, processed[product] ?? [], shift);
  });
}

function series(name: string, amounts: Amounts, axis: TimeAxis, computed: boolean): SupplySeries {
  const short = amounts.short.flatMap((cartons, week) => (cartons >= LEAST_AMOUNT ? [week] : []));
  return {
    name,
    unit: 'cartons a week',
    demand: amounts.demand.map(tidy),
    supply: computed ? amounts.supply.map(tidy) : [],
    ...(computed && { surplus: amounts.surplus.map(tidy) }),
    short: computed ? short : [],
    description: describe(name, amounts, short, axis, computed),
  };
}

function describe(
  name: string,
  { demand, supply, surplus, short }: Amounts,
  weeks: readonly number[],
  { firstWeek }: TimeAxis,
  computed: boolean,
): string {
  const wanted = `${counted(sum(demand), 'carton')} wanted`;
  if (!computed) return `${name}: ${wanted}. No release schedule, so no supply.`;
  const processed = sum(surplus) >= LEAST_AMOUNT ? `, ${fixed(sum(surplus), 0)} to processing` : '';
  const sold = `${wanted}, ${fixed(sum(supply), 0)} supplied${processed}.`;
  if (weeks.length === 0) return `${name}: no week is short. ${sold}`;
  const ranges = weekRanges(weeks.map((index) => ({ index, label: formatWeek(firstWeek + index) })));
  const worst = weeks.reduce((a, b) => ((short[b] ?? 0) > (short[a] ?? 0) ? b : a));
  const most =
    weeks.length === 1 ? '' : `; most in ${formatWeek(firstWeek + worst)}, ${fixed(short[worst] ?? 0, 0)}`;
  // What is short comes first: it is what a planner looks for, and narrow places show only the beginning.
  return `${name}: short by ${fixed(sum(short), 0)} in ${counted(weeks.length, 'week')}${most}. ${sold} Short weeks: ${ranges}.`;
}

function noAmounts(weeks: number): Amounts {
  const zeros = () => Array.from({ length: weeks }, () => 0);
  return { demand: zeros(), supply: zeros(), surplus: zeros(), short: zeros() };
}

/** Adds amounts to those of the weeks `shift` later; what lies off the axis is left out. */
function add(into: number[], amounts: readonly number[], shift = 0): void {
  amounts.forEach((amount, week) => {
    const known = into[week + shift];
    if (known !== undefined) into[week + shift] = known + amount;
  });
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** Whole cartons are what people count; a hundredth keeps sums true. */
function tidy(value: number): number {
  return Math.round(value * 100) / 100;
}
