import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { AskedServer, sessions } from '../edits/asked-meanwhile';

/** How many sequences of edits are tried, with requests in between; `npm run test:edits` tries ten thousand. */
const SEQUENCES = 30;

describe('whatever is edited and asked', () => {
  const server = new AskedServer();

  beforeAll(() => server.start());
  afterAll(() => server.stop());

  it('every request is answered, and nothing fails', async () => {
    let asked = 0;
    await fc.assert(
      fc.asyncProperty(sessions, async (session) => {
        asked += await server.run(session);
      }),
      { numRuns: SEQUENCES },
    );
    expect(asked).toBeGreaterThan(SEQUENCES);
  }, 600_000);
});
