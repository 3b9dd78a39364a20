// Collects a mocha run into plain data, the same in Node and in a browser's extension host.
exports.collect = (runner) => {
  const tests = [];
  const add = (test, state) =>
    tests.push({
      name: test.fullTitle(),
      state,
      ms: test.duration ?? 0,
      error: test.err && String(test.err.stack ?? test.err),
    });
  // In the log of the window the last of these tells where a run without an end was.
  runner.on('test', (test) => console.log(`HOST_TEST ${test.fullTitle()}`));
  runner.on('pass', (test) => add(test, 'passed'));
  runner.on('fail', (test, error) => {
    test.err = error;
    add(test, 'failed');
  });
  runner.on('pending', (test) => add(test, 'skipped'));
  return tests;
};
