// `npm test`: every check there is, from nothing installed. `npm test -- --quick` leaves out the real VS Code.
import fs from 'node:fs';
import path from 'node:path';
import { parseArgs, stripVTControlCharacters } from 'node:util';
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

/** Of each step that fails. */
const MOST_LINES = 25;

const { quick, help } = parseArgs({
  options: { quick: { type: 'boolean', default: false }, help: { type: 'boolean', short: 'h' } },
}).values;
if (help) {
  console.log('npm test [-- --quick]: every check there is; --quick leaves out the real VS Code.');
  process.exit(0);
}
const bin = (name) => path.join(root, 'node_modules/.bin', name);
// The unit tests record each published check here; the table in tests/published must say the same.
const published = { PUBLISHED_CHECKS_FILE: path.join(root, 'out/published-checks.jsonl') };
const totals = { passed: 0, failed: 0, skipped: 0 };
const failures = [];

console.log(
  'Lotwright: all tests. They take about half an hour on two cores, with installing what is missing.',
);
await installPackages();
await step('Formatting and lint', () => run(bin('biome'), ['ci', '.']));
await step('Types', async () => {
  for (const project of ['.', 'extension/panel']) await run(bin('tsc'), ['-p', project]);
});
await step('Import directions', () =>
  run(bin('depcruise'), ['--config', '.dependency-cruiser.cjs', 'src', 'extension']),
);
await step('Build', build);
if (!quick)
  await step('A VS Code and a browser to run it in', async () => {
    await installServedEditor();
    await installBrowser();
  });
await step('Unit tests and published checks (about sixteen minutes)', async () => {
  const report = path.join(root, 'out/unit.json');
  for (const file of [report, published.PUBLISHED_CHECKS_FILE]) fs.rmSync(file, { force: true });
  fs.mkdirSync(path.dirname(report), { recursive: true });
  try {
    const reports = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
    await run(bin('vitest'), ['run', ...reports], { env: published });
  } finally {
    count(report, (json) => [json.numPassedTests, json.numFailedTests, json.numPendingTests]);
  }
});
await step('Table of published checks', () =>
  run(bin('tsx'), ['src/tools/published-table.ts', '--check'], { env: published }),
);
if (!quick) await editorSteps();

console.log(`\n${totals.passed} passed, ${totals.failed} failed, ${totals.skipped} skipped`);
for (const { name, said } of failures) console.log(`FAILED: ${name}${lastOf(said)}`);
process.exit(failures.length > 0 || totals.failed > 0 || totals.passed === 0 ? 1 : 0);

/** The suites that run inside a real VS Code, with the extension as a user would install it. */
async function editorSteps() {
  let vsix;
  await step('Pack the extension', async () => {
    vsix = await packExtension();
  });
  const host = (...args) => run(process.execPath, ['tests/host/run-host.mjs', ...args]);
  const summary = (json) =>
    ['passed', 'failed', 'skipped'].map((state) => json.tests.filter((test) => test.state === state).length);
  await step('Suites in VS Code, Node extension host (about two minutes)', async () => {
    await host('--vsix', vsix);
    count(path.join(root, 'out/host/report.json'), summary);
  });
  await step('Suites in VS Code, browser extension host', async () => {
    await host('--web');
    count(path.join(root, 'out/host/report.web.json'), summary);
  });
  await step('A person at the window (about seven minutes)', async () => {
    const report = path.join(root, 'out/ui.json');
    fs.rmSync(report, { force: true });
    try {
      await run(process.execPath, ['node_modules/@playwright/test/cli.js', 'test'], {
        cwd: path.join(root, 'tests/host'),
        env: { VSIX: vsix },
      });
    } finally {
      count(report, (json) => [
        json.stats.expected + json.stats.flaky,
        json.stats.unexpected,
        json.stats.skipped,
      ]);
    }
  });
}

/** A failing step is remembered and the others still run, so that one run tells all there is to mend. */
async function step(name, work) {
  say(name);
  const began = Date.now();
  try {
    await work();
    console.log(`  done in ${((Date.now() - began) / 1000).toFixed(0)} s`);
  } catch (error) {
    console.log(String(error instanceof Error ? error.message : error));
    failures.push({ name, said: error?.said ?? '' });
  }
}

/** The last lines a failed step said, for whoever sees the end of a long log only. */
function lastOf(said) {
  const lines = stripVTControlCharacters(said).trimEnd().split('\n').slice(-MOST_LINES);
  return lines.map((line) => `\n    ${line.slice(0, 200)}`).join('');
}

function count(report, read) {
  if (!fs.existsSync(report))
    throw new Error(`no report at ${path.relative(root, report)}: the tests did not run`);
  const [passed, failed, skipped] = read(JSON.parse(fs.readFileSync(report, 'utf8')));
  totals.passed += passed;
  totals.failed += failed;
  totals.skipped += skipped;
  if (passed === 0) throw new Error('not one test passed');
}

/** A Chromium: the one there is, else Debian's package. */
async function installBrowser() {
  if (process.env.CHROMIUM_PATH ?? ['chromium', 'chromium-browser', 'google-chrome'].some(onPath)) return;
  if (onPath('apt-get') && process.getuid?.() === 0) {
    say('Installing Chromium (about a minute)');
    await run('apt-get', ['update', '-q'], { quiet: true });
    await run('apt-get', ['install', '-y', '-q', 'chromium'], {
      quiet: true,
      env: { DEBIAN_FRONTEND: 'noninteractive' },
    });
    return;
  }
  throw new Error('Chromium is needed for the tests in VS Code: install it, or name one in CHROMIUM_PATH');
}
