import { isSingleSection, itemName } from '../plan/check/item-kinds';
import type { Plan } from '../plan/model';
import type { Problem } from '../plan/problem';
import type { Overlay, Scenario } from '../plan/scenario-model';
import { shareOf, withCrop, withDemand, withDemandMoved } from './factors';
import { isLaidKind, laidEntry, MAP_OF, standingText, wholeOf } from './laid-entry';
import { cannotApply } from './problems';
import { withoutTakenOut, withoutText } from './take-out';
import type { Overlaid } from './types';
import { withinPlaces } from './within-places';

/**
 * The plan with a scenario laid over it, as if its text had been edited so: entries are changed key by key and
 * added, what is taken out is gone, then crop and demand are multiplied and orders moved; of a larger
 * crop a room takes what it has places for. The plan itself stays as it is. Never
 * throws: what cannot be laid over it is told at its place in the scenario, and the rest is.
 */
export function applyScenario(plan: Plan, scenario: Scenario): Overlaid {
  // What has been laid over the plan is no scenario of it any more.
  const own = {
    ...plan,
    scenarios: new Map(),
    references: plan.references.filter((one) => one.scenario === undefined),
  };
  const problems: Problem[] = [];
  let now: Plan = own;
  for (const overlay of scenario.overlays) {
    const laid = laidOver(now, scenario, overlay);
    if ('code' in laid) problems.push(laid);
    else now = laid;
  }
  const taken = withoutTakenOut(now, scenario);
  problems.push(...taken.problems);
  now = withinPlaces(withCrop(taken.plan, shareOf(scenario.crop, scenario.cropOf)), taken.plan);
  now = withDemand(now, shareOf(scenario.demand, scenario.demandOf));
  const weeks = wholeWeeks(scenario.demandLater?.value) - wholeWeeks(scenario.demandEarlier?.value);
  return { plan: withDemandMoved(now, weeks), problems };
}

function wholeWeeks(days: number | undefined): number {
  return Math.round((days ?? 0) / 7);
}

/** The plan with one entry changed or added; or why that cannot be. */
function laidOver(plan: Plan, scenario: Scenario, overlay: Overlay): Plan | Problem {
  const { kind, id, how, at, value } = overlay;
  const base = standingText(plan, kind, id);
  const name = isSingleSection(kind) ? `\`${kind}\`` : `${itemName(kind)} ${id}`;
  if (how === 'add' && base)
    return cannotApply(
      scenario,
      at,
      `The plan has the ${name} already. Write what differs under \`change\`.`,
    );
  // Built-in varieties and regimes are changed by laying own values over them, as in the plan.
  const mayBeNew = kind === 'varieties' || kind === 'regimes' || isSingleSection(kind);
  if (how === 'change' && !base && !mayBeNew)
    return cannotApply(
      scenario,
      at,
      `The plan has no ${name} to change. Correct the name, or write it whole under \`add\`.`,
    );
  const laid = laidEntry(plan, kind, base, wholeOf(at, value));
  if (!laid)
    return cannotApply(scenario, at, `The ${name} cannot be read while there are mistakes in its text.`);
  const without = base ? withoutText(plan, base) : plan;
  const changed = { ...without, ...withItem(plan, kind, id, laid.item.value) };
  return {
    ...changed,
    references: [...changed.references, ...laid.references],
    // Comments still allow what they allowed.
    allowances: plan.allowances,
    problems: [...changed.problems, ...laid.problems.filter((one) => !isTold(plan, one))],
  };
}

/** What is wrong in the scenario's own text has been told when it was read. */
function isTold({ problems }: Plan, { code, at }: Problem): boolean {
  return problems.some((one) => one.code === code && one.at.file === at.file && one.at.start === at.start);
}

function withItem(plan: Plan, kind: Overlay['kind'], id: string, value: unknown): Partial<Plan> {
  if (!isLaidKind(kind)) return { [kind]: value };
  // Of an entry that is changed the place among the others stays.
  return { [MAP_OF[kind]]: new Map([...plan[MAP_OF[kind]], [id, value]] as [string, never][]) };
}
