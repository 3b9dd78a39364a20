import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { editedDocuments } from '../../src/server/edited-document';

const words = fc.constantFrom('lots:\n', '  G1: {}\r\n', '\r', '\n', 'ä', '\u{1f34e}', ' ', '12');
const text = fc.array(words, { maxLength: 12 }).map((all) => all.join(''));
const place = fc.record({ line: fc.integer({ min: -1, max: 14 }), character: fc.nat(12) });
const change = fc.oneof(
  { weight: 6, arbitrary: fc.record({ range: fc.record({ start: place, end: place }), text }) },
  { weight: 1, arbitrary: fc.record({ text }) },
);
const changes = fc.array(fc.array(change, { maxLength: 4 }), { maxLength: 6 });

describe('an open document', () => {
  // The reference is the documents of the language server library, vscode-languageserver-textdocument. They are made anew
  // for each change: one that reaches beyond the last line leaves them with lines that the text does not have.
  it("says after every edit what the protocol's own library says", () => {
    const made = (content: string) => TextDocument.create('file:///a', 'lotplan', 1, content);
    fc.assert(
      fc.property(text, changes, (first, all) => {
        let theirs = first;
        let ours = editedDocuments.create('file:///a', 'lotplan', 1, first);
        all.forEach((some, index) => {
          for (const one of some) theirs = TextDocument.update(made(theirs), [one], 2).getText();
          ours = editedDocuments.update(ours, some, index + 2);
          expect(ours.text.toString()).toBe(theirs);
          expect(ours.text.lineStarts).toHaveLength(made(theirs).lineCount);
          expect(ours.version).toBe(index + 2);
        });
      }),
      { numRuns: 1000 },
    );
  });
});
