import type { Problem, Severity } from '../plan/problem';
import { withShortWords } from '../plan/shortened';
import { isTooLate } from './happened';
import { hasRule, ruleOf, rules } from './rules';
import { expectationsOfFindings } from './rules/expect';
import type { ComputedSeason, Finding, Rule } from './types';

export type SeverityChoice = Severity | 'off';

export interface FindOptions {
  /** Severity by rule code as the editor's settings have it; the plan's own policy wins over it. */
  readonly severities?: ReadonlyMap<string, SeverityChoice>;
}

const NO_PLACES: Finding['related'] = [];
const NO_FIXES: Finding['fixes'] = [];

const RANK: Readonly<Record<Severity, number>> = { error: 0, warning: 1, notice: 2 };

/** All findings of a computed season, in the order of their places. The same season gives the same list. */
export function findingsOf(season: ComputedSeason, options: FindOptions = {}): Finding[] {
  const problems: Problem[] = [];
  for (const rule of rules) problems.push(...foundBy(rule, season));
  return findingsAmong(season, problems, options);
}

/** All that a rule finds in a season. */
export function foundBy({ find, findBeside }: Rule, season: ComputedSeason): Problem[] {
  return [...(find?.(season) ?? []), ...(findBeside?.(season) ?? [])];
}

/** The same where the rules have been run already: `problems` is what they found, in any order. */
export function findingsAmong(
  season: ComputedSeason,
  ofRules: readonly Problem[],
  options: FindOptions,
): Finding[] {
  const problems = [...season.plan.problems, ...unknownRules(season), ...keptOn(season), ...ofRules];
  const used = new Set<number>();
  const kept = withoutAllowed(season, problems, used).filter((problem) => !isTooLate(season.plan, problem));
  const shown = kept.flatMap((problem) => toFinding(season, problem, options));
  // Promises that speak of findings are held against those that stand.
  const promised = withoutAllowed(season, expectationsOfFindings(season, shown, hasRule), used);
  const last = [...promised, ...unusedAllowances(season, used)];
  const found = [...shown, ...last.flatMap((problem) => toFinding(season, problem, options))];
  found.sort(
    (a, b) =>
      compareText(a.at.file, b.at.file) ||
      a.at.start - b.at.start ||
      RANK[a.severity] - RANK[b.severity] ||
      compareText(a.code, b.code) ||
      compareText(a.message, b.message) ||
      compareText(a.fingerprint, b.fingerprint),
  );
  return withDistinctFingerprints(found);
}

function toFinding(season: ComputedSeason, problem: Problem, options: FindOptions): Finding[] {
  const rule = ruleOf(problem.code);
  const asked = season.plan.policy.findings.get(problem.code)?.value ?? options.severities?.get(problem.code);
  const chosen = rule.isKept && asked === 'off' ? undefined : asked;
  // What cannot be read cannot be wished away: such codes keep their severity.
  const severity = rule.find ? (chosen ?? problem.severity ?? rule.severity) : rule.severity;
  if (severity === 'off') return [];
  return [
    {
      code: problem.code,
      family: rule.family,
      severity,
      message: shown(problem.message),
      at: problem.at,
      related: problem.related ?? NO_PLACES,
      fixes: problem.fixes ?? NO_FIXES,
      fingerprint: `${problem.code}:${problem.about ?? problem.at.file}`,
    },
  ];
}

/** More letters than a message has unless a name in it is very long. */
const LONG_MESSAGE = 500;

/** A message as people read it. A name may be as long as its file. */
function shown(message: string): string {
  return message.length > LONG_MESSAGE ? withShortWords(message) : message;
}

/** Codes in the plan's policy that no rule has. */
function* unknownRules({ plan }: ComputedSeason): Iterable<Problem> {
  for (const [code, { at }] of plan.policy.findings)
    if (!hasRule(code))
      yield {
        code: 'unknown-rule',
        message: `No rule has the code \`${code}\`, so this line changes nothing. \`lotwright explain findings\` lists the codes.`,
        at,
        about: code,
      };
}

/** Lines of the policy that would turn a caution off. */
function* keptOn({ plan }: ComputedSeason): Iterable<Problem> {
  for (const [code, { value, at }] of plan.policy.findings)
    if (value === 'off' && hasRule(code) && ruleOf(code).isKept)
      yield {
        code: 'allowance-unused',
        message: `\`${code}\` is a caution and stays on: this line changes nothing. Take it out.`,
        at,
        about: code,
      };
}

/** Findings that a comment allows are left out, and the comments noted by their index. */
function withoutAllowed(
  season: ComputedSeason,
  problems: readonly Problem[],
  used: Set<number>,
): readonly Problem[] {
  return problems.filter((problem) => {
    const { find, isKept } = ruleOf(problem.code);
    if (!find || isKept) return true;
    const index = season.plan.allowances.findIndex(
      ({ code, covers }) =>
        code === problem.code &&
        covers.file === problem.at.file &&
        covers.start <= problem.at.start &&
        problem.at.start <= covers.end,
    );
    if (index < 0) return true;
    used.add(index);
    return false;
  });
}

/** A comment that allows nothing is itself a finding. */
function unusedAllowances(season: ComputedSeason, used: ReadonlySet<number>): Problem[] {
  return season.plan.allowances
    .filter((_, index) => !used.has(index))
    .map(
      (allowance): Problem => ({
        code: 'allowance-unused',
        message:
          hasRule(allowance.code) && ruleOf(allowance.code).isKept
            ? `This comment allows \`${allowance.code}\`, which is a caution and stays on. Remove the comment.`
            : `This comment allows \`${allowance.code}\`, but there is no such finding here. Remove the comment, or check the code's spelling and the line.`,
        at: allowance.at,
        about: `${allowance.at.file}:${allowance.code}`,
        fixes: [{ title: 'Remove the comment', edits: [{ at: allowance.at, newText: '' }] }],
      }),
    );
}

/** Two findings about the same thing are told apart by their order. */
function withDistinctFingerprints(findings: readonly Finding[]): Finding[] {
  const seen = new Map<string, number>();
  return findings.map((finding) => {
    const count = (seen.get(finding.fingerprint) ?? 0) + 1;
    seen.set(finding.fingerprint, count);
    return count === 1 ? finding : { ...finding, fingerprint: `${finding.fingerprint}#${count}` };
  });
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
