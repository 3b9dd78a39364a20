import { lineEnd, positionAt } from '../plan/lines';
import type { Plan, PlanText } from '../plan/model';
import type { RelatedPlace } from '../plan/problem';
import type { Span } from '../plan/span';

/** A place as editors show it: lines and columns count from 1, columns in UTF-16 code units, the end exclusive. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

/** The lines and columns of a span. A span of a file that is not in the plan stands at that file's beginning. */
export function placeOf(plan: Pick<Plan, 'files'>, span: Span): Place {
  const file = plan.files.get(span.file);
  const start = file ? position(file, span.start) : { line: 1, column: 1 };
  const end = file ? position(file, span.end) : start;
  return { file: span.file, ...start, endLine: end.line, endColumn: end.column };
}

/** The place that a finding speaks of besides its own: of a file beside the plan, the line. */
export function placeOfRelated(plan: Pick<Plan, 'files'>, { at, line }: RelatedPlace): Place {
  const place = placeOf(plan, at);
  return line === undefined ? place : { ...place, line, endLine: line };
}

/** The text of a line, counted from 1, without its line end; empty where there is none. */
export function lineText(file: PlanText | undefined, line: number): string {
  const start = file?.lineStarts[line - 1];
  if (!file || start === undefined) return '';
  // The lines of a file too large to be read are not known: its first line ends where the text says so.
  const newline = file.text.indexOf('\n', start);
  const end = lineEnd(file.text, file.lineStarts, line - 1);
  return file.text.slice(start, newline < 0 ? end : Math.min(end, newline));
}

function position(file: PlanText, offset: number): { line: number; column: number } {
  const { line, column } = positionAt(file.lineStarts, offset);
  return { line: line + 1, column: column + 1 };
}
