import type { Problem } from '../problem';

/** Problems of keys that stand twice, with what their fixes delete grown to all that a key stands in. */
export function deletingWhole(text: string, problems: readonly Problem[]): readonly Problem[] {
  if (!problems.some(({ code, fixes }) => code === 'duplicate-key' && fixes?.length)) return problems;
  return problems.map((problem) => {
    const { code, fixes } = problem;
    if (code !== 'duplicate-key' || !fixes) return problem;
    const grown = fixes.map((fix) => ({
      ...fix,
      edits: fix.edits.map((edit) => ({ ...edit, at: { ...edit.at, ...wholePair(text, edit.at) } })),
    }));
    return { ...problem, fixes: grown };
  });
}

/** A key and its value with the line that they have for themselves, or in braces with the comma before them. */
function wholePair(text: string, { start, end }: { readonly start: number; readonly end: number }) {
  const line = text.lastIndexOf('\n', start - 1) + 1;
  const feed = text.indexOf('\n', end);
  const next = feed < 0 ? text.length : feed + 1;
  const isAlone = text.slice(line, start).trim() === '' && /^\s*(?:#.*)?$/.test(text.slice(end, next));
  if (isAlone) return { start: line, end: next };
  const [before = ''] = /,\s*$/.exec(text.slice(0, start)) ?? [];
  return { start: start - before.length, end };
}
