import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LSPErrorCodes, ResponseError } from 'vscode-languageserver/node';
import { type Edit, editedFiles, edits } from '../plan/edited';
import { sampleFiles } from '../samples/sample';
import { ROOT, TestClient } from './client';

/** How many sequences of edits are tried, with requests in between; `npm run test:edits` tries many more. */
const SEQUENCES = Math.ceil(Number(process.env.LOTWRIGHT_EDITS ?? 120) / 5);

const FILES = ['first-season', 'with-mistakes'].flatMap((name, folder) =>
  sampleFiles(name).map(({ path, text }, file) => ({
    path: `${folder}/${path}`,
    // One file of three with CRLF, one with lines of both kinds.
    text: text.replaceAll('\n', (_, at: number) =>
      file % 3 === 1 || (file % 3 === 2 && at % 2 === 0) ? '\r\n' : '\n',
    ),
  })),
);

/** Every request about a place of a document or a document as a whole; `what` varies it. */
const REQUESTS: Readonly<Record<string, (at: Place, what: number) => object>> = {
  'textDocument/hover': (at) => at,
  'textDocument/completion': (at) => at,
  'textDocument/definition': (at) => at,
  'textDocument/references': (at, what) => ({ ...at, context: { includeDeclaration: what % 2 === 0 } }),
  'textDocument/documentHighlight': (at) => at,
  'textDocument/signatureHelp': (at) => at,
  'textDocument/prepareRename': (at) => at,
  'textDocument/rename': (at, what) => ({ ...at, newName: ['R9', '', 'two words', '# x'][what % 4] }),
  'textDocument/selectionRange': ({ textDocument, position }) => ({ textDocument, positions: [position] }),
  'textDocument/codeAction': ({ textDocument, position }, what) => ({
    textDocument,
    range:
      what % 2 === 0
        ? { start: position, end: position }
        : { start: { line: 0, character: 0 }, end: position },
    context: { diagnostics: [], ...(what % 3 === 0 && { only: ['source.fixAll'] }) },
  }),
  'textDocument/inlayHint': ({ textDocument, position }, what) => ({
    textDocument,
    range: { start: position, end: { line: position.line + what, character: 0 } },
  }),
  'textDocument/documentSymbol': ({ textDocument }) => ({ textDocument }),
  'textDocument/foldingRange': ({ textDocument }) => ({ textDocument }),
  'textDocument/documentLink': ({ textDocument }) => ({ textDocument }),
  'textDocument/codeLens': ({ textDocument }) => ({ textDocument }),
  'textDocument/semanticTokens/full': ({ textDocument }) => ({ textDocument }),
  'textDocument/formatting': ({ textDocument }) => ({
    textDocument,
    options: { tabSize: 2, insertSpaces: true },
  }),
  'workspace/symbol': (_, what) => ({ query: ['', 'R1', 'gala', '*'][what % 4] }),
};

interface Place {
  readonly textDocument: { readonly uri: string };
  readonly position: { readonly line: number; readonly character: number };
}

interface Asking {
  readonly method: string;
  readonly file: number;
  readonly line: number;
  readonly character: number;
  readonly what: number;
}

/** Lines and characters in the text, and also before its start and behind its end. */
const asking: fc.Arbitrary<Asking> = fc.record({
  method: fc.constantFrom(...Object.keys(REQUESTS)),
  file: fc.nat({ max: FILES.length }),
  line: fc.oneof({ weight: 6, arbitrary: fc.nat({ max: 400 }) }, fc.constantFrom(-1, 100_000, 2_147_483_647)),
  character: fc.oneof(
    { weight: 6, arbitrary: fc.nat({ max: 90 }) },
    fc.constantFrom(-1, 100_000, 2_147_483_647),
  ),
  what: fc.nat({ max: 60 }),
});

describe('whatever is edited and asked', () => {
  const uriOf = (file: number) => `${ROOT}/${FILES[file]?.path ?? 'nowhere.lotplan.yaml'}`;
  const client = new TestClient(new Map(FILES.map(({ text }, file) => [uriOf(file), text])));
  const logged: string[] = [];

  beforeAll(async () => {
    client.connection.onNotification(
      'window/logMessage',
      ({ type, message }: { type: number; message: string }) => {
        if (type === 1) logged.push(message);
      },
    );
    await client.start();
    FILES.forEach(({ text }, file) => {
      client.open(uriOf(file), text);
    });
  });
  afterAll(() => client.stop());

  it(
    'every request is answered, and nothing fails',
    async () => {
      await fc.assert(
        fc.asyncProperty(
          edits(FILES),
          fc.array(asking, { minLength: 4, maxLength: 24 }),
          async (sequence, asked) => {
            await run(sequence, asked);
          },
        ),
        { numRuns: SEQUENCES },
      );
      expect(logged).toEqual([]);
    },
    600_000 + 10_000 * SEQUENCES,
  );

  async function run(sequence: readonly Edit[], asked: readonly Asking[]): Promise<void> {
    const states = [FILES, ...editedFiles(FILES, sequence)];
    const each = Math.ceil(asked.length / states.length);
    let before: readonly { text: string }[] = [];
    for (const [index, state] of states.entries()) {
      state.forEach(({ text }, file) => {
        if (before[file]?.text !== text) client.change(uriOf(file), text);
      });
      before = state;
      await Promise.all(asked.slice(index * each, (index + 1) * each).map(ask));
    }
  }

  async function ask({ method, file, line, character, what }: Asking): Promise<void> {
    const place = { textDocument: { uri: uriOf(file) }, position: { line, character } };
    try {
      await client.request(method, REQUESTS[method]?.(place, what));
    } catch (error) {
      // What cannot be renamed is refused, with the reason.
      const isRefusal = error instanceof ResponseError && error.code === LSPErrorCodes.RequestFailed;
      if (!isRefusal || !method.toLowerCase().includes('rename'))
        throw new Error(`${method} at ${line}:${character} (${what}): ${String(error)}`);
    }
  }
});
