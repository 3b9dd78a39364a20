import { mayBeAllowed, ruleOf } from '../../findings/rules';
import type { Finding } from '../../findings/types';
import { lineAt, lineEnd, lineEndingOf } from '../../plan/lines';
import type { Plan } from '../../plan/model';
import type { TextEdit } from '../../plan/problem';
import type { Span } from '../../plan/span';

/** Something the planner can do about a finding. */
export interface FindingAction {
  readonly title: string;
  readonly finding: Finding;
  readonly kind: 'fix' | 'allow' | 'page';
  readonly edits: readonly TextEdit[];
}

/** What can be done about the findings that touch the span: their fixes first, then allowing them, then reading on. */
export function actionsAt(plan: Plan, findings: readonly Finding[], span: Span): FindingAction[] {
  const touched = findings.filter(
    ({ at }) => at.file === span.file && at.start <= span.end && span.start <= at.end,
  );
  const fixes = touched.flatMap((finding) =>
    finding.fixes.map(({ title, edits }): FindingAction => ({ title, finding, kind: 'fix', edits })),
  );
  const allowed = touched
    .filter(({ code }) => mayBeAllowed(ruleOf(code)))
    .map(
      (finding): FindingAction => ({
        title: `Allow ${finding.code} here, with a reason`,
        finding,
        kind: 'allow',
        edits: [allowance(plan, finding.at, finding.code, 'say why')],
      }),
    );
  const pages = touched.map(
    (finding): FindingAction => ({
      title: `What ${finding.code} means`,
      finding,
      kind: 'page',
      edits: [],
    }),
  );
  return [...fixes, ...distinct(allowed), ...distinct(pages)];
}

/** The edit that allows a finding: a comment at the end of its line, or above it where the line has one already. */
export function allowance(plan: Plan, at: Span, code: string, reason: string): TextEdit {
  const file = plan.files.get(at.file);
  const comment = `# lotwright: allow ${code} -- ${reason.replace(/\s+/g, ' ').trim()}`;
  if (!file) return { at: { file: at.file, start: 0, end: 0 }, newText: `${comment}\n` };
  const { text, lineStarts } = file;
  const line = lineAt(lineStarts, at.start);
  const start = lineStarts[line] ?? 0;
  const end = lineEnd(text, lineStarts, line);
  const written = text.slice(start, end);
  if (!/(^|\s)#/.test(written) && written.trim() !== '')
    return { at: { file: at.file, start: end, end }, newText: ` ${comment}` };
  const indent = /^\s*/.exec(written)?.[0] ?? '';
  return { at: { file: at.file, start, end: start }, newText: `${indent}${comment}${lineEndingOf(text)}` };
}

function distinct(actions: readonly FindingAction[]): FindingAction[] {
  return [...new Map(actions.map((action) => [action.title, action])).values()];
}
