import { type ClientCapabilities, MarkupKind } from 'vscode-languageserver';

/** What a client says that it can do, as far as anything here hangs on it. What it does not say, it cannot. */
export interface ClientAbilities {
  /** It fills in places of a completion one after the other. */
  readonly takesSnippets: boolean;
  /** It shows Markdown in hovers; plain text is shown by all. */
  readonly hoversInMarkdown: boolean;
  /** It answers for its settings when it is asked. */
  readonly tellsSettings: boolean;
  /** It asks again for figures above entries when it is told to. */
  readonly refreshesFigures: boolean;
}

export function abilitiesOf({ textDocument, workspace }: ClientCapabilities): ClientAbilities {
  return {
    takesSnippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    hoversInMarkdown: [textDocument?.hover?.contentFormat].flat().includes(MarkupKind.Markdown),
    tellsSettings: workspace?.configuration === true,
    refreshesFigures: workspace?.codeLens?.refreshSupport === true,
  };
}
