import type { Diagnostic, PublishDiagnosticsParams } from 'vscode-languageserver';

/** Sends a file's diagnostics only when they differ from what was sent last. */
export class Publisher {
  private readonly sent = new Map<string, string>();

  constructor(private readonly send: (params: PublishDiagnosticsParams) => void) {}

  publish(uri: string, diagnostics: Diagnostic[], version: number | undefined): void {
    const text = JSON.stringify(diagnostics);
    if ((this.sent.get(uri) ?? '[]') === text) return;
    this.sent.set(uri, text);
    this.send({ uri, diagnostics, ...(version === undefined ? {} : { version }) });
  }

  /** Takes back what was sent about files that are in no plan any more. */
  keepOnly(uris: ReadonlySet<string>): void {
    for (const uri of [...this.sent.keys()]) {
      if (uris.has(uri)) continue;
      this.publish(uri, [], undefined);
      this.sent.delete(uri);
    }
  }
}
