import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { getLanguageService } from 'yaml-language-server';

const root = path.resolve(import.meta.dirname, '../..');
const SCHEMA = readFileSync(path.join(root, 'schemas/lot-plan.schema.json'), 'utf8');

/** The general YAML language service, with the schema that the manifest assigns to plan files. */
function generalYaml() {
  const service = getLanguageService({
    schemaRequestService: async () => SCHEMA,
    workspaceContext: { resolveRelativePath: (relative) => relative },
  });
  service.configure({
    validate: true,
    hover: true,
    completion: true,
    schemas: [{ uri: 'file:///lot-plan.schema.json', fileMatch: ['*.lotplan.yaml'] }],
  });
  return service;
}

let documents = 0;
/** A document of its own each time: the service keeps what it has read of one by its address. */
function documentOf(text: string): TextDocument {
  documents += 1;
  return TextDocument.create(`file:///p/${documents}.lotplan.yaml`, 'yaml', 1, text);
}

const samples = path.join(root, 'sample-plans');
const files = readdirSync(samples, { recursive: true, encoding: 'utf8' }).filter((name) =>
  name.endsWith('.lotplan.yaml'),
);

describe('a plan that is opened as YAML, where the schema is all there is', () => {
  const service = generalYaml();

  it('is right by the schema, in every file of the samples but those with mistakes', async () => {
    const wrong: string[] = [];
    const right = files.filter((name) => !name.startsWith('with-mistakes'));
    for (const name of right) {
      const document = documentOf(readFileSync(path.join(samples, name), 'utf8'));
      const found = await service.doValidation(document, false);
      wrong.push(...found.map(({ message, range }) => `${name}:${range.start.line + 1} ${message}`));
    }
    expect(right.length).toBeGreaterThan(20);
    expect(wrong).toEqual([]);
  }, 120_000);

  it('has what a key means, and what may stand there', async () => {
    const text = readFileSync(path.join(samples, 'first-season/fruit.lotplan.yaml'), 'utf8');
    const document = documentOf(text);
    const at = document.positionAt(text.indexOf('    room: R2') + 5);
    const hover = await service.doHover(document, at);
    expect(JSON.stringify(hover?.contents)).toContain('The room that is filled.');
    const cut = documentOf(text.replace('    room: R2\n', '    ro\n'));
    const place = cut.positionAt(cut.getText().indexOf('    ro\n') + 6);
    const { items } = await service.doComplete(cut, place, false);
    expect(items.map(({ label }) => label)).toContain('room');
  });

  it('is told that a key is not of the language, at the key', async () => {
    const text = readFileSync(path.join(samples, 'first-season/fruit.lotplan.yaml'), 'utf8');
    const document = documentOf(text.replace('    room: R2\n', '    rooom: R2\n'));
    const found = await service.doValidation(document, false);
    expect(found.map(({ range }) => document.getText(range))).toContain('rooom');
  });
});
