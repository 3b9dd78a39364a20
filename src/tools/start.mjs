// `npm start`: from nothing installed to the sample season in an editor.
// `npm start -- --no-editor` stops before the editor.
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import {
  build,
  installPackages,
  installServedEditor,
  onPath,
  packExtension,
  root,
  run,
  say,
} from './run.mjs';

const { 'no-editor': withoutEditor, help } = parseArgs({
  options: { 'no-editor': { type: 'boolean', default: false }, help: { type: 'boolean', short: 'h' } },
}).values;
if (help) {
  console.log('npm start [-- --no-editor]: the sample season in an editor; --no-editor stops before it.');
  process.exit(0);
}

const sample = 'sample-plans/full-season';
// A finding is not a failure of the tool: 1 says that the plan has some.
const lotwright = (...args) => run(process.execPath, ['dist/cli.cjs', ...args], { allow: [0, 1] });

console.log('Lotwright: installs what is missing, builds, runs the sample season and opens it in VS Code.');
console.log('Two minutes or so the first time, less after that.');
await installPackages();
say('Building');
await build();
say(`Checking the sample season (${sample})`);
await lotwright('check', sample);
say('Its rooms');
await lotwright('rooms', sample);
say('Its release schedule (about ten seconds)');
await lotwright('release', sample);
if (withoutEditor) process.exit(0);

const desktop = onPath('code');
if (desktop) {
  say('Opening it in your VS Code, in a window of its own; nothing is installed into it');
  spawn(desktop, ['--new-window', `--extensionDevelopmentPath=${root}`, path.join(root, sample)], {
    stdio: 'ignore',
    detached: true,
    shell: process.platform === 'win32',
  }).unref();
} else {
  await serve();
}

/** Where there is no desktop VS Code: one served on this machine only. */
async function serve() {
  await installServedEditor();
  const vsix = await packExtension();
  const { startServer } = await import(pathToFileURL(path.join(root, 'tests/host/lib/server.mjs')).href);
  const server = await startServer({
    driver: false,
    install: [vsix],
    settings: { 'window.dialogStyle': 'native' },
  });
  const folder = path.join(root, sample);
  const file = path.join(
    folder,
    fs
      .readdirSync(folder)
      .filter((name) => name.endsWith('.lotplan.yaml'))
      .sort()[0],
  );
  say(
    'No desktop VS Code (`code`) was found, so one is served on this machine. Open this address in a browser:',
  );
  console.log(`\n  ${server.url({ folder, file })}\n`);
  console.log('The room timeline is behind the Lotwright symbol at the left. Ctrl-C here ends it.');
  const stop = async () => {
    await server.stop();
    process.exit(0);
  };
  process.once('SIGINT', stop);
  process.once('SIGTERM', stop);
}
