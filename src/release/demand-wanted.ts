import type { Week } from '../plan/dates';
import type { Demand, Plan } from '../plan/model';
import type { ProblemDemand } from './types';

/** A demand of the plan spread over the season's weeks, its product still named. */
export interface WantedDemand extends Omit<ProblemDemand, 'product' | 'from'> {
  readonly variety: string;
  readonly packClass: string;
  /** Firmness the buyer accepts at least, newtons. */
  readonly leastFirmness?: number;
}

/** Every demand that says what is wanted, when, how much and at what price; the others are left out. */
export function demandWanted(plan: Plan, firstWeek: Week, weeks: number): WantedDemand[] {
  return [...plan.demand.values()].flatMap((demand) => {
    const wanted = oneWanted(demand, firstWeek, weeks);
    return wanted ? [wanted] : [];
  });
}

function oneWanted(demand: Demand, firstWeek: Week, weeks: number): WantedDemand | undefined {
  const { variety, packClass, price } = demand;
  if (!variety || !packClass || !demand.weeks || !price) return undefined;
  const cartons = Array.from({ length: weeks }, (_, week) => cartonsIn(demand, firstWeek + week));
  if (!cartons.some((wanted) => wanted > 0)) return undefined;
  return {
    id: demand.id,
    market: demand.market?.value ?? '',
    variety: variety.value,
    packClass: packClass.value,
    cartons,
    price: Math.max(0, price.value),
    priceOfShortage: Math.max(0, demand.priceOfShortage?.value ?? price.value / 2),
    ...(demand.leastFirmness && { leastFirmness: demand.leastFirmness.value }),
  };
}

/** A week named under `by-week` overrides the usual cartons; outside its weeks a demand wants nothing. */
function cartonsIn(demand: Demand, week: Week): number {
  const span = demand.weeks?.value;
  if (!span || week < span.first || week > span.last) return 0;
  const wanted = (demand.byWeek.get(week) ?? demand.cartons)?.value ?? 0;
  return Number.isFinite(wanted) ? Math.max(0, wanted) : 0;
}
