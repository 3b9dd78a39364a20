/** A range to be read as something else: spaces, or line feeds. Offsets stay as they are. */
export interface Blank {
  readonly start: number;
  readonly end: number;
  readonly with: ' ' | '\n';
}

/** The text with ranges blanked out; line endings within a range stay. */
export function blanked(text: string, blanks: readonly Blank[]): string {
  if (blanks.length === 0) return text;
  const sorted = [...blanks].sort((a, b) => a.start - b.start);
  const parts: string[] = [];
  let at = 0;
  for (const { start, end, with: fill } of sorted) {
    if (start < at) continue;
    parts.push(text.slice(at, start));
    parts.push(fill === '\n' ? '\n'.repeat(end - start) : text.slice(start, end).replace(/[^\r\n]/g, ' '));
    at = end;
  }
  parts.push(text.slice(at));
  return parts.join('');
}
