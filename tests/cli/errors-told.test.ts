import { describe, expect, test } from 'vitest';
import { lotwright } from './in-process';

const MISTAKES = 'sample-plans/with-mistakes';
const FIRST = 'sample-plans/first-season';
const told = (of: string): string[][] => [
  ['status', of],
  ['sampling', of],
  ['learn', of],
  ['expect', of],
  ['whatif', 'less-crop', of],
  ['explain', 'R1', of],
];

describe('a plan with errors', () => {
  test.each(told(MISTAKES))('is told of by %s as by rooms, with its exit code', async (...words) => {
    const [of, rooms] = [await lotwright(words), await lotwright(['rooms', MISTAKES])];
    const counts = /The plan has \d+ errors?/.exec(rooms.err)?.[0];
    expect(counts).toBeDefined();
    expect(of.code).toBe(1);
    // Status stands on a day: what is planned after it may be other.
    expect(of.err).toContain(words[0] === 'status' ? 'The plan has ' : counts);
    expect(of.err).toContain('See them with: lotwright check');
  });

  test('is nothing to what a finding means', async () => {
    const { code, err } = await lotwright(['explain', 'room-left-closed', MISTAKES]);
    expect([code, err]).toEqual([0, '']);
  });
});

test.each(told(FIRST))('%s says nothing of a plan without errors', async (...words) => {
  const { err } = await lotwright(words);
  expect(err).not.toContain('The plan has');
});
