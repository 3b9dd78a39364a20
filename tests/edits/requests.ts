import fc from 'fast-check';
import { requests } from '../../src/server/protocol';

export interface Place {
  readonly textDocument: { readonly uri: string };
  readonly position: { readonly line: number; readonly character: number };
}

export interface Asking {
  readonly method: string;
  /** Taken modulo the plan's files, and one that is not there. */
  readonly file: number;
  readonly line: number;
  readonly character: number;
  readonly what: number;
}

/** Every request about a place of a document, a document as a whole or its plan; `what` varies it. */
export const REQUESTS: Readonly<Record<string, (at: Place, what: number) => object>> = {
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
  [requests.timeline]: ({ textDocument }) => textDocument,
  [requests.seasonCard]: ({ textDocument }) => textDocument,
  [requests.roomCard]: ({ textDocument: { uri }, position }) => ({ uri, position }),
  [requests.rowAt]: ({ textDocument: { uri }, position }) => ({ uri, position }),
  [requests.explain]: ({ textDocument: { uri }, position }) => ({ uri, position }),
  [requests.explainFigure]: ({ textDocument: { uri } }, what) => ({
    uri,
    figure: ['R2.latest', 'S1.peak', 'R2.free-gas-volume', 'nothing'][what % 4],
  }),
  [requests.pins]: ({ textDocument: { uri }, position }) => ({ uri, position }),
  [requests.otherWeek]: ({ textDocument: { uri } }, what) => ({
    uri,
    fill: ['R2-gala', 'R1-gala', 'B1-gala', 'nothing'][what % 4],
    ...(what % 3 === 0 && { week: '2027-W02' }),
  }),
  [requests.planTexts]: ({ textDocument }) => textDocument,
};

function methods(isWanted: (name: string) => boolean): string[] {
  return Object.keys(REQUESTS).filter(isWanted);
}

/** Lines and characters in the text, and also before its start and behind its end. */
export const asking: fc.Arbitrary<Asking> = fc.record({
  // Our own requests mostly wait for what takes longer.
  method: fc.oneof(
    { weight: 12, arbitrary: fc.constantFrom(...methods((name) => !name.startsWith('lotwright/'))) },
    { weight: 1, arbitrary: fc.constantFrom(...methods((name) => name.startsWith('lotwright/'))) },
  ),
  file: fc.nat({ max: 5 }),
  line: fc.oneof({ weight: 6, arbitrary: fc.nat({ max: 150 }) }, fc.constantFrom(-1, 100_000, 2_147_483_647)),
  character: fc.oneof(
    { weight: 6, arbitrary: fc.nat({ max: 90 }) },
    fc.constantFrom(-1, 100_000, 2_147_483_647),
  ),
  what: fc.nat({ max: 60 }),
});
