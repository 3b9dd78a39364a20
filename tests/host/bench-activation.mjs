// How soon the findings of a plan are there once the extension is activated, or its code begins to be read, in a real
// VS Code, by the clock:
//   npm run bench:activation [-- --plan sample-plans/full-season] [--times 5] [--at-rest]
// Each time a window is opened anew, as a person would, with the packed extension installed. The first time the server has
// kept nothing of an earlier run. At rest, the plan comes into the folder of a window that has long been opened: what the
// editor does while a window opens is then not part of it. Nothing here is a test: no result passes or fails.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { chromium } from '@playwright/test';
import { CHROMIUM, startServer } from './lib/server.mjs';

const root = path.resolve(import.meta.dirname, '../..');
const { values: options } = parseArgs({
  options: {
    plan: { type: 'string', default: 'sample-plans/full-season' },
    times: { type: 'string', default: '5' },
    'at-rest': { type: 'boolean', default: false },
    vsix: { type: 'string', default: path.join(root, 'out/lotwright.vsix') },
  },
});
const LONGEST_MS = 120_000;

const workspace = fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright-workspace-'));
const plan = path.resolve(root, options.plan);
if (!options['at-rest']) fs.cpSync(plan, workspace, { recursive: true });
const report = path.join(fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright-report-')), 'report.json');
const server = await startServer({ install: [path.resolve(options.vsix)], env: { HOST_REPORT: report } });
const browser = await chromium.launch(CHROMIUM);
try {
  const all = [];
  for (let time = 0; time < Number(options.times); time++) all.push(await opened());
  console.log(`${options.plan}, ${all[0].diagnostics} findings in VS Code`);
  const told = (from, times) => {
    const [first, ...later] = times;
    console.log(`  from the beginning of ${from}: the first time ${first.toFixed(0)} ms`);
    if (later.length === 0) return;
    const each = later.map((ms) => ms.toFixed(0)).join(', ');
    console.log(`    then ${each} ms, median ${median(later).toFixed(0)} ms`);
  };
  told(
    'activation',
    all.map(({ milliseconds }) => milliseconds),
  );
  told(
    'the reading of its code',
    all.map(({ milliseconds, read }) => read + milliseconds),
  );
} finally {
  await browser.close();
  await server.stop();
  for (const folder of [workspace, path.dirname(report)]) fs.rmSync(folder, { recursive: true, force: true });
}

/** Opens a window on the plan, and closes it when its findings are there. */
async function opened() {
  fs.rmSync(report, { force: true });
  if (options['at-rest']) emptied(workspace);
  const page = await browser.newPage();
  try {
    const ended = new Promise((resolve) => page.exposeFunction('codeAutomationExit', resolve));
    await page.exposeFunction('codeAutomationLog', () => {});
    await page.goto(
      server.url({
        folder: workspace,
        extension: path.join(import.meta.dirname, 'driver'),
        testsPath: path.join(import.meta.dirname, 'lib/opened.cjs'),
        extensionEnv: { HOST_REPORT: report, ...(options['at-rest'] && { HOST_PLAN: plan }) },
      }),
      { waitUntil: 'commit' },
    );
    const timeout = new Promise((resolve) => setTimeout(resolve, LONGEST_MS).unref());
    await Promise.race([ended, timeout]);
    if (!fs.existsSync(report)) throw new Error('the window told nothing');
    return JSON.parse(fs.readFileSync(report, 'utf8'));
  } finally {
    await page.close();
  }
}

function emptied(folder) {
  for (const name of fs.readdirSync(folder)) fs.rmSync(path.join(folder, name), { recursive: true });
}

function median(values) {
  return values.toSorted((a, b) => a - b)[values.length >> 1];
}
