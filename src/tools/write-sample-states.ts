/**
 * Writes the sample season before harvest, in the middle of it and in March: `npx tsx src/tools/write-sample-states.ts`.
 * A test holds that the three are up to date.
 */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { STATES, stateFiles } from '../../tests/generate/season-states';

const samples = fileURLToPath(new URL('../../sample-plans/', import.meta.url));
for (const state of STATES) {
  const folder = join(samples, state.name);
  rmSync(folder, { recursive: true, force: true });
  for (const { path, text } of stateFiles(state)) {
    const file = join(folder, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
  }
}
