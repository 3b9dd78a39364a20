import type { TextDocumentContentChangeEvent, TextDocumentsConfiguration } from 'vscode-languageserver';
import { offsetAt } from '../plan/lines';
import { EditedText } from '../plan/text/edited-text';

/** An open document. */
export interface EditedDocument {
  readonly uri: string;
  readonly version: number;
  readonly text: EditedText;
}

type Change = TextDocumentContentChangeEvent;
type Place = Extract<Change, { readonly range: unknown }>['range']['start'];

/**
 * Documents as the client edits them. The library's own documents put the whole text together at every key, which for one
 * of a megabyte and a half took a quarter of the time from the key to its findings.
 */
export const editedDocuments: TextDocumentsConfiguration<EditedDocument> = {
  create: (uri, _language, version, content) => ({ uri, version, text: EditedText.of(content) }),
  update: ({ uri, text }, changes, version) => ({ uri, version, text: changes.reduce(changed, text) }),
};

function changed(text: EditedText, change: Change): EditedText {
  const range = 'range' in change ? change.range : undefined;
  if (!range) return EditedText.of(change.text);
  const [one, other] = [offsetOf(text, range.start), offsetOf(text, range.end)];
  // Some clients give a selection from its end to its start.
  return text.replaced({ start: Math.min(one, other), end: Math.max(one, other), text: change.text });
}

function offsetOf(text: EditedText, { line, character }: Place): number {
  return offsetAt(text, text.lineStarts, { line, column: character });
}
