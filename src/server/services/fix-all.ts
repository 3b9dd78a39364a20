import type { Finding } from '../../findings/types';
import type { Plan } from '../../plan/model';
import { isSlip } from '../../plan/nearest';
import type { TextEdit } from '../../plan/problem';
import { readingCodes } from '../../plan/reading-codes';

/** Where these stand, much else that is found follows from them alone, and its fixes would write what nobody meant. */
const OF_LAYOUT: ReadonlySet<string> = new Set(['tab-indent', 'line-ending']);
const BREAKS: ReadonlySet<string> = new Set(['tab-indent', 'yaml-syntax', 'merge-conflict', 'duplicate-key']);
const OF_READING: ReadonlySet<string> = new Set(readingCodes.map(({ code }) => code));

/**
 * The edits of every slip of writing in a file that has one fix only, so that there is nothing to choose: editors make
 * them unasked when a file is saved. So none is among them that decides anything of the plan, as moving a pin would, and
 * none that may cure what only follows from another slip. Where two would change the same text the first one counts; the
 * other is offered again once it is made.
 */
export function fixAllEdits(plan: Plan, findings: readonly Finding[], file: string): TextEdit[] {
  const isBroken = findings.some(({ code }) => BREAKS.has(code));
  const edits: TextEdit[] = [];
  for (const { code, at, fixes } of findings) {
    const [only, ...others] = fixes;
    if (at.file !== file || !only || others.length > 0) continue;
    const isWanted = isBroken
      ? OF_LAYOUT.has(code)
      : OF_READING.has(code) || (code === 'unknown-reference' && isMisspelt(plan, only.edits));
    if (!isWanted) continue;
    const meets = only.edits.some((edit) => edits.some((made) => overlap(made, edit)));
    if (!meets) edits.push(...only.edits);
  }
  return edits;
}

/** Whether a name differs by one letter from the one it is to become, in a plan of which all else could be read. */
function isMisspelt(plan: Plan, edits: readonly TextEdit[]): boolean {
  if (plan.problems.length > 0) return false;
  return edits.every(({ at, newText }) =>
    isSlip(plan.files.get(at.file)?.text.slice(at.start, at.end) ?? '', newText),
  );
}

function overlap({ at: one }: TextEdit, { at: other }: TextEdit): boolean {
  return one.file === other.file && one.start <= other.end && other.start <= one.end;
}
