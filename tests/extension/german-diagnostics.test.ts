import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { root } from '../cli/in-process';
import { findingsOnExample, readPage } from '../findings/page';

const bundle: Record<string, string> = JSON.parse(
  fs.readFileSync(path.join(root, 'extension/l10n/bundle.l10n.de.json'), 'utf8'),
);

/** Of the editor only what says its language. */
vi.mock('vscode', () => ({ l10n: { bundle }, env: { language: 'de' } }));

/** What the client makes of a finding of a page's example. */
function diagnosticOf(code: string) {
  const finding = readPage(code)
    .wrong.flatMap((example) => findingsOnExample(example))
    .find((one) => one.code === code);
  return {
    code: { value: code, target: 'page' },
    message: finding?.message ?? '',
    relatedInformation: (finding?.related ?? []).map(({ message }) => ({ message })),
    fixes: finding?.fixes ?? [],
  };
}

describe('what the client shows of the server, in an editor in German', () => {
  it('is findings with their cautions and related places', async () => {
    const { inEditorsLanguage } = await import('../../extension/language-middleware');
    const shown: ReturnType<typeof diagnosticOf>[] = [];
    const diagnostics = ['lime-dust', 'lot-placed-beyond-its-bins'].map(diagnosticOf);
    const next = (_uri: unknown, list: unknown) => shown.push(...(list as typeof shown));
    inEditorsLanguage.handleDiagnostics?.({} as never, diagnostics as never, next as never);
    expect(shown.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^S1 arbeitet mit Kalk\. Kalkstaub verätzt .*, beide, mit einem kalibrierten/),
      expect.stringMatching(/^Erntepartie L1: \d+ Großkisten angeliefert, aber/),
    ]);
    expect(shown[1]?.relatedInformation[0]?.message).toBe('L1 ist hier festgelegt');
  });

  it('is titles of fixes, and the finding they are of', async () => {
    const { inEditorsLanguage } = await import('../../extension/language-middleware');
    const diagnostic = diagnosticOf('allowance-unused');
    const actions = [
      { title: diagnostic.fixes[0]?.title, diagnostics: [diagnostic] },
      { title: 'What allowance-unused means', diagnostics: [diagnosticOf('allowance-unused')] },
    ];
    const told = await inEditorsLanguage.provideCodeActions?.(
      {} as never,
      {} as never,
      {} as never,
      {} as never,
      (async () => actions) as never,
    );
    expect(told?.map(({ title }) => title)).toEqual([
      'Den Kommentar entfernen',
      'Was allowance-unused bedeutet',
    ]);
    expect(diagnostic.message).toMatch(/^Dieser Kommentar lässt/);
  });
});
