import { type CodeAction, CodeActionKind, type Connection, MarkupKind } from 'vscode-languageserver';
import { cautionInTitle } from '../room/caution';
import { type Asked, asked } from './asked';
import { fixAllAction } from './editing-features';
import { fillActions } from './fill-features';
import { lessonActions } from './learn-features';
import { quickFix, toCompletion, toDiagnostic, toEdits, toRange, toSymbol } from './lsp';
import type { OpenPlan } from './plan-sessions';
import { type AllowParams, clientCommands } from './protocol';
import type { ServerState } from './server-state';
import { actionsAt, type FindingAction } from './services/actions';
import { completionAt } from './services/completion';
import { allowancesAt } from './services/completion-allowances';
import { definitionAt, referencesAt } from './services/definition';
import { hoverAt } from './services/hover';
import { outlineOf } from './services/outline';
import { fillAt, pinsOf } from './services/pins';
import { plainText } from './services/plain-text';

/** Registers what editors ask of any language server. */
export function addLanguageFeatures(connection: Connection, state: ServerState): void {
  connection.onHover(async ({ textDocument, position }) => {
    const found = await asked(state, textDocument.uri);
    if (!found) return null;
    const { session } = found.plan;
    const plan = session.plan();
    const hover = hoverAt(session.latestSeason() ?? session.snapshot().season, found.point(position), plan);
    if (!hover) return null;
    const contents = state.abilities().hoversInMarkdown
      ? { kind: MarkupKind.Markdown, value: hover.markdown }
      : { kind: MarkupKind.PlainText, value: plainText(hover.markdown) };
    return { range: toRange(plan, hover.at), contents };
  });

  connection.onDefinition(async ({ textDocument, position }) => {
    const found = await asked(state, textDocument.uri);
    const at = found && definitionAt(found.plan.session.plan(), found.point(position));
    return found && at ? locations(found.plan, [at]) : null;
  });

  connection.onReferences(async ({ textDocument, position, context }) => {
    const found = await asked(state, textDocument.uri);
    if (!found) return null;
    const places = referencesAt(found.plan.session.plan(), found.point(position), context.includeDeclaration);
    return locations(found.plan, places);
  });

  connection.onDocumentSymbol(async ({ textDocument }) => {
    const found = await asked(state, textDocument.uri);
    const plan = found?.plan.session.plan();
    return found && plan ? outlineOf(plan, found.text.path).map((item) => toSymbol(plan, item)) : null;
  });

  connection.onCompletion(async ({ textDocument, position }) => {
    const found = await asked(state, textDocument.uri);
    if (!found) return null;
    const { session } = found.plan;
    const [plan, point] = [session.plan(), found.point(position)];
    const items =
      allowancesAt(plan, point, session.latestSnapshot()?.findings ?? []) ??
      completionAt(plan, point, session.latestSeason());
    return items.map((item) => toCompletion(plan, item, state.abilities().takesSnippets));
  });

  connection.onCodeAction(async ({ textDocument, range, context }) => {
    const found = await asked(state, textDocument.uri);
    if (!found) return null;
    const wants = wanted(context.only);
    if (wants(CodeActionKind.SourceFixAll) && !wants(CodeActionKind.QuickFix)) return fixAllAction(found);
    const { plan, findings, season } = found.plan.session.snapshot();
    const [start, end] = [found.point(range.start).offset, found.point(range.end).offset];
    const actions = actionsAt(plan, findings, { file: found.text.path, start, end });
    const fill = fillAt(plan, found.point(range.start));
    const pins = fill === undefined ? [] : pinsOf(plan, season.release, fill);
    const all = [
      ...actions.flatMap((action) => toCodeAction(state, found, action)),
      ...pins.map(
        ({ week, edits }): CodeAction => ({
          title: `Pin ${fill} to ${week}, the schedule's week (${cautionInTitle})`,
          kind: CodeActionKind.RefactorRewrite,
          edit: { changes: toEdits(plan, edits, found.plan.uriOf) },
        }),
      ),
      ...fillActions(state, found, range.start),
      ...lessonActions(state, found, range.start),
    ];
    return all.filter(({ kind }) => wants(kind ?? ''));
  });
}

/** Which kinds of actions a client wants: each with all that lie below it, and every kind where it names none. */
function wanted(only: readonly string[] | undefined): (kind: string) => boolean {
  return (kind) => !only || only.some((one) => one === '' || kind === one || kind.startsWith(`${one}.`));
}

function locations({ session, uriOf }: OpenPlan, spans: readonly PlaceSpan[]) {
  const plan = session.plan();
  return spans.flatMap((at) => {
    const uri = uriOf(at.file);
    return uri === undefined ? [] : [{ uri, range: toRange(plan, at) }];
  });
}

type PlaceSpan = Parameters<typeof toRange>[1];

function toCodeAction(state: ServerState, { plan: open }: Asked, action: FindingAction): CodeAction[] {
  const { plan } = open.session.snapshot();
  const { pagesUri, clientCommands: hasCommands } = state.options();
  const { title, finding, kind, edits } = action;
  const diagnostic = toDiagnostic(plan, finding, open.uriOf, pagesUri);
  const uri = open.uriOf(finding.at.file);
  if (kind === 'page' || (kind === 'allow' && hasCommands)) {
    if (!hasCommands || uri === undefined) return [];
    const wanted: Omit<AllowParams, 'reason'> = { uri, code: finding.code, position: diagnostic.range.start };
    const [command, argument] =
      kind === 'page'
        ? [clientCommands.showFindingPage, finding.code]
        : [clientCommands.allowFinding, wanted];
    return [quickFix(title, diagnostic, { command: { title, command, arguments: [argument] } })];
  }
  // A name that is not there may stand for one that is to come: which is meant is the planner's to say.
  const preferred = kind === 'fix' && finding.fixes.length === 1 && finding.code !== 'unknown-reference';
  return [quickFix(title, diagnostic, { changes: toEdits(plan, edits, open.uriOf) }, preferred)];
}
