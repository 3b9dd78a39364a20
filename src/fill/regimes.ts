import { regimeSuits } from '../fruit/data';
import type { FruitData, Regime, Variety } from '../fruit/types';
import type { Plan } from '../plan/model';
import type { RegimeChoice } from './types';
import { lowCarbonDioxide } from './weights';

/**
 * The regimes to offer a variety: those the plan defines for it, and those its fills keep it in already; where there
 * are none, the usual built-in ones, sealed and in air. A rarer built-in regime is the planner's to choose.
 */
export function regimesFor(plan: Plan, fruit: FruitData, variety: Variety): string[] {
  const inFills = [...plan.fills.values()].flatMap(({ regime }) => (regime ? [regime.value] : []));
  const own = known(fruit, [...plan.regimes.keys(), ...inFills]).filter((regime) =>
    regimeSuits(regime, variety),
  );
  if (own.length > 0) return namesOf(own);
  const builtIn = known(fruit, variety.regimes);
  const sealed = builtIn.find(({ oxygen }) => oxygen !== undefined);
  const inAir = builtIn.find(({ oxygen }) => oxygen === undefined);
  return namesOf([sealed, inAir].filter((regime) => regime !== undefined));
}

export function regimeChoices(names: readonly string[], fruit: FruitData): RegimeChoice[] {
  return known(fruit, names).map(({ name, oxygen, carbonDioxide, conditioning }) => ({
    name,
    sealed: oxygen !== undefined,
    lowCarbonDioxide: oxygen !== undefined && (carbonDioxide?.value ?? lowCarbonDioxide) < lowCarbonDioxide,
    conditioningDays: Math.ceil(conditioning?.lasts.value ?? 0),
  }));
}

function known(fruit: FruitData, names: readonly string[]): Regime[] {
  return names.map((name) => fruit.regime(name)).filter((regime) => regime !== undefined);
}

function namesOf(regimes: readonly Regime[]): string[] {
  return [...new Set(regimes.map(({ name }) => name))];
}
