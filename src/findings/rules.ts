import { readingCodes } from '../plan/reading-codes';
import { airFirstRules } from './rules/air-first';
import { coolingRules } from './rules/cooling';
import { courseRules } from './rules/course';
import { demandRules } from './rules/demand';
import { disorderRules } from './rules/disorders';
import { expectRules } from './rules/expect';
import { gasRules } from './rules/gas';
import { growerRules } from './rules/growers';
import { humidityRules } from './rules/humidity';
import { keepingRules } from './rules/keeping';
import { nitrogenRules } from './rules/nitrogen';
import { oxygenRules } from './rules/oxygen';
import { planRules } from './rules/plan';
import { plausibleRules } from './rules/plausible';
import { watchRules } from './rules/readings';
import { recordNameRules } from './rules/record-names';
import { recordRules } from './rules/records';
import { releaseRules } from './rules/release';
import { roomRules } from './rules/room';
import { safetyRules } from './rules/safety';
import { scenarioRules } from './rules/scenario';
import { unsoldRules } from './rules/unsold';
import type { Rule } from './types';

/** Codes that reading the plan gives itself, as rules without a search of their own. */
const readingRules: readonly Rule[] = readingCodes.map(({ code, summary, severity }) => ({
  code,
  summary,
  severity,
  family: 'plan',
}));

/** Every rule, a family after the other. */
export const rules: readonly Rule[] = [
  ...readingRules,
  ...planRules,
  ...plausibleRules,
  ...roomRules,
  ...growerRules,
  ...gasRules,
  ...nitrogenRules,
  ...oxygenRules,
  ...courseRules,
  ...humidityRules,
  ...coolingRules,
  ...keepingRules,
  ...disorderRules,
  ...releaseRules,
  ...airFirstRules,
  ...demandRules,
  ...unsoldRules,
  ...expectRules,
  ...scenarioRules,
  ...recordRules,
  ...recordNameRules,
  ...watchRules,
  ...safetyRules,
];

const byCode: ReadonlyMap<string, Rule> = new Map(rules.map((rule) => [rule.code, rule]));

/** The rule of a code. An unknown code is a mistake in this program: it says so. */
export function ruleOf(code: string): Rule {
  const rule = byCode.get(code);
  if (!rule) throw new RangeError(`no rule has the code ${code}`);
  return rule;
}

/** Whether a comment may allow what a rule finds: what cannot be read cannot be allowed, and a caution stays on. */
export function mayBeAllowed({ find, isKept }: Rule): boolean {
  return find !== undefined && !isKept;
}

export function hasRule(code: string): boolean {
  return byCode.has(code);
}
