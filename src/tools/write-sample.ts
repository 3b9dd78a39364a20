/** Writes the full-size sample plan: `npx tsx src/tools/write-sample.ts`. A test holds that it is up to date. */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { fullSeasonPromises } from '../../tests/generate/promises-text';
import { FULL_SEASON, generateSeason } from '../../tests/generate/season';

const folder = fileURLToPath(new URL('../../sample-plans/full-season/', import.meta.url));
rmSync(folder, { recursive: true, force: true });
for (const { path, text } of [...generateSeason(FULL_SEASON), fullSeasonPromises]) {
  const file = join(folder, path);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
}
