import { judgeAll } from '../../expect/judge';
import type { Outcome } from '../../expect/types';
import type { Problem } from '../../plan/problem';
import { caution } from '../../room/caution';
import type { ComputedSeason, Rule } from '../types';

/** Promises over what is computed. Those that speak of findings are judged once all others are known. */
function* expectations(season: ComputedSeason): Iterable<Problem> {
  if (season.plan.expectations.size === 0) return;
  for (const outcome of judgeAll(season)) if (!isOfFindings(outcome)) yield* problemOf(outcome);
}

/** The same of promises that speak of findings: `findings` are those that stand. */
export function expectationsOfFindings(
  season: ComputedSeason,
  findings: readonly { readonly code: string; readonly message: string }[],
  isCode: (code: string) => boolean,
): Problem[] {
  if (![...season.plan.expectations.values()].some(({ claims }) => claims[0]?.kind === 'no-finding'))
    return [];
  return judgeAll(season, { findings, isCode }).flatMap((outcome) =>
    isOfFindings(outcome) ? problemOf(outcome) : [],
  );
}

function isOfFindings({ expectation: { claims } }: Outcome): boolean {
  return claims.length === 1 && claims[0]?.kind === 'no-finding';
}

function problemOf({ expectation, claim, opening, verdict }: Outcome): Problem[] {
  const { id, because, at } = expectation;
  if (verdict.state === 'kept') return [];
  if (verdict.state === 'not judged')
    return [
      {
        code: 'expectation-not-judged',
        message: `The expectation ${id} cannot be judged. ${verdict.why}`,
        at: verdict.at,
        about: id,
      },
    ];
  const why = because === undefined ? '' : ` Promised because: ${because.replace(/\.$/, '')}.`;
  const cures = verdict.cures.map(({ text }) => ` ${text}`).join('');
  return [
    {
      code: 'expectation-broken',
      message: `${id} is broken (${claim}). ${verdict.why}${cures}${why}${opening ? ` ${caution}` : ''}`,
      at: verdict.at,
      related: at.start === verdict.at.start ? [] : [{ at, message: `${id} stands here` }],
      about: id,
      fixes: verdict.cures.flatMap(({ fixes }) => fixes),
    },
  ];
}

export const expectRules: readonly Rule[] = [
  {
    code: 'expectation-broken',
    family: 'plan',
    severity: 'warning',
    summary: 'A promise of the plan that is not kept.',
    find: expectations,
  },
  {
    code: 'expectation-not-judged',
    family: 'plan',
    severity: 'notice',
    summary: 'A promise of the plan that cannot be held against anything.',
    find: () => [],
  },
];
