import { lineEnd, positionAt } from '../../plan/lines';
import type { PlanText } from '../../plan/model';

/** Lines that fold away under their first one; zero-based, the last line included. */
export interface FoldingPart {
  readonly first: number;
  readonly last: number;
  readonly kind: 'entry' | 'comment';
}

interface Line {
  readonly line: number;
  readonly indent: number;
  readonly kind: 'text' | 'comment';
  readonly closes: boolean;
}

/**
 * What folds in a plan file: a line with the deeper ones below it, brackets over several lines, and comments of several
 * lines. Read from indentation, so that half-typed text folds as well.
 */
export function foldingOf(file: PlanText): FoldingPart[] {
  const lines = linesOf(file);
  return [...byIndent(lines), ...comments(lines)].sort((a, b) => a.first - b.first || b.last - a.last);
}

function linesOf({ text, lineStarts }: PlanText): Line[] {
  return lineStarts.flatMap((start, line) => {
    const written = text.slice(start, lineEnd(text, lineStarts, line));
    const first = written.search(/\S/);
    if (first < 0) return [];
    const kind = written[first] === '#' ? ('comment' as const) : ('text' as const);
    return [{ line, indent: first, kind, closes: /^[}\]]/.test(written.slice(first)) }];
  });
}

function byIndent(lines: readonly Line[]): FoldingPart[] {
  const parts: FoldingPart[] = [];
  const open: { readonly line: number; readonly indent: number }[] = [];
  let lastText = -1;
  const close = (indent: number, last: number) => {
    for (let top = open.at(-1); top && top.indent >= indent; top = open.at(-1)) {
      open.pop();
      if (last > top.line) parts.push({ first: top.line, last, kind: 'entry' });
    }
  };
  for (const { line, indent, kind, closes } of lines) {
    // A comment belongs to what follows it, and never ends what it stands in.
    if (kind === 'comment') continue;
    // A closing bracket on a line of its own stays visible, as the line that opened it does.
    close(indent, lastText);
    if (!closes) open.push({ line, indent });
    lastText = line;
  }
  close(0, lastText);
  return parts;
}

function comments(lines: readonly Line[]): FoldingPart[] {
  const parts: FoldingPart[] = [];
  let first: Line | undefined;
  let last: Line | undefined;
  const end = () => {
    if (first && last && last.line > first.line)
      parts.push({ first: first.line, last: last.line, kind: 'comment' });
    first = undefined;
  };
  for (const line of lines) {
    const follows = line.kind === 'comment' && first?.indent === line.indent && last?.line === line.line - 1;
    if (!follows) end();
    if (line.kind === 'comment') first ??= line;
    last = line;
  }
  end();
  return parts;
}

/** The line an offset stands in, zero-based. */
export function lineOf({ lineStarts }: PlanText, offset: number): number {
  return positionAt(lineStarts, offset).line;
}
