import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { planSchema } from '../../src/plan/check/schema';
import type { Schema } from '../../src/plan/check/schema-types';
import { readPlan } from '../../src/plan/read';
import { examplePlan } from '../../src/tools/example-plan';
import { generatedFiles } from '../../src/tools/generated-files';

const root = new URL('../../', import.meta.url);

describe('generated files of the plan language', () => {
  for (const [name, text] of Object.entries(generatedFiles()))
    it(`${name} is what \`npm run generate\` writes`, () => {
      const committed = readFileSync(fileURLToPath(new URL(name, root)), 'utf8').replaceAll('\r\n', '\n');
      expect(committed === text, 'run `npm run generate` and commit what it writes').toBe(true);
    });
});

describe('the published schema', () => {
  it('says for every value what it means, and shows an example of every single value', () => {
    const silent: string[] = [];
    visit(planSchema, '', (schema, path) => {
      const isSingle = schema.type !== 'object' && schema.type !== 'array';
      if (!schema.description || (isSingle && !schema.examples)) silent.push(path);
    });
    expect(silent).toEqual([]);
  });

  it('names no host', () => {
    expect(planSchema.$id).toBe('urn:lotwright:schema:lot-plan:1');
  });
});

describe('the plan in the language reference', () => {
  it('is read without a problem', () => {
    expect(readPlan([{ path: 'example.lotplan.yaml', text: examplePlan }]).problems).toEqual([]);
  });
});

describe('reading a plan', () => {
  it('needs the YAML reader and nothing else at run time', async () => {
    const { metafile } = await build({
      entryPoints: [fileURLToPath(new URL('src/plan/read.ts', root))],
      bundle: true,
      write: false,
      metafile: true,
      format: 'esm',
    });
    const inputs = Object.keys(metafile.inputs);
    const packages = inputs.flatMap((input) => /node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(input)?.[1] ?? []);
    expect([...new Set(packages)]).toEqual(['yaml']);
    expect(inputs.flatMap((input) => /plan\/schema\/(.*)$/.exec(input)?.[1] ?? []).sort()).toEqual([
      'identifier.ts',
      'language-version.ts',
    ]);
  });
});

/** Every value's schema; those of map keys and of entries, which their section describes, are left out. */
function visit(schema: Schema, path: string, see: (schema: Schema, path: string) => void): void {
  for (const [key, value] of Object.entries(schema.properties ?? {})) {
    see(value, `${path}/${key}`);
    visit(value, `${path}/${key}`, see);
  }
  if (schema.items) visit(schema.items, `${path}/[]`, see);
  if (typeof schema.additionalProperties === 'object') visit(schema.additionalProperties, `${path}/*`, see);
}
