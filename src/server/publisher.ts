import type { Diagnostic, PublishDiagnosticsParams } from 'vscode-languageserver';
import type { Finding } from '../findings/types';
import type { Plan } from '../plan/model';
import { mostImportant } from './services/diagnostics';

/** All that a file's diagnostics follow from. */
export interface MadeOf {
  readonly findings: readonly Finding[];
  /** The plan's texts, in which places become lines. */
  readonly files: Plan['files'];
  /** The plan's addresses: the very same object where none has changed. */
  readonly addresses: unknown;
}

/** A finding in the words of the protocol. */
export interface InWords {
  make(finding: Finding): Diagnostic;
  /** Whether the finding would make just this diagnostic. */
  isOf(diagnostic: Diagnostic, finding: Finding): boolean;
}

interface Sent {
  readonly of: MadeOf;
  readonly diagnostics: readonly Diagnostic[];
}

/** Sends a file's diagnostics only when they differ from what was sent last. */
export class Publisher {
  private readonly sent = new Map<string, Sent>();

  constructor(private readonly send: (params: PublishDiagnosticsParams) => void) {}

  publish(uri: string, of: MadeOf, inWords: InWords, version: number | undefined): void {
    const last = this.sent.get(uri);
    if (last && isMadeOfSame(last.of, of)) return;
    const findings = mostImportant(of.findings);
    const before = last?.diagnostics ?? NONE;
    if (areOf(before, findings, inWords)) {
      this.sent.set(uri, { of, diagnostics: before });
      return;
    }
    const diagnostics = findings.map((finding) => inWords.make(finding));
    this.sent.set(uri, { of, diagnostics });
    this.send({ uri, diagnostics, ...(version === undefined ? {} : { version }) });
  }

  /** Takes back what was sent about files that are in no plan any more. */
  keepOnly(uris: ReadonlySet<string>): void {
    for (const [uri, { diagnostics }] of [...this.sent]) {
      if (uris.has(uri)) continue;
      if (diagnostics.length > 0) this.send({ uri, diagnostics: [] });
      this.sent.delete(uri);
    }
  }
}

const NONE: readonly Diagnostic[] = [];

function areOf(diagnostics: readonly Diagnostic[], findings: readonly Finding[], { isOf }: InWords): boolean {
  if (diagnostics.length !== findings.length) return false;
  return diagnostics.every((diagnostic, index) => {
    const finding = findings[index];
    return finding !== undefined && isOf(diagnostic, finding);
  });
}

/** The same texts have the same places: those that move do so only when a text is read again. */
function isMadeOfSame(a: MadeOf, b: MadeOf): boolean {
  if (a.addresses !== b.addresses || a.files.size !== b.files.size) return false;
  for (const [path, file] of a.files) if (b.files.get(path) !== file) return false;
  if (a.findings.length !== b.findings.length) return false;
  return a.findings.every((finding, index) => saysSame(finding, b.findings[index]));
}

/** Whether two findings are made of the same problem. */
function saysSame(a: Finding, b: Finding | undefined): boolean {
  if (a === b) return true;
  if (b === undefined) return false;
  const isSameText = a.code === b.code && a.severity === b.severity && a.message === b.message;
  return isSameText && a.at === b.at && a.related === b.related;
}
