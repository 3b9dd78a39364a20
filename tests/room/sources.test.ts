import { expect, it } from 'vitest';
import { coolingHalfTime } from '../../src/room/cooling';
import { carbonDioxidePlanned } from '../../src/room/ventilation';

it('what was not read in its publication is not called published', () => {
  expect(carbonDioxidePlanned.origin).toMatchObject({
    kind: 'reference',
    source: { known: 'from memory', citation: expect.not.stringContaining('http') },
  });
});

it('the half-time of cooling says that it was worked out, and read in a copy', () => {
  expect(coolingHalfTime.origin).toMatchObject({
    source: { citation: expect.stringMatching(/read in a copy .*worked out from its example.*from memory/) },
  });
});
