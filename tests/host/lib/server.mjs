// Starts and stops the VS Code that the tests use.
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';

const HOST = path.resolve(import.meta.dirname, '..');
const VSCODE = process.env.HOST_VSCODE ?? path.join(HOST, 'node_modules/code-server/lib/vscode');
const ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-dev-shm-usage',
  '--force-prefers-reduced-motion',
];
export const CHROMIUM = { executablePath: process.env.CHROMIUM_PATH ?? '/usr/bin/chromium', args: ARGS };

/** The Node that this VS Code needs, from node_modules; a newer system Node does as well. */
export function nodeFor() {
  if (process.env.HOST_NODE) return process.env.HOST_NODE;
  const bin = path.join(
    HOST,
    `node_modules/node-${process.platform === 'win32' ? 'win' : process.platform}-${process.arch}/bin/node`,
  );
  return fs.existsSync(bin) ? bin : process.execPath;
}

/** What every window starts with: quiet, still, and the same on each run. */
export const SETTINGS = {
  'security.workspace.trust.enabled': false,
  'chat.disableAIFeatures': true,
  'workbench.startupEditor': 'none',
  'telemetry.telemetryLevel': 'off',
  'workbench.enableExperiments': false,
  'workbench.tips.enabled': false,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.colorTheme': 'Default Dark Modern',
  'extensions.ignoreRecommendations': true,
  'extensions.autoCheckUpdates': false,
  'extensions.autoUpdate': false,
  'git.openRepositoryInParentFolders': 'never',
  'git.autofetch': false,
  'files.autoSave': 'off',
  'editor.minimap.enabled': false,
  'editor.hover.delay': 100,
  'editor.cursorBlinking': 'solid',
  'editor.cursorSmoothCaretAnimation': 'off',
  'workbench.reduceMotion': 'on',
  'workbench.list.smoothScrolling': false,
  'window.dialogStyle': 'custom',
  'files.simpleDialog.enable': true,
};

/**
 * install: extension folders or .vsix files that every window has, as a user would have them.
 * driver: true lets an address name an extensionDevelopmentPath and an extensionTestsPath; VS Code then shows no
 * notification toasts and answers no dialogs, so windows that a person's view is tested in go without it.
 */
export async function startServer({
  settings = {},
  install = [],
  driver = true,
  args = [],
  env = {},
  builtins = process.env.HOST_VSCODE ? null : path.join(HOST, '.builtin'),
  keep = false,
} = {}) {
  const dir = fs.mkdtempSync(path.join(os.tmpdir(), 'vscode-host-'));
  const user = path.join(dir, 'data/User');
  fs.mkdirSync(user, { recursive: true });
  const settingsFile = path.join(user, 'settings.json');
  const writeSettings = (more) =>
    fs.writeFileSync(settingsFile, JSON.stringify({ ...SETTINGS, ...settings, ...more }, null, 2));
  writeSettings({});
  const main = path.join(VSCODE, 'out/server-main.js');
  const common = [
    '--accept-server-license-terms',
    '--server-data-dir',
    dir,
    '--disable-telemetry',
    ...(builtins ? ['--builtin-extensions-dir', builtins] : []),
  ];
  // VSCODE_CLI=1: no login shell is started to read the user's environment (2 s or more, and theirs would differ).
  const environment = {
    ...process.env,
    VSCODE_CLI: '1',
    EXTENSIONS_GALLERY: '{}',
    NODE_V8_COVERAGE: '',
    HOME: path.join(dir, 'home'),
    ...env,
  };
  for (const [k, v] of Object.entries(environment)) if (v === '') delete environment[k];
  fs.mkdirSync(environment.HOME ?? path.join(dir, 'home'), { recursive: true });
  const packed = install.filter((f) => f.endsWith('.vsix'));
  const folders = install.filter((f) => !f.endsWith('.vsix'));
  if (folders.length) fs.mkdirSync(path.join(dir, 'extensions'), { recursive: true });
  for (const from of folders) {
    // found by the first start, which lists the folder in extensions.json
    const m = JSON.parse(fs.readFileSync(path.join(from, 'package.json'), 'utf8'));
    fs.symlinkSync(from, path.join(dir, 'extensions', `${m.publisher}.${m.name}-${m.version}`), 'junction');
  }
  for (const file of packed)
    await once(
      spawn(nodeFor(), [main, ...common, '--install-extension', file, '--force'], {
        env: environment,
        stdio: 'pipe',
      }),
      `install ${file}`,
    );

  const log = fs.createWriteStream(path.join(dir, 'server.log'));
  const child = spawn(
    nodeFor(),
    [
      main,
      ...common,
      '--without-connection-token',
      '--host',
      '127.0.0.1',
      '--port',
      '0',
      ...(driver ? ['--enable-smoke-test-driver'] : []),
      ...args,
    ],
    { env: environment, stdio: ['ignore', 'pipe', 'pipe'] },
  );
  const ended = new Promise((r) => child.once('exit', (code, signal) => r({ code, signal })));
  const port = await new Promise((resolve, reject) => {
    let text = '';
    const timer = setTimeout(() => reject(new Error(`the server did not start in 60 s:\n${text}`)), 60_000);
    const read = (d) => {
      text += d;
      log.write(d);
      const m = /agent listening on (\d+)/.exec(text);
      if (m) {
        clearTimeout(timer);
        resolve(Number(m[1]));
      }
    };
    child.stdout.on('data', read);
    child.stderr.on('data', read);
    ended.then((e) => {
      clearTimeout(timer);
      reject(new Error(`the server ended (${e.code ?? e.signal}):\n${text}`));
    });
  });
  const authority = `127.0.0.1:${port}`;
  const remote = (p) => `vscode-remote://${authority}${p}`;
  return {
    port,
    dir,
    child,
    settingsFile,
    writeSettings,
    remote,
    /** The address of a window: a folder, and what to load in it. */
    url({ folder, file, extension, testsPath, extensionEnv, payload = [] } = {}) {
      const list = [...payload, ['skipWelcome', 'true']];
      if (extension) list.push(['extensionDevelopmentPath', remote(extension)]); // VS Code keeps only the last one
      if (testsPath) list.push(['extensionTestsPath', remote(testsPath)]);
      if (extensionEnv) list.push(['extensionEnvironment', JSON.stringify(extensionEnv)]);
      if (file) list.push(['openFile', remote(file)]);
      const q = new URLSearchParams({
        ...(folder ? { folder } : { ew: 'true' }),
        payload: JSON.stringify(list),
      });
      return `http://${authority}/?${q}`;
    },
    async stop() {
      child.kill('SIGTERM');
      const slow = setTimeout(() => child.kill('SIGKILL'), 5000);
      const e = await ended;
      clearTimeout(slow);
      log.end();
      if (!keep) fs.rmSync(dir, { recursive: true, force: true, maxRetries: 5 });
      return e;
    },
  };
}

function once(child, what) {
  let text = '';
  child.stdout.on('data', (d) => (text += d));
  child.stderr.on('data', (d) => (text += d));
  return new Promise((ok, no) =>
    child.once('exit', (code) => (code ? no(new Error(`${what}: exit ${code}\n${text}`)) : ok(text))),
  );
}
