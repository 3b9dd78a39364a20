// `npm run --silent lotwright -- <arguments>`: the command line from a checkout, built anew where the code has changed.
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { build, root } from './run.mjs';

const program = path.join(root, 'dist/cli.cjs');

function newest(folder) {
  return Math.max(
    ...fs
      .readdirSync(folder, { recursive: true, withFileTypes: true })
      .map((entry) =>
        entry.isFile() ? fs.statSync(path.join(entry.parentPath ?? entry.path, entry.name)).mtimeMs : 0,
      ),
  );
}

if (!fs.existsSync(program) || newest(path.join(root, 'src')) > fs.statSync(program).mtimeMs) await build();
// npm runs scripts in the package's folder: the user's own folder is in INIT_CWD.
const child = spawn(process.execPath, [program, ...process.argv.slice(2)], {
  stdio: 'inherit',
  cwd: process.env.INIT_CWD ?? process.cwd(),
});
// Ctrl-C is for the program, which ends with the best it has; this only waits for it.
process.on('SIGINT', () => {});
child.once('exit', (code) => process.exit(code ?? 2));
