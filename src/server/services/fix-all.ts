import type { Finding } from '../../findings/types';
import type { TextEdit } from '../../plan/problem';

/**
 * The edits of every finding in a file that has one fix only, so that there is nothing to choose. Where two would change
 * the same text the first one counts; the other is offered again once it is made.
 */
export function fixAllEdits(findings: readonly Finding[], file: string): TextEdit[] {
  const edits: TextEdit[] = [];
  for (const { at, fixes } of findings) {
    const [only, ...others] = fixes;
    if (at.file !== file || !only || others.length > 0) continue;
    const meets = only.edits.some((edit) => edits.some((made) => overlap(made, edit)));
    if (!meets) edits.push(...only.edits);
  }
  return edits;
}

function overlap({ at: one }: TextEdit, { at: other }: TextEdit): boolean {
  return one.file === other.file && one.start <= other.end && other.start <= one.end;
}
