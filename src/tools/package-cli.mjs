// Packs the command line into out/lotwright-<version>.tgz: what a build server or a colleague without VS Code installs.

import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { root } from './run.mjs';

const staged = path.join(root, 'out/package-cli');
const BESIDE = ['highs.wasm', 'lot-plan.schema.json', 'schemas', 'pages'];
/** What only the editor starts. */
const EDITOR = ['extension.cjs', 'server.cjs', 'server-parts.cjs'];
const { version, description, license, engines } = JSON.parse(
  fs.readFileSync(path.join(root, 'package.json'), 'utf8'),
);

fs.rmSync(staged, { recursive: true, force: true });
fs.mkdirSync(path.join(staged, 'dist'), { recursive: true });
const programs = fs
  .readdirSync(path.join(root, 'dist'))
  .filter((name) => name.endsWith('.cjs') && !EDITOR.includes(name));
for (const name of [...programs, ...BESIDE])
  fs.cpSync(path.join(root, 'dist', name), path.join(staged, 'dist', name), { recursive: true });
for (const name of ['LICENSE', 'CHANGELOG.md', 'README.md'])
  fs.cpSync(path.join(root, name), path.join(staged, name));
const manifest = {
  name: 'lotwright',
  version,
  description,
  license,
  engines: { node: engines.node },
  bin: { lotwright: 'dist/cli.cjs', 'lotwright-assistant': 'dist/mcp.cjs' },
};
fs.writeFileSync(path.join(staged, 'package.json'), `${JSON.stringify(manifest, null, 2)}\n`);
const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
execFileSync(npm, ['pack', '--silent', '--pack-destination', path.join(root, 'out')], { cwd: staged });
const packed = path.join(root, 'out', `lotwright-${version}.tgz`);
console.log(`out/lotwright-${version}.tgz, ${(fs.statSync(packed).size / 1e6).toFixed(2)} MB`);
