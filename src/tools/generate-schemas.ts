/**
 * Writes what is generated from the plan language's schema: the published JSON Schema, the language reference, and
 * the validators the program runs. `npm run generate`; a test fails when what is committed differs.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { generatedFiles } from './generated-files';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');

for (const [name, text] of Object.entries(generatedFiles())) {
  const file = path.join(root, name);
  if (before(file) === text) continue;
  writeFileSync(file, text);
  console.log(`wrote ${name}`);
}

function before(file: string): string | undefined {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return undefined;
  }
}
