import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { cautionInShort } from '../../src/room/caution';
import { root } from '../cli/in-process';
import { findingsOnExample, readPage } from '../findings/page';

const bundle: Record<string, string> = JSON.parse(
  fs.readFileSync(path.join(root, 'extension/l10n/bundle.l10n.de.json'), 'utf8'),
);

/** Of the editor only what says its language, and what a snippet is. */
vi.mock('vscode', () => ({
  l10n: { bundle },
  env: { language: 'de' },
  SnippetString: class {
    readonly value = '';
  },
}));

const none = {} as never;

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

  it('is hovers', async () => {
    const { inEditorsLanguage } = await import('../../extension/language-middleware');
    const value = `*${cautionInShort}*\n\n---\n\nDay the door is sealed. Left out, the room is kept in air.`;
    const hover = { contents: [{ value }] };
    await inEditorsLanguage.provideHover?.(none, none, none, (async () => hover) as never);
    expect(hover.contents[0]?.value).toBe(
      `*${bundle[cautionInShort]}*\n\n---\n\nTag, an dem die Tür verschlossen wird. Weggelassen, wird die Kühlzelle in Luft gehalten.`,
    );
  });

  it('is what proposals are, and the names of whole entries; what they write stays', async () => {
    const { inEditorsLanguage } = await import('../../extension/language-middleware');
    const { SnippetString } = await import('vscode');
    const key = {
      label: 'rooms',
      detail: 'required',
      documentation: 'Rooms, by identifier.',
      insertText: 'rooms:',
      filterText: 'rooms:',
    };
    const entry = {
      label: 'new room',
      detail: 'with all it needs',
      documentation: 'Writes a room with an example for each key it needs. Write your own over them.',
      insertText: new SnippetString(''),
      filterText: 'R0:',
    };
    await inEditorsLanguage.provideCompletionItem?.(none, none, none, none, (async () => [
      key,
      entry,
    ]) as never);
    expect(key).toEqual({
      label: 'rooms',
      detail: 'nötig',
      documentation: 'Kühlzellen, nach Kennung.',
      insertText: 'rooms:',
      filterText: 'rooms:',
    });
    expect(entry).toMatchObject({
      label: 'neu: Kühlzelle',
      documentation:
        'Schreibt einen Eintrag (Kühlzelle) mit einem Beispiel für jeden nötigen Schlüssel. Mit den eigenen Werten überschreiben.',
      filterText: 'R0:',
    });
  });

  it('is help with quantities, its parts where they stand in the label', async () => {
    const { inEditorsLanguage } = await import('../../extension/language-middleware');
    const signature = {
      label: 'from: number Pa | kPa',
      documentation: 'Pressure at the start of the test. Example: 250 Pa.',
      parameters: [{ label: [6, 12] }, { label: [13, 21] }],
    };
    const help = { signatures: [signature] };
    await inEditorsLanguage.provideSignatureHelp?.(none, none, none, none, (async () => help) as never);
    expect(signature).toEqual({
      label: 'from: Zahl Pa | kPa',
      documentation: 'Druck zu Beginn der Prüfung. Beispiel: „250 Pa“.',
      parameters: [{ label: [6, 10] }, { label: [11, 19] }],
    });
  });
});
