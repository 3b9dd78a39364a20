// Where the network reaches VS Code's downloads: the same suites in the desktop program. `npm run test:desktop`
import fs from 'node:fs';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';

const root = path.resolve(import.meta.dirname, '../..');
const { runTests } = createRequire(path.join(root, 'package.json'))('@vscode/test-electron');
const workspace = fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright-desktop-'));
fs.cpSync(path.join(root, 'sample-plans'), workspace, { recursive: true });
fs.mkdirSync(path.join(root, 'out/host'), { recursive: true });
await runTests({
  version: process.env.VSCODE_VERSION ?? 'stable',
  vscodeExecutablePath: process.env.VSCODE_PATH,
  extensionDevelopmentPath: root,
  extensionTestsPath: path.join(root, 'tests/suite/index.js'),
  extensionTestsEnv: { HOST_REPORT: path.join(root, 'out/host/report.desktop.json') },
  launchArgs: [workspace, '--disable-extensions', '--skip-welcome', '--disable-workspace-trust'],
});
