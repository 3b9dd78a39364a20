import { afterEach, describe, expect, it } from 'vitest';
import type { CodeAction, CompletionItem, Range, TextEdit } from 'vscode-languageserver';
import { type ClientOptions, ROOT, TestClient } from './client';
import { samplePlan } from './plans';

const FRUIT = `${ROOT}/fruit.lotplan.yaml`;
/** A line feed without its carriage return. */
const LONE = /(?<!\r)\n/;
let client: TestClient;

/** A client with a sample whose files have CRLF, as they come from a checkout on Windows. */
async function started(sample: string, options: ClientOptions = {}): Promise<ReadonlyMap<string, string>> {
  const files = new Map(
    samplePlan(sample).map(({ path, text }) => [`${ROOT}/${path}`, text.replaceAll('\n', '\r\n')]),
  );
  client = new TestClient(new Map(files), options);
  await client.start();
  for (const [uri, text] of files) client.open(uri, text);
  await client.settled();
  return files;
}

afterEach(() => client.stop(), 30_000);

describe('in a file with CRLF', () => {
  const newFill = async (options: ClientOptions) => {
    const text = (await started('first-season', options)).get(FRUIT) ?? '';
    client.change(FRUIT, text.replace('fills:\r\n', 'fills:\r\n  \r\n'));
    const items = await client.request<CompletionItem[]>('textDocument/completion', {
      textDocument: { uri: FRUIT },
      position: { line: text.split('\r\n').indexOf('fills:') + 1, character: 2 },
    });
    const item = items.find(({ label }) => label === 'new fill');
    const edit = item?.textEdit as TextEdit | undefined;
    return { item, newText: edit?.newText ?? '' };
  };

  it('a whole new entry is written in lines of the file', async () => {
    const { newText } = await newFill({ capabilities: {} });
    expect(newText).toMatch(/^R0-fill:\r\n {4}room: /);
    expect(newText).not.toMatch(LONE);
  });

  it('a snippet has the line ends that editors make those of the file', async () => {
    const completion = { completionItem: { snippetSupport: true } };
    const { item, newText } = await newFill({ capabilities: { textDocument: { completion } } });
    expect(item?.insertTextFormat).toBe(2);
    expect(newText).toMatch(/^\$\{1:R0-fill\}:\n {4}room: /);
    expect(newText).not.toContain('\r');
  });

  it('no action writes another line end', async () => {
    const files = await started('with-mistakes', { clientCommands: false });
    const written: string[] = [];
    for (const [uri, text] of files) {
      const range: Range = {
        start: { line: 0, character: 0 },
        end: { line: text.split('\n').length, character: 0 },
      };
      for (const only of [undefined, ['source.fixAll']]) {
        const params = { textDocument: { uri }, range, context: { diagnostics: [], only } };
        for (const { edit } of await client.request<CodeAction[]>('textDocument/codeAction', params))
          for (const edits of Object.values(edit?.changes ?? {}))
            written.push(...edits.map(({ newText }) => newText));
      }
    }
    expect(written.some((text) => text.includes('\r\n'))).toBe(true);
    for (const text of written) expect(text).not.toMatch(LONE);
  });
});
