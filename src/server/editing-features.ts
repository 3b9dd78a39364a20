import {
  type CodeAction,
  CodeActionKind,
  type Connection,
  LSPErrorCodes,
  ResponseError,
} from 'vscode-languageserver';
import { layoutEdits } from '../plan/layout/lay-out';
import { type Asked, asked } from './asked';
import { toEdits, toPosition, toRange } from './lsp';
import type { ServerState } from './server-state';
import { fixAllEdits } from './services/fix-all';
import { type Refused, renameableAt, renamedAt } from './services/rename';

/** Registers what changes a plan's text at the planner's wish. Every change is edits of the text: comments stay. */
export function addEditingFeatures(connection: Connection, state: ServerState): void {
  connection.onPrepareRename(async ({ textDocument, position }) => {
    const found = await asked(state, textDocument.uri);
    if (!found) return null;
    const plan = found.plan.session.plan();
    const answer = renameableAt(plan, found.point(position));
    if ('refused' in answer) throw refusal(answer);
    return { range: toRange(plan, answer.at), placeholder: answer.placeholder };
  });

  connection.onRenameRequest(async ({ textDocument, position, newName }) => {
    const found = await asked(state, textDocument.uri);
    if (!found) return null;
    const plan = found.plan.session.plan();
    const answer = renamedAt(plan, found.point(position), newName.trim());
    if ('refused' in answer) throw refusal(answer);
    return { changes: toEdits(plan, answer, found.plan.uriOf) };
  });

  connection.onDocumentFormatting(async ({ textDocument }) => {
    const found = await asked(state, textDocument.uri);
    if (!found) return null;
    return layoutEdits(found.text.text).map(({ start, end, newText }) => ({
      range: { start: toPosition(found.text, start), end: toPosition(found.text, end) },
      newText,
    }));
  });
}

/** One action for all slips of writing in the file that have one fix only; none where there are none. */
export function fixAllAction({ plan: open, text }: Asked): CodeAction[] {
  const { plan, findings } = open.session.snapshot();
  const edits = fixAllEdits(plan, findings, text.path);
  if (edits.length === 0) return [];
  return [
    {
      title: 'Fix all slips of writing that have one fix',
      kind: CodeActionKind.SourceFixAll,
      edit: { changes: toEdits(plan, edits, open.uriOf) },
    },
  ];
}

function refusal({ refused }: Refused): ResponseError<void> {
  return new ResponseError(LSPErrorCodes.RequestFailed, refused);
}
