// Runs tests/suite inside the extension host of a real VS Code and prints what passed.
//   --vsix FILE   the packed extension, as a user would install it
//   --web         the extension in the browser's extension host
// HOST_GREP=words runs only the tests that have the words in their name.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { chromium } from '@playwright/test';
import { CHROMIUM, startServer } from './lib/server.mjs';

const root = path.resolve(import.meta.dirname, '../..');
// What cannot be read begins nothing.
const { web, vsix, timeout, help } = parseArgs({
  options: {
    web: { type: 'boolean', default: false },
    vsix: { type: 'string' },
    timeout: { type: 'string', default: '600' },
    help: { type: 'boolean', short: 'h' },
  },
}).values;
if (help) {
  console.log('node tests/host/run-host.mjs [--vsix FILE] [--web] [--timeout SECONDS]');
  process.exit(0);
}
const limitSeconds = Number(timeout);
const out = path.join(root, 'out/host');
const report = path.join(out, web ? 'report.web.json' : 'report.json');
const pageLog = path.join(out, web ? 'page.web.log' : 'page.log');

fs.mkdirSync(out, { recursive: true });
fs.rmSync(report, { force: true });
const workspace = fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright-workspace-'));
fs.rmSync(pageLog, { force: true });
const staged = web ? await stageWebExtension() : undefined;
const besides = web ? [] : [await buildYamlExtension()];

let code = await inWindow().catch(fallen);
if (!fs.existsSync(report)) {
  // The window or its connection fell, which says nothing of the extension: a fall that is its own comes again.
  console.log('The suite did not come to its end. Its last lines, and once more in a new window:');
  console.log(lastLines());
  code = await inWindow().catch(fallen);
}
fs.rmSync(workspace, { recursive: true, force: true });
process.exit(printReport() ? 0 : code || 1);

/** The server or the browser did not come up, or went. */
function fallen(error) {
  console.log(error instanceof Error ? error.message : String(error));
  return 2;
}

/** A server and a window of its own for the suite; gives the extension host's exit code. */
async function inWindow() {
  fs.rmSync(workspace, { recursive: true, force: true });
  fs.cpSync(path.join(root, 'sample-plans'), workspace, { recursive: true });
  if (!web) commitAll(workspace);
  const server = await startServer({
    install: [...(vsix ? [path.resolve(vsix)] : []), ...besides],
    // A VS Code that knows no extensionEnvironment passes on the server's own.
    env: { HOST_REPORT: report },
  });
  try {
    const browser = await chromium.launch(CHROMIUM);
    try {
      return await runSuite(await browser.newPage(), server);
    } finally {
      await browser.close();
    }
  } finally {
    await server.stop();
  }
}

/** Opens the window that loads the suite; gives the extension host's exit code. */
async function runSuite(page, server) {
  const lines = [];
  const finished = new Promise((resolve) => page.exposeFunction('codeAutomationExit', resolve));
  await page.exposeFunction('codeAutomationLog', (type, args) => {
    const text = args.map((part) => (typeof part === 'string' ? part : JSON.stringify(part))).join(' ');
    lines.push(`${type} ${text}`);
    // A suite in the browser has no files to write to.
    const found = /HOST_REPORT (\{.*\})/s.exec(text);
    if (found) fs.writeFileSync(report, found[1]);
  });
  page.on('console', (message) => lines.push(`${message.type()} ${message.text()}`));
  await page.goto(
    server.url({
      folder: workspace,
      extension: staged ?? (vsix ? path.join(import.meta.dirname, 'driver') : root),
      testsPath: staged ? path.join(staged, 'suite.js') : path.join(root, 'tests/suite/index.js'),
      extensionEnv: { HOST_REPORT: report },
    }),
    { waitUntil: 'commit' },
  );
  const timeout = new Promise((resolve) => setTimeout(resolve, limitSeconds * 1000, 'no end').unref());
  const end = await Promise.race([finished, timeout]);
  fs.writeFileSync(pageLog, lines.join('\n'));
  if (end !== 'no end') return end;
  console.log(`The suite did not end in ${limitSeconds} s; see out/host for the window's log and a picture.`);
  await page.screenshot({ path: path.join(out, 'stuck.png') });
  return 2;
}

/** The samples as a repository with one commit; without Git as they are. */
function commitAll(folder) {
  const as = ['-c', 'user.name=Suite', '-c', 'user.email=suite@example.test', '-c', 'commit.gpgsign=false'];
  for (const args of [
    ['init', '-q'],
    ['add', '-A'],
    [...as, 'commit', '-q', '-m', 'Samples'],
  ])
    if (spawnSync('git', args, { cwd: folder, stdio: 'ignore' }).status !== 0) return;
}

/**
 * The browser's extension host takes an extension only when its manifest has no `main`, and the suite only from inside
 * that extension's folder.
 */
async function stageWebExtension() {
  const esbuild = createRequire(path.join(root, 'package.json'))('esbuild');
  const to = path.join(out, 'web');
  fs.rmSync(to, { recursive: true, force: true });
  fs.cpSync(path.join(root, 'out/package'), to, { recursive: true });
  const { main, ...manifest } = JSON.parse(fs.readFileSync(path.join(to, 'package.json'), 'utf8'));
  if (!main) throw new Error('the packed manifest has no main: pack the extension first');
  fs.writeFileSync(path.join(to, 'package.json'), JSON.stringify(manifest));
  await esbuild.build({
    entryPoints: [path.join(root, 'tests/suite/index.web.js')],
    outfile: path.join(to, 'suite.js'),
    bundle: true,
    format: 'cjs',
    platform: 'browser',
    external: ['vscode'],
    define: { global: 'globalThis', HOST_GREP: JSON.stringify(process.env.HOST_GREP ?? '') },
    logLevel: 'warning',
  });
  return to;
}

/** An extension for YAML in general, so that the suites run beside one; gives its folder. */
async function buildYamlExtension() {
  const require = createRequire(path.join(root, 'package.json'));
  const from = path.join(import.meta.dirname, 'yaml');
  const to = path.join(out, 'yaml');
  fs.mkdirSync(to, { recursive: true });
  fs.copyFileSync(path.join(from, 'package.json'), path.join(to, 'package.json'));
  const peer = path.dirname(require.resolve('yaml-language-server/package.json'));
  await require('esbuild').build({
    entryPoints: [path.join(from, 'extension.mjs')],
    outfile: path.join(to, 'extension.js'),
    bundle: true,
    format: 'cjs',
    platform: 'node',
    external: ['vscode'],
    define: { YAML_SERVER: JSON.stringify(path.join(peer, 'bin/yaml-language-server')) },
    logLevel: 'warning',
  });
  return to;
}

/** What the window said last, with the test that ran then. */
function lastLines() {
  if (!fs.existsSync(pageLog)) return '(the window said nothing)';
  const lines = fs.readFileSync(pageLog, 'utf8').split('\n');
  const test = lines.findLast((line) => line.includes('HOST_TEST')) ?? '(no test had begun)';
  return [test, ...lines.slice(-12)].map((line) => `  ${line.slice(0, 300)}`).join('\n');
}

/** Prints the report; true when at least one test passed and none failed. */
function printReport() {
  if (!fs.existsSync(report)) {
    console.log('No report: the suite did not come to its end; see out/host for the log of the window.');
    console.log(lastLines());
    return false;
  }
  const { tests, vscode, node } = JSON.parse(fs.readFileSync(report, 'utf8'));
  const count = (state) => tests.filter((test) => test.state === state).length;
  for (const test of tests) {
    console.log(`  ${test.state === 'passed' ? 'ok ' : test.state} ${test.name} (${test.ms} ms)`);
    if (test.error) console.log(test.error);
  }
  console.log(`VS Code ${vscode}, ${node ? `Node ${node}` : 'browser'} extension host`);
  console.log(`${count('passed')} passed, ${count('failed')} failed, ${count('skipped')} skipped`);
  return count('failed') === 0 && count('passed') > 0;
}
