// The suites in the Node extension host: desktop VS Code and the served one alike.
const fs = require('node:fs');
const path = require('node:path');
const Mocha = require('mocha');
const { collect } = require('./report.js');

exports.run = () =>
  new Promise((resolve, reject) => {
    const grep = process.env.HOST_GREP || undefined;
    const mocha = new Mocha({ ui: 'bdd', timeout: 40_000, color: false, grep });
    const suites = fs.readdirSync(__dirname).filter((name) => name.endsWith('.test.js'));
    for (const name of suites.sort()) mocha.addFile(path.join(__dirname, name));
    const runner = mocha.run((failures) => {
      const report = { vscode: require('vscode').version, node: process.version, failures, tests };
      if (process.env.HOST_REPORT) fs.writeFileSync(process.env.HOST_REPORT, JSON.stringify(report, null, 2));
      if (process.env.NODE_V8_COVERAGE) require('node:v8').takeCoverage();
      if (failures) reject(new Error(`${failures} of ${tests.length} tests failed`));
      else resolve();
    });
    const tests = collect(runner);
  });
