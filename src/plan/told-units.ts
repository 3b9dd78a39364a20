import type { DisplayUnits, UnitSystem } from './display';
import type { Plan } from './model';

/** The units that what is said of a plan is told in: those asked for, or as its season says. */
export function toldUnits({ toldIn, season }: Pick<Plan, 'season' | 'toldIn'>): DisplayUnits {
  return { system: toldIn ?? season?.units ?? 'metric', currency: season?.currency ?? 'money' };
}

/** The plan told in the units asked for, findings and promises too; as it is where none are asked for. */
export function toldIn(plan: Plan, system: UnitSystem | undefined): Plan {
  return system === undefined ? plan : { ...plan, toldIn: system };
}
