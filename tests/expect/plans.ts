import { judgeAll } from '../../src/expect/judge';
import type { Outcome } from '../../src/expect/types';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { hasRule } from '../../src/findings/rules';
import type { ComputedSeason } from '../../src/findings/types';
import { readPlan } from '../../src/plan/read';
import { sampleFiles } from '../samples/sample';

const first = sampleFiles('first-season');

/** The first season with such promises (`name: { … }` lines, two spaces in front). */
export function seasonWith(expect: string): ComputedSeason {
  const text = `lotwright: 1\nexpect:\n${expect}\n`;
  return computeSeason(readPlan([...first, { path: 'expect.lotplan.yaml', text }]), { courses: true });
}

export function outcomes(season: ComputedSeason, thorough = false): Map<string, Outcome> {
  const findings = findingsOf(season).filter(({ code }) => !code.startsWith('expectation-'));
  const all = judgeAll(season, { thorough, findings, isCode: hasRule });
  return new Map(all.map((one) => [one.expectation.id, one]));
}

/** What came of one promise. */
export function judged(claim: string, thorough = false): Outcome {
  const season = seasonWith(`  one: ${claim}`);
  const problems = season.plan.problems.map(({ message }) => message);
  if (problems.length > 0) throw new Error(problems.join('\n'));
  const found = outcomes(season, thorough).get('one');
  if (!found) throw new Error('no outcome');
  return found;
}
