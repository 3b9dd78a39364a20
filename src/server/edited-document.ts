import type {
  Position,
  Range,
  TextDocumentContentChangeEvent,
  TextDocumentsConfiguration,
} from 'vscode-languageserver';
import { offsetAt } from '../plan/lines';
import { EditedText, type Replaced } from '../plan/text/edited-text';

/** An open document. */
export interface EditedDocument {
  readonly uri: string;
  readonly version: number;
  readonly text: EditedText;
}

type Change = TextDocumentContentChangeEvent;

/**
 * Documents as the client edits them. The library's own documents put the whole text together at every key, which for one
 * of a megabyte and a half took a quarter of the time from the key to its findings.
 */
export const editedDocuments: TextDocumentsConfiguration<EditedDocument> = {
  create: (uri, _language, version, content) => ({ uri, version, text: EditedText.of(content) }),
  update: ({ uri, text }, changes, version) => ({ uri, version, text: changed(text, changes) }),
};

function changed(text: EditedText, changes: readonly Change[]): EditedText {
  const [one, ...more] = changes;
  if (!one) return text;
  if (more.length === 0) return isWhole(one) ? EditedText.of(one.text) : onceReplaced(text, one);
  // What stood before a whole text is gone with it.
  const whole = changes.findLastIndex(isWhole);
  const begun = whole < 0 ? text : EditedText.of(changes[whole]?.text ?? '');
  return begun.replacedAll(changes.slice(whole + 1), replacedBy);
}

/** The very same text where a change puts nothing in the place of nothing. */
function onceReplaced(text: EditedText, change: Change): EditedText {
  const replaced = replacedBy(change, text);
  return replaced.text === '' && replaced.start === replaced.end ? text : text.replaced(replaced);
}

function isWhole(change: Change): boolean {
  return rangeOf(change) === undefined;
}

function rangeOf(change: Change): Range | undefined {
  return 'range' in change ? change.range : undefined;
}

function replacedBy(change: Change, text: EditedText): Replaced {
  const range = rangeOf(change);
  const [one, other] = range ? [offsetOf(text, range.start), offsetOf(text, range.end)] : [0, text.length];
  // Some clients give a selection from its end to its start.
  return { start: Math.min(one, other), end: Math.max(one, other), text: change.text };
}

function offsetOf(text: EditedText, { line, character }: Position): number {
  return offsetAt(text, text.lineStarts, { line, column: character });
}
