/** Splits a text at its caret mark `‸`, which is no character of YAML. */
export function atCaret(marked: string): { text: string; offset: number } {
  const offset = marked.indexOf('‸');
  if (offset < 0) throw new Error('the text has no caret mark');
  return { text: marked.slice(0, offset) + marked.slice(offset + 1), offset };
}
