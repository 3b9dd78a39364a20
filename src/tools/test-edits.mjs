// `npm run test:edits [-- <count>]`: the tests that edit plans at random, with ten thousand sequences of edits in place
// of the few that every run of the tests tries. What is made again after an edit must be what is made afresh, and no
// request may fail meanwhile. Takes hours.
import { run } from './run.mjs';

const [count = '10000'] = process.argv.slice(2);
await run(
  'npx',
  [
    'vitest',
    'run',
    'tests/plan/read-again.test.ts',
    'tests/findings/season-again.test.ts',
    'tests/server/any-request.test.ts',
  ],
  { env: { LOTWRIGHT_EDITS: count } },
);
