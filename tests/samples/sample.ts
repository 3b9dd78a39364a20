import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export interface SampleFile {
  readonly path: string;
  readonly text: string;
}

const folder = fileURLToPath(new URL('../../sample-plans/', import.meta.url));

/** A sample plan's files, paths within its folder, in the order of their names. */
export function sampleFiles(name: string): SampleFile[] {
  const root = join(folder, name);
  return readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.lotplan.yaml'))
    .map((path) => path.replaceAll('\\', '/'))
    .sort()
    .map((path) => ({ path, text: readFileSync(join(root, path), 'utf8').replaceAll('\r\n', '\n') }));
}
