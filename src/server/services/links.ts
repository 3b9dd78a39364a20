import { hasRule } from '../../findings/rules';
import type { Plan } from '../../plan/model';
import type { Span } from '../../plan/span';

/** Text that leads to the page of a finding. */
export interface PageLink {
  readonly at: Span;
  readonly code: string;
}

/** Codes of findings in one file, where they are allowed or given a severity, as links to their pages. */
export function pageLinksOf(plan: Plan, file: string): PageLink[] {
  const text = plan.files.get(file)?.text ?? '';
  const allowed = plan.allowances
    .filter(({ at, code }) => at.file === file && hasRule(code))
    .flatMap(({ at, code }) => {
      const start = text.indexOf(code, at.start);
      return start < 0 || start > at.end ? [] : [{ at: { file, start, end: start + code.length }, code }];
    });
  const set = plan.policy.places?.entries?.get('findings')?.entries ?? new Map();
  const severities = [...set].flatMap(([code, { key }]) =>
    key && key.file === file && hasRule(code) ? [{ at: key, code }] : [],
  );
  return [...allowed, ...severities];
}

/** Text that names a file beside the plan, from the folder of the plan file that names it. */
export interface FileLink {
  readonly at: Span;
  readonly file: string;
}

/** Files of readings that one file of the plan names. */
export function fileLinksOf(plan: Plan, file: string): FileLink[] {
  return [...plan.readings.values()].flatMap(({ file: named }) =>
    named && named.at.file === file && named.value !== '' ? [{ at: named.at, file: named.value }] : [],
  );
}
