// What the start and test scripts share. Plain Node, so that they run before anything is installed.
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
export const say = (text) => console.log(`\n— ${text}`);

/** So many characters of what a program said last are kept to be told again. */
const LAST = 3000;

/**
 * Runs a program in the checkout and shows its output; rejects when it fails, unless its code is allowed. Where nobody
 * sits at a terminal the error has the last of the output as its `said`.
 */
export function run(program, args, { cwd = root, allow = [0], env = {}, quiet = false } = {}) {
  return new Promise((resolve, reject) => {
    const heard = quiet || !process.stdout.isTTY ? 'pipe' : 'inherit';
    const child = spawn(program, args, {
      cwd,
      env: { ...process.env, ...env },
      stdio: ['ignore', heard, heard],
      shell: process.platform === 'win32' && program === 'npm',
    });
    let text = '';
    const hear = (from, to) =>
      from?.on('data', (data) => {
        text += data;
        if (quiet) return;
        to.write(data);
        text = text.slice(-LAST);
      });
    hear(child.stdout, process.stdout);
    hear(child.stderr, process.stderr);
    child.once('error', reject);
    child.once('close', (code, signal) => {
      if (code !== null && allow.includes(code)) return resolve({ code, text });
      const ended = `${program} ${args.join(' ')} ended with ${code ?? signal}`;
      reject(Object.assign(new Error(quiet && text ? `${ended}\n${text}` : ended), { said: text }));
    });
  });
}

/** Is there a program of this name? */
export function onPath(name) {
  const endings = process.platform === 'win32' ? ['.cmd', '.exe'] : [''];
  for (const folder of (process.env.PATH ?? '').split(path.delimiter))
    for (const ending of endings) {
      const file = path.join(folder, name + ending);
      if (folder && fs.existsSync(file)) return file;
    }
  return undefined;
}

/** A folder's packages are there when the lock file they were installed from is the one in the checkout. */
function installed(folder) {
  const mark = path.join(folder, 'node_modules/.lotwright-installed');
  const lock = fs.readFileSync(path.join(folder, 'package-lock.json'), 'utf8');
  return {
    is: fs.existsSync(mark) && fs.readFileSync(mark, 'utf8') === lock,
    done: () => fs.writeFileSync(mark, lock),
  };
}

/** Installs the packages of the checkout where they are missing. */
export async function installPackages() {
  if (Number(process.versions.node.split('.')[0]) < 20)
    throw new Error(`Node 20 or later is needed; this is ${process.versions.node}`);
  const state = installed(root);
  if (state.is) return;
  say('Installing packages (about half a minute the first time)');
  await run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error']);
  state.done();
}

/** Installs the VS Code that the suites run in and that is served where there is no desktop one. */
export async function installServedEditor() {
  const folder = path.join(root, 'tests/host');
  const state = installed(folder);
  if (!state.is) {
    say('Installing a VS Code to run the extension in (about half a gigabyte; half a minute or more)');
    await run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], { cwd: folder });
    state.done();
  }
  await run(process.execPath, ['setup.mjs'], { cwd: folder, quiet: true });
}

export async function build() {
  await run(process.execPath, ['src/tools/build.mjs']);
}

/** Packs the extension; gives the file's path. */
export async function packExtension() {
  await run(process.execPath, ['src/tools/package.mjs'], { quiet: true });
  return path.join(root, 'out/lotwright.vsix');
}
