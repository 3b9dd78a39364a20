import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { test as base, chromium, expect } from '@playwright/test';
import { CHROMIUM, startServer } from '../lib/server.mjs';
import { Window } from './window.mjs';

export { expect };

const root = path.resolve(import.meta.dirname, '../../..');

function git(cwd, ...args) {
  const who = ['-c', 'user.name=t', '-c', 'user.email=t@example.invalid', '-c', 'init.defaultBranch=main'];
  execFileSync('git', [...who, ...args], { cwd, stdio: 'pipe' });
}

/** What VS Code itself says in the console, in any window, whatever the extension. */
const NOISE = [
  /Failed to load resource/,
  /bad HTTP response code \(404\) was received when fetching the script/,
  /vsda|favicon|manifest\.json|serviceWorker/,
  /Timed out waiting for authentication provider/,
  // In another language it looks for the translations of its own extensions.
  /No extension gallery service configured/,
  /Activating extension 'vscode\.[a-z-]+' failed/,
  // Its extension host got no turn on a busy machine. Ours takes no part in saving.
  /Aborted onWillSaveTextDocument-event after \d+ms/,
];

/**
 * The editor's display language, without a language pack: its own texts stay English, extensions speak the language.
 * The window learns it from the script that carries its texts.
 */
async function speak(page, language) {
  await page.route('**/out/nls.messages.js', async (route) => {
    const response = await route.fetch();
    const body = `${await response.text()}\n;globalThis._VSCODE_NLS_LANGUAGE = ${JSON.stringify(language)};`;
    await route.fulfill({ response, body });
  });
}

export const test = base.extend({
  /** One server and one browser profile for all tests: the profile's cache keeps VS Code's own scripts. */
  server: [
    // biome-ignore lint/correctness/noEmptyPattern: the test runner reads the names of what a fixture needs from a pattern
    async ({}, use) => {
      const vsix = process.env.VSIX ?? path.join(root, 'out/lotwright.vsix');
      const server = await startServer({ driver: false, install: [vsix] });
      await use(server);
      await server.stop();
    },
    { scope: 'worker' },
  ],
  profile: [
    async ({ server }, use) => {
      const context = await chromium.launchPersistentContext(path.join(server.dir, 'profile'), {
        ...CHROMIUM,
        viewport: { width: 1280, height: 800 },
        locale: 'en-GB',
      });
      // What cannot be clicked is told before the whole test runs out of time.
      context.setDefaultTimeout(30_000);
      await use(context);
      await context.close();
    },
    { scope: 'worker' },
  ],
  options: [{}, { option: true }],
  /** A fresh copy of the sample plans, under git. */
  // biome-ignore lint/correctness/noEmptyPattern: as above
  workspace: async ({}, use) => {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright-ui-'));
    fs.cpSync(path.join(root, 'sample-plans'), folder, { recursive: true });
    git(folder, 'init', '-q');
    git(folder, 'add', '.');
    git(folder, 'commit', '-qm', 'first');
    await use(folder);
    fs.rmSync(folder, { recursive: true, force: true });
  },
  /** A window on a sample plan with the extension installed, ready to be used; `log` has what its console said. */
  vscode: async ({ server, profile, workspace, options }, use, info) => {
    const page = await profile.newPage();
    if (options.viewport) await page.setViewportSize(options.viewport);
    const log = [];
    page.on('console', (message) => log.push({ type: message.type(), text: message.text() }));
    page.on('pageerror', (error) => log.push({ type: 'error', text: String(error) }));
    server.writeSettings(options.settings ?? {});
    const folder = path.join(workspace, options.folder ?? '');
    const window = new Window(page, server, folder);
    window.errors = () =>
      log.filter(({ type, text }) => type === 'error' && !NOISE.some((noise) => noise.test(text)));
    window.policyViolations = () => log.filter(({ text }) => /Content Security Policy/i.test(text));
    fs.mkdirSync(folder, { recursive: true });
    if (options.language) await speak(page, options.language);
    const file = options.file && path.join(folder, options.file);
    await page.goto(server.url({ folder, file }), { waitUntil: 'commit' });
    await window.ready();
    await use(window);
    if (info.status !== info.expectedStatus) {
      await page.screenshot({ path: info.outputPath('window.png') }).catch(() => {});
      fs.writeFileSync(
        info.outputPath('page.log'),
        log.map(({ type, text }) => `${type} ${text}`).join('\n'),
      );
    }
    await page.close({ runBeforeUnload: false });
  },
});
