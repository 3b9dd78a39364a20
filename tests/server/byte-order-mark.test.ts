import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { ROOT, TestClient } from './client';
import { computed, samplePlan } from './plans';

const URI = `${ROOT}/season.lotplan.yaml`;
const [{ text: sample } = { text: '' }] = samplePlan('us-units');
/** The first key stands right behind the mark. */
const TEXT = sample.slice(sample.search(/^\w/m));
const MARKED = `\uFEFF${TEXT}`;

describe('a document that begins with a byte order mark', () => {
  const client = new TestClient(new Map());

  beforeAll(async () => {
    await client.start();
    client.open(URI, MARKED);
    await client.settled();
  });
  afterAll(() => client.stop());

  it('has the findings that it has without, at the same places behind the mark', () => {
    const told = ({ findings }: ReturnType<typeof computed>) =>
      findings.map(({ code, message, at }) => ({ code, message, start: at.start, end: at.end }));
    const without = told(computed([{ path: 'season.lotplan.yaml', text: TEXT }]));
    const behind = without.map((one) => ({ ...one, start: one.start + 1, end: one.end + 1 }));
    expect(told(computed([{ path: 'season.lotplan.yaml', text: MARKED }]))).toEqual(behind);
    expect(without.length).toBeGreaterThan(0);
    expect(client.codes(URI).sort()).toEqual(without.map(({ code }) => code).sort());
  });

  it('counts the mark as a character of the first line, as the client does', async () => {
    const hover = (character: number) =>
      client.request<{ range: object } | null>('textDocument/hover', {
        textDocument: { uri: URI },
        position: { line: 0, character },
      });
    const name = TEXT.slice(0, TEXT.indexOf(':'));
    expect((await hover(2))?.range).toEqual({
      start: { line: 0, character: 1 },
      end: { line: 0, character: 1 + name.length },
    });
  });

  it('stays as right after changes of a range, on its first line and elsewhere', async () => {
    const line = TEXT.split('\n').findIndex((one) => one.trimStart().startsWith('variety:'));
    const from = TEXT.split('\n')[line]?.indexOf('variety') ?? 0;
    const changes = [
      { range: { start: { line, character: from }, end: { line, character: from + 7 } }, text: 'varety' },
      { range: { start: { line: 0, character: 1 }, end: { line: 0, character: 1 } }, text: '# first\n' },
    ];
    const document = TextDocument.create(URI, 'lotplan', 1, MARKED);
    for (const [index, change] of changes.entries()) {
      const version = index + 2;
      TextDocument.update(document, [change], version);
      await client.connection.sendNotification('textDocument/didChange', {
        textDocument: { uri: URI, version },
        contentChanges: [change],
      });
      await client.until('the change', () => client.published.some((one) => one.version === version));
      await client.settled();
      const fresh = computed([{ path: 'season.lotplan.yaml', text: document.getText() }]).findings;
      expect(client.codes(URI).sort()).toEqual(fresh.map(({ code }) => code).sort());
      const unknown = client.diagnostics(URI).find(({ code }) => code === 'unknown-key');
      expect(document.getText(unknown?.range)).toBe('varety');
    }
  });

  it('is laid out without a change of the mark', async () => {
    const edits = await client.request<{ range: { start: { line: number; character: number } } }[]>(
      'textDocument/formatting',
      { textDocument: { uri: URI }, options: { tabSize: 2, insertSpaces: true } },
    );
    expect(edits.filter(({ range: { start } }) => start.line === 0)).toEqual([]);
  });
});
