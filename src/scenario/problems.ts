import type { Problem } from '../plan/problem';
import type { Scenario } from '../plan/scenario-model';
import type { Span } from '../plan/span';

/** Something that a scenario says and that cannot be laid over the plan. */
export function cannotApply({ id }: Scenario, at: Span, why: string): Problem {
  return {
    code: 'scenario-cannot-apply',
    message: `The scenario ${id} cannot be laid over the plan as it is written. ${why}`,
    at,
    about: `${id}/${why.slice(0, 80)}`,
  };
}
