import type { InitializeResult } from 'vscode-languageserver';

/** Kinds of names that are painted, in the order that the painted names count them by. */
export const TOKEN_TYPES: readonly string[] = ['class'];
export const TOKEN_MODIFIERS: readonly string[] = ['declaration', 'defaultLibrary'];

const FOLDERS = { filters: [{ pattern: { glob: '**', matches: 'folder' as const } }] };
/** `TextDocumentSyncKind.Incremental`; the library's own is not loaded for a number. */
const INCREMENTAL = 2;

/** What the server says of itself, whoever asks: it stands by itself so that it can be said before all else is loaded. */
export const initializeResult: InitializeResult = {
  serverInfo: { name: 'Lotwright' },
  capabilities: {
    hoverProvider: true,
    definitionProvider: true,
    referencesProvider: true,
    documentSymbolProvider: true,
    completionProvider: { triggerCharacters: [' ', '{', '[', ','] },
    codeActionProvider: { codeActionKinds: ['quickfix', 'refactor.rewrite', 'source.fixAll'] },
    documentHighlightProvider: true,
    workspaceSymbolProvider: true,
    foldingRangeProvider: true,
    selectionRangeProvider: true,
    documentLinkProvider: {},
    codeLensProvider: {},
    inlayHintProvider: true,
    semanticTokensProvider: {
      legend: { tokenTypes: [...TOKEN_TYPES], tokenModifiers: [...TOKEN_MODIFIERS] },
      full: true,
    },
    signatureHelpProvider: { triggerCharacters: [' '] },
    renameProvider: { prepareProvider: true },
    documentFormattingProvider: true,
    textDocumentSync: INCREMENTAL,
    workspace: {
      workspaceFolders: { supported: true, changeNotifications: true },
      fileOperations: { didDelete: FOLDERS, didRename: FOLDERS },
    },
  },
};
