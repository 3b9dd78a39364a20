// Makes the installed packages into a VS Code that starts: run once after `npm ci`.
// 1. code-server's VS Code looks for its modules in lib/vscode/node_modules: point that at ours.
// 2. a folder of only the built-in extensions that the tests need (links, nothing copied).
import fs from 'node:fs';
import path from 'node:path';

const here = import.meta.dirname;
const vscode = path.join(here, 'node_modules/code-server/lib/vscode');
const link = path.join(vscode, 'node_modules');
fs.rmSync(link, { recursive: true, force: true });
fs.symlinkSync('../../..', link, 'junction');

export const BUILTINS = [
  'git',
  'git-base',
  'yaml',
  'json',
  'javascript',
  'typescript-basics',
  'markdown-basics',
  'markdown-language-features',
  'diff',
  'configuration-editing',
  'merge-conflict',
  'theme-defaults',
  'theme-seti',
  'log',
  'shellscript',
  'docker',
  'ini',
];
const builtins = path.join(here, '.builtin');
fs.rmSync(builtins, { recursive: true, force: true });
fs.mkdirSync(builtins);
for (const name of BUILTINS) {
  const from = path.join(vscode, 'extensions', name);
  if (!fs.existsSync(from)) throw new Error(`no built-in extension ${name} in this VS Code`);
  fs.symlinkSync(from, path.join(builtins, name), 'junction');
}
console.log(
  'VS Code',
  JSON.parse(fs.readFileSync(path.join(vscode, 'package.json'), 'utf8')).version,
  'ready',
);
