import type { Problem } from '../problem';
import type { Blank } from './blank';
import { linesOf } from './text-lines';

const ANY_MARK = /(?:^|\n)(?:---|\.\.\.|%)/;

/** Finds document marks and directives. A `---` before everything else is harmless; a file is one document. */
export function readDocumentMarks(file: string, text: string): { blanks: Blank[]; problems: Problem[] } {
  const blanks: Blank[] = [];
  const problems: Problem[] = [];
  if (!ANY_MARK.test(text)) return { blanks, problems };
  let begun = false;
  for (const line of linesOf(text)) {
    const { start, end } = line;
    const directive = text[start] === '%';
    const mark = !directive && isMark(text, start, end);
    if (directive || mark) {
      const at = { file, start, end: directive ? end : start + 3 };
      blanks.push({ start: at.start, end: at.end, with: ' ' });
      if (directive)
        problems.push({
          code: 'yaml-feature-not-allowed',
          message: 'Directives (lines that begin with `%`) are not used in plans. Delete this line.',
          at,
          about: `directive/${problems.length}`,
          fixes: [
            { title: 'Delete the line', edits: [{ at: { file, start, end: line.next }, newText: '' }] },
          ],
        });
      else if (begun || text[start] === '.')
        problems.push({
          code: 'yaml-feature-not-allowed',
          message: `A plan file is one document: \`${text.slice(start, start + 3)}\` has no place here. What follows is read as part of the same plan.`,
          at,
          about: `document/${problems.length}`,
          fixes: [{ title: 'Delete the mark', edits: [{ at, newText: '' }] }],
        });
      if (mark) begun = true;
    } else if (!begun && hasContent(text, start, end)) begun = true;
  }
  return { blanks, problems };
}

function isMark(text: string, start: number, end: number): boolean {
  if (!text.startsWith('---', start) && !text.startsWith('...', start)) return false;
  const next = text[start + 3];
  return start + 3 === end || next === ' ' || next === '\t';
}

function hasContent(text: string, start: number, end: number): boolean {
  const content = text.slice(start, end).trim();
  return content !== '' && !content.startsWith('#');
}
