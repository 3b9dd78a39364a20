import { expect, it } from 'vitest';
import { counted, isOrAre } from '../../src/plan/wording';
import { isCautioned } from '../../src/room/caution';
import { findingsOnExample, readPage } from './page';

it('one bin is, and half a bin less is one bin too; none and two are', () => {
  const told = [0, 0.6, 1, 1.4, 2].map((bins) => `${counted(bins, 'bin')} ${isOrAre(bins)}`);
  expect(told).toEqual(['0 bins are', '1 bin is', '1 bin is', '1 bin is', '2 bins are']);
});

it('a packhouse that is closed for the season runs no bin, not at most none', () => {
  const closed = 'packing: { bins-a-week: 160, days-to-empty: 14 days, closed: [2026-08-24..2027-07-04] }\n';
  const messages = findingsOnExample(closed).map(({ message }) => message);
  expect(messages.join('\n')).not.toMatch(/\b0 bins\b|at most 0\b/);
  expect(messages.join('\n')).toContain(
    'the packhouse runs no bin in the 2 weeks it may take to empty a room',
  );
});

it.each(['opened-outside-window', 'wishes-conflict', 'packed-without-opening'])(
  '%s, which speaks of opening, says what comes first',
  (code) => {
    const found = findingsOnExample(readPage(code).wrong[0] ?? '').filter((one) => one.code === code);
    expect(found.map(({ message }) => isCautioned(message))).toEqual([true]);
  },
);
