// The suites in the browser's extension host: one bundle, no files, no `process`.
require('mocha/mocha.js');
/* global mocha, HOST_GREP */
mocha.setup({ ui: 'bdd', reporter: undefined, timeout: 40_000, grep: HOST_GREP || undefined });
require('./activation.test.js');
require('./assistant.test.js');
require('./cards.test.js');
require('./change.test.js');
require('./editing.test.js');
require('./export.test.js');
require('./fill.test.js');
require('./findings.test.js');
require('./fingertips.test.js');
require('./general-yaml.test.js');
require('./language.test.js');
require('./learn.test.js');
require('./pins.test.js');
require('./promises.test.js');
require('./readings.test.js');
require('./records.test.js');
require('./scenario.test.js');
require('./seasons.test.js');
require('./take-in.test.js');
require('./timeline.test.js');
const { collect } = require('./report.js');

exports.run = () =>
  new Promise((resolve, reject) => {
    const runner = mocha.run((failures) => {
      const report = { vscode: require('vscode').version, failures, tests };
      console.log(`HOST_REPORT ${JSON.stringify(report)}`);
      if (failures) reject(new Error(`${failures} tests failed`));
      else resolve();
    });
    const tests = collect(runner);
  });
