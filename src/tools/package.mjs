// Packs the extension into out/lotwright.vsix from a staged folder that holds only what it needs.

import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { root } from './run.mjs';

const { createVSIX } = createRequire(import.meta.url)('@vscode/vsce');
const staged = path.join(root, 'out/package');
const FILES = [
  'README.md',
  'CHANGELOG.md',
  'LICENSE',
  'dist',
  'extension/language',
  'extension/images',
  'extension/walkthrough',
  'extension/l10n',
  'package.nls.json',
  'package.nls.de.json',
];
/** Built for the checkout and not read by the extension; the English texts stand in its code too. */
const NOT_PACKED = [
  'dist/schemas',
  'extension/l10n/bundle.l10n.json',
  'extension/l10n/package.nls.json',
  'extension/l10n/package.nls.de.json',
];
/** What starts by itself; all other programs stand in `dist/packed`. */
const BY_ITSELF = ['extension.cjs', 'server.cjs'];
/** Texts without the spaces that are for people. */
const JSON_FILES = ['extension/l10n/bundle.l10n.de.json', 'package.nls.json', 'package.nls.de.json'];

/** The manifest without what only a checkout needs. */
function manifest() {
  const { scripts, devDependencies, allowScripts, ...kept } = JSON.parse(
    fs.readFileSync(path.join(root, 'package.json'), 'utf8'),
  );
  return kept;
}

fs.rmSync(staged, { recursive: true, force: true });
fs.mkdirSync(staged, { recursive: true });
for (const name of FILES) {
  if (!fs.existsSync(path.join(root, name))) throw new Error(`${name} is missing: build first`);
  fs.cpSync(path.join(root, name), path.join(staged, name), { recursive: true });
}
// The README's pictures are for people who read it in the checkout; who has the extension has the real thing.
const readme = path.join(staged, 'README.md');
const isPicture = (line) => line.includes('![') || /^\| (light|---) \|/.test(line);
fs.writeFileSync(
  readme,
  fs
    .readFileSync(readme, 'utf8')
    .split('\n')
    .filter((line) => !isPicture(line))
    .join('\n'),
);
for (const name of NOT_PACKED) fs.rmSync(path.join(staged, name), { recursive: true, force: true });
const dist = path.join(staged, 'dist');
const isProgram = (name) => name.endsWith('.cjs') && !BY_ITSELF.includes(name);
for (const name of fs.readdirSync(dist).filter(isProgram)) fs.rmSync(path.join(dist, name));
fs.cpSync(path.join(dist, 'packed'), dist, { recursive: true });
fs.rmSync(path.join(dist, 'packed'), { recursive: true });
for (const name of JSON_FILES) {
  const file = path.join(staged, name);
  fs.writeFileSync(file, JSON.stringify(JSON.parse(fs.readFileSync(file, 'utf8'))));
}
fs.writeFileSync(path.join(staged, 'package.json'), `${JSON.stringify(manifest(), null, 2)}\n`);
const packagePath = path.join(root, 'out/lotwright.vsix');
await createVSIX({
  cwd: staged,
  packagePath,
  dependencies: false,
  allowMissingRepository: true,
  skipLicense: false,
  rewriteRelativeLinks: false,
});
const size = fs.statSync(packagePath).size;
console.log(`out/lotwright.vsix, ${(size / 1e6).toFixed(2)} MB`);
// A third of it is the solver, which ships once for both hosts; the rest is watched so that it grows for a reason only.
if (size > 3_400_000) throw new Error('the packed extension is over 3.40 MB');
