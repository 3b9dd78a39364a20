import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { build } from 'esbuild';
import { type PanelPageOptions, panelPage } from '../../extension/panel/page';

const root = path.resolve(__dirname, '../..');
const host = createRequire(path.join(root, 'tests/host/package.json'));

/** A Chromium and Playwright where both are installed; the tests of the page need them. */
export const chromiumPath = [
  process.env.CHROMIUM_PATH,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
].find((file) => file !== undefined && existsSync(file));

export function browserIsThere(): boolean {
  try {
    host.resolve('@playwright/test');
    return chromiumPath !== undefined;
  } catch {
    return false;
  }
}

/** What the tests use of Playwright's page. Its types are installed only beside the suites in VS Code. */
// biome-ignore lint/suspicious/noExplicitAny: as above
export type Page = any;

export function axeSource(): string {
  return host('axe-core').source;
}

export async function launch(): Promise<Page> {
  const { chromium } = host('@playwright/test');
  return chromium.launch({
    executablePath: chromiumPath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage', '--no-first-run'],
  });
}

export interface Bundle {
  readonly script: string;
  readonly style: string;
}

const PLAIN_PAGE = `
  import { fakeChannel } from './fake-channel';
  import { startPanel } from './panel';
  startPanel(fakeChannel(window), document.getElementById('panel'));`;

/** The page's script with the fake channel in place of the editor's, and its style sheet, as the build makes them. */
export async function bundlePanel(source = PLAIN_PAGE): Promise<Bundle> {
  const panel = path.join(root, 'extension/panel');
  const common = { bundle: true, write: false, target: 'es2022', logLevel: 'error' } as const;
  const script = await build({
    ...common,
    format: 'iife',
    stdin: { contents: source, resolveDir: panel, loader: 'ts' },
  });
  const style = await build({
    ...common,
    entryPoints: [path.join(panel, 'panel.css')],
    outfile: 'panel.css',
  });
  return { script: script.outputFiles[0]?.text ?? '', style: style.outputFiles[0]?.text ?? '' };
}

const ORIGIN = 'http://panel.test';

/** Serves the page, policy and all, without a network. */
export async function servePanel(
  page: Page,
  { script, style }: Bundle,
  { language, words }: Pick<PanelPageOptions, 'language' | 'words'> = {},
): Promise<void> {
  const html = panelPage({
    cspSource: ORIGIN,
    nonce: 'n0nce',
    scriptUri: `${ORIGIN}/panel.js`,
    styleUri: `${ORIGIN}/panel.css`,
    ...(language !== undefined && { language }),
    ...(words && { words }),
  });
  const files: Readonly<Record<string, readonly [string, string]>> = {
    '/': ['text/html', html],
    '/panel.js': ['text/javascript', script],
    '/panel.css': ['text/css', style],
  };
  await page.route(`${ORIGIN}/**`, (route: Page) => {
    const file = files[new URL(route.request().url()).pathname];
    return file ? route.fulfill({ contentType: file[0], body: file[1] }) : route.fulfill({ status: 204 });
  });
  await page.goto(`${ORIGIN}/`);
}
