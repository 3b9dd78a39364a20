import type { Problem } from '../../plan/problem';
import { entriesOf } from '../../plan/sections';
import { applyScenario } from '../../scenario/apply';
import type { ComputedSeason, Rule } from '../types';

/** What a scenario says that cannot be laid over this plan; names that nothing defines have a finding of their own. */
function* cannotApply({ plan }: ComputedSeason): Iterable<Problem> {
  if (plan.scenarios.size === 0) return;
  const unknown = plan.references.filter(
    ({ scenario, section, id }) => scenario !== undefined && !entriesOf(plan, section).has(id),
  );
  for (const scenario of plan.scenarios.values())
    for (const problem of applyScenario(plan, scenario).problems)
      if (!unknown.some(({ at }) => at.file === problem.at.file && at.start === problem.at.start))
        yield problem;
}

export const scenarioRules: readonly Rule[] = [
  {
    code: 'scenario-cannot-apply',
    family: 'plan',
    severity: 'warning',
    summary: 'A scenario that does not fit the plan it is laid over.',
    find: cannotApply,
  },
];
