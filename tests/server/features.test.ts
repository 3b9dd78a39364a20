import { afterEach, describe, expect, it } from 'vitest';
import type {
  CodeAction,
  CodeLens,
  DocumentHighlight,
  FoldingRange,
  InlayHint,
  SelectionRange,
  SemanticTokens,
  SignatureHelp,
  SymbolInformation,
  TextEdit,
  WorkspaceEdit,
} from 'vscode-languageserver';
import { ROOT, TestClient } from './client';
import { samplePlan } from './plans';

const FRUIT = `${ROOT}/fruit.lotplan.yaml`;
const sample = new Map(samplePlan('first-season').map(({ path, text }) => [`${ROOT}/${path}`, text]));
const fruit = sample.get(FRUIT) ?? '';
let client: TestClient;
const textDocument = { uri: FRUIT };

/** The position of a word of the fruit file. */
function positionOf(words: string, further = 0) {
  const before = fruit.slice(0, fruit.indexOf(words) + further).split('\n');
  return { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
}

afterEach(() => client.stop(), 30_000);

describe('the language server, asked by an editor', () => {
  it('answers every feature it announces', async () => {
    client = new TestClient(new Map(sample));
    await client.start();
    client.open(FRUIT, fruit);
    await client.settled();
    const ask = <T>(method: string, params: object = {}) =>
      client.request<T>(`textDocument/${method}`, { textDocument, ...params });
    const room = positionOf('room: R2', 6);

    const highlights = await ask<DocumentHighlight[]>('documentHighlight', { position: room });
    expect(highlights.map(({ range }) => range.start)).toContainEqual(room);
    const folding = await ask<FoldingRange[]>('foldingRange');
    expect(folding.some(({ startLine }) => startLine === positionOf('regimes:').line)).toBe(true);
    const [selection] = await ask<SelectionRange[]>('selectionRange', { positions: [room] });
    expect(selection?.parent?.range).toBeDefined();
    const lenses = await ask<CodeLens[]>('codeLens');
    const lens = lenses.find(({ command }) => command?.title.includes('release'));
    expect(lens?.command?.command).toBe('lotwright.showRoomCard');
    expect(lens?.command?.arguments).toEqual([{ fill: expect.any(String) }]);
    const known = ['lotwright.showRoomCard', 'lotwright.explainAtCursor'];
    for (const { command } of lenses) expect(known).toContain(command?.command);
    expect(lens?.command?.tooltip).toMatch(/Sealed rooms kill/);
    const range = { start: { line: 0, character: 0 }, end: { line: 500, character: 0 } };
    expect((await ask<InlayHint[]>('inlayHint', { range })).length).toBeGreaterThan(10);
    const tokens = await ask<SemanticTokens>('semanticTokens/full');
    expect(tokens.data.length % 5).toBe(0);
    expect(tokens.data.length).toBeGreaterThan(0);
    const help = await ask<SignatureHelp>('signatureHelp', { position: positionOf('0.8 °C', 4) });
    expect(help.activeParameter).toBe(1);
    const symbols = await client.request<SymbolInformation[]>('workspace/symbol', { query: 'R2' });
    expect(symbols[0]?.name).toBe('R2');
    expect(await ask<TextEdit[]>('formatting', { options: { tabSize: 2, insertSpaces: true } })).toEqual([]);

    const prepared = await ask<{ placeholder: string }>('prepareRename', { position: room });
    expect(prepared.placeholder).toBe('R2');
    const edit = await ask<WorkspaceEdit>('rename', { position: room, newName: 'North' });
    expect(Object.keys(edit.changes ?? {}).sort()).toEqual([FRUIT, `${ROOT}/orrowby.lotplan.yaml`].sort());
    await expect(ask('rename', { position: room, newName: 'R3' })).rejects.toThrow(
      /There is a room R3 already/,
    );
    const context = { diagnostics: [], only: ['source.fixAll'] };
    expect(await ask<CodeAction[]>('codeAction', { range, context })).toEqual([]);
  });

  it('shows figures above entries to an editor without its commands too, with nothing to run', async () => {
    client = new TestClient(new Map(sample), { clientCommands: false });
    await client.start();
    client.open(FRUIT, fruit);
    await client.settled();
    const lenses = await client.request<CodeLens[]>('textDocument/codeLens', { textDocument });
    expect(lenses.some(({ command }) => command?.title.includes('release'))).toBe(true);
    for (const { command } of lenses) {
      expect(command?.title).not.toBe('');
      expect(command).toMatchObject({ command: '' });
      expect(command).not.toHaveProperty('arguments');
    }
  });

  it('has the caution in the title of each week of opening where an editor may show nothing behind it', async () => {
    client = new TestClient(new Map(sample), { clientCommands: false });
    await client.start();
    client.open(FRUIT, fruit);
    await client.settled();
    const lenses = await client.request<CodeLens[]>('textDocument/codeLens', { textDocument });
    const titles = lenses.map(({ command }) => command?.title ?? '');
    expect(titles.find((title) => title.includes('release 2027-W01, pinned'))).toMatch(
      / · not leave to enter: first oxygen and carbon dioxide readings, local codes and licensed people$/,
    );
    expect(titles.filter((title) => /window|release|open/.test(title)).length).toBeGreaterThan(3);
    for (const title of titles)
      expect(title.includes('not leave to enter'), title).toBe(/window|release|open/.test(title));
    const range = { start: { line: 0, character: 0 }, end: { line: 500, character: 0 } };
    const hints = await client.request<InlayHint[]>('textDocument/inlayHint', { textDocument, range });
    const monday = hints.find(({ label }) => String(label).startsWith('from 2027-01-04'));
    expect(monday?.tooltip).toMatch(/Sealed rooms kill/);
    expect(hints.find(({ label }) => String(label).startsWith('Fri W38'))).not.toHaveProperty('tooltip');
  });
});
