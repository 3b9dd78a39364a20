import { mayBeAllowed, rules } from '../../findings/rules';
import type { Finding } from '../../findings/types';
import type { Plan } from '../../plan/model';
import type { CompletionItem } from './completion-types';
import type { PlacePoint } from './entries';
import { lineStartOf } from './key-scan';

/** A comment up to the code that it allows, as far as that is written. */
const BEGUN = /#[ \t]*lotwright[ \t]*:[ \t]*allow[ \t]+([a-z0-9-]*)$/;
const LONGEST_LINE = 2000;

/**
 * What a comment `# lotwright: allow` can allow: the findings of its own line, or of the line below where it stands
 * alone, then all others. Undefined where no such comment is being written.
 */
export function allowancesAt(
  plan: Plan,
  { file, offset }: PlacePoint,
  findings: readonly Finding[],
): CompletionItem[] | undefined {
  const text = plan.files.get(file)?.text;
  const lineStart = text === undefined ? 0 : lineStartOf(text, offset);
  if (text === undefined || offset - lineStart > LONGEST_LINE) return undefined;
  const before = text.slice(lineStart, offset);
  const begun = BEGUN.exec(before);
  if (!begun) return undefined;
  const [start, end] = covered(text, lineStart, /^\s*$/.test(before.slice(0, begun.index)));
  const here = new Set(
    findings
      .filter(({ at }) => at.file === file && at.start < end && start <= at.start)
      .map(({ code }) => code),
  );
  const rest = /^[a-z0-9-]*/.exec(text.slice(offset, offset + LONGEST_LINE))?.[0].length ?? 0;
  const at = { file, start: offset - (begun[1]?.length ?? 0), end: offset + rest };
  const hasReason = /^[ \t]*--/.test(text.slice(at.end, at.end + LONGEST_LINE));
  return rules
    .filter(mayBeAllowed)
    .toSorted((a, b) => Number(here.has(b.code)) - Number(here.has(a.code)))
    .map(({ code, summary }, order) => ({
      label: code,
      kind: 'value',
      detail: here.has(code) ? 'told here' : '',
      documentation: summary,
      newText: hasReason ? code : `${code} -- `,
      at,
      order,
    }));
}

/** The line that a comment speaks of: its own, or the next with content where it has a line to itself. */
function covered(text: string, lineStart: number, isAlone: boolean): readonly [start: number, end: number] {
  const content = /\n(?![ \t]*(?:#|\r?\n|$))/g;
  content.lastIndex = lineStart;
  const start = isAlone ? (content.exec(text)?.index ?? text.length) + 1 : lineStart;
  const feed = text.indexOf('\n', start);
  return [start, feed < 0 ? text.length : feed];
}
