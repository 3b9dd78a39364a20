import {
  type CodeAction,
  CodeActionKind,
  type Command,
  CompletionItemKind,
  type Diagnostic,
  DiagnosticSeverity,
  type DocumentSymbol,
  InsertTextFormat,
  InsertTextMode,
  type CompletionItem as LspCompletionItem,
  type TextEdit as LspTextEdit,
  MarkupKind,
  type Position,
  type Range,
  SymbolKind,
} from 'vscode-languageserver';
import type { Finding } from '../findings/types';
import { lineEndingOf, offsetAt, positionAt } from '../plan/lines';
import type { Plan, PlanText } from '../plan/model';
import type { TextEdit } from '../plan/problem';
import type { Span } from '../plan/span';
import type { CompletionItem } from './services/completion-types';
import type { OutlineItem } from './services/outline';

/** Plain results of the services in the words of the Language Server Protocol. Files are addressed by `uriOf`. */
export type UriOf = (file: string) => string | undefined;

const START: Position = { line: 0, character: 0 };

export function toRange(plan: Plan, span: Span): Range {
  const file = plan.files.get(span.file);
  if (!file) return { start: START, end: START };
  return { start: toPosition(file, span.start), end: toPosition(file, span.end) };
}

export function toPosition({ lineStarts }: PlanText, offset: number): Position {
  const { line, column } = positionAt(lineStarts, offset);
  return { line, character: column };
}

export function toOffset({ text, lineStarts }: PlanText, { line, character }: Position): number {
  return offsetAt(text, lineStarts, { line, column: character });
}

const SEVERITY = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  notice: DiagnosticSeverity.Information,
} as const;

export function toDiagnostic(plan: Plan, finding: Finding, uriOf: UriOf, pagesUri?: string): Diagnostic {
  const relatedInformation = finding.related.flatMap(({ at, line, message }) => {
    const uri = uriOf(at.file);
    return uri === undefined
      ? []
      : [{ location: { uri, range: line === undefined ? toRange(plan, at) : lineRange(line) }, message }];
  });
  return {
    range: toRange(plan, finding.at),
    severity: SEVERITY[finding.severity],
    code: finding.code,
    source: 'Lotwright',
    message: finding.message,
    ...(pagesUri ? { codeDescription: { href: `${pagesUri}/${finding.code}.md` } } : {}),
    ...(relatedInformation.length > 0 ? { relatedInformation } : {}),
  };
}

/** Whether `toDiagnostic` would make just this one of the finding. */
export function isDiagnosticOf(
  plan: Plan,
  { range, severity, code, message, relatedInformation }: Diagnostic,
  finding: Finding,
  uriOf: UriOf,
): boolean {
  if (code !== finding.code || message !== finding.message || severity !== SEVERITY[finding.severity])
    return false;
  if (!isRangeOf(plan, range, finding.at)) return false;
  let index = 0;
  for (const { at, line, message: text } of finding.related) {
    const uri = uriOf(at.file);
    if (uri === undefined) continue;
    const one = relatedInformation?.[index++];
    if (one?.message !== text || one.location.uri !== uri) return false;
    const { range: there } = one.location;
    if (line === undefined ? !isRangeOf(plan, there, at) : !isLineRange(there, line)) return false;
  }
  return index === (relatedInformation?.length ?? 0);
}

function isRangeOf(plan: Plan, { start, end }: Range, span: Span): boolean {
  const file = plan.files.get(span.file);
  return file
    ? isPositionOf(file, start, span.start) && isPositionOf(file, end, span.end)
    : start === START && end === START;
}

function isPositionOf(file: PlanText, { line, character }: Position, offset: number): boolean {
  const now = toPosition(file, offset);
  return now.line === line && now.character === character;
}

/** The beginning of a line, counted from 1, of a file whose text is not at hand. */
function lineRange(line: number): Range {
  const start = { line: line - 1, character: 0 };
  return { start, end: start };
}

function isLineRange({ start, end }: Range, line: number): boolean {
  return start === end && start.line === line - 1 && start.character === 0;
}

export function toSymbol(plan: Plan, item: OutlineItem): DocumentSymbol {
  return {
    name: item.name || '?',
    detail: item.detail,
    kind: item.kind === 'section' ? SymbolKind.Namespace : SymbolKind.Object,
    range: toRange(plan, item.whole),
    selectionRange: toRange(plan, item.nameAt),
    children: item.children.map((child) => toSymbol(plan, child)),
  };
}

const COMPLETION_KIND = {
  key: CompletionItemKind.Property,
  value: CompletionItemKind.EnumMember,
  entry: CompletionItemKind.Reference,
  unit: CompletionItemKind.Unit,
} as const;

export function toCompletion(plan: Plan, item: CompletionItem, takesSnippets: boolean): LspCompletionItem {
  const snippet = takesSnippets ? item.snippet : undefined;
  return {
    label: item.label,
    kind: COMPLETION_KIND[item.kind],
    detail: item.detail,
    ...(item.documentation
      ? { documentation: { kind: MarkupKind.PlainText, value: item.documentation } }
      : {}),
    // Editors give the lines of a snippet the document's ending; some take a snippet's own for letters of its text.
    textEdit: {
      range: toRange(plan, item.at),
      newText: snippet ?? inLinesOf(plan, item.at.file, item.newText),
    },
    ...(snippet !== undefined && { insertTextFormat: InsertTextFormat.Snippet }),
    // Further lines are indented as they stand.
    ...(item.newText.includes('\n') && { insertTextMode: InsertTextMode.asIs }),
    filterText: item.newText,
    sortText: String(item.order).padStart(5, '0'),
  };
}

/** New text with the line ending of its file: the protocol leaves it as it is given. */
function inLinesOf(plan: Plan, file: string, newText: string): string {
  if (!newText.includes('\n')) return newText;
  return newText.replace(/\r?\n/g, lineEndingOf(plan.files.get(file)?.text ?? ''));
}

export function toEdits(plan: Plan, edits: readonly TextEdit[], uriOf: UriOf): Record<string, LspTextEdit[]> {
  const changes: Record<string, LspTextEdit[]> = {};
  for (const { at, newText } of edits) {
    const uri = uriOf(at.file);
    if (uri === undefined) continue;
    const edit = { range: toRange(plan, at), newText: inLinesOf(plan, at.file, newText) };
    changes[uri] = [...(changes[uri] ?? []), edit];
  }
  return changes;
}

export function quickFix(
  title: string,
  diagnostic: Diagnostic,
  does: { readonly changes: Record<string, LspTextEdit[]> } | { readonly command: Command },
  isPreferred = false,
): CodeAction {
  return {
    title,
    kind: CodeActionKind.QuickFix,
    diagnostics: [diagnostic],
    ...('command' in does ? { command: does.command } : { edit: { changes: does.changes } }),
    ...(isPreferred ? { isPreferred } : {}),
  };
}
