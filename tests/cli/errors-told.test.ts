import { describe, expect, test } from 'vitest';
import { commandToCopy } from '../../src/report/command-to-copy';
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
    expect(of.err).toMatch(
      /See them with: lotwright check sample-plans\/with-mistakes( --as-of \d{4}-\d\d-\d\d)?\n/,
    );
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

describe('a command that is told to be copied', () => {
  test('has the folder as it was typed', async () => {
    const hints = [
      [
        ['gas', './sample-plans/first-season/', '--room', 'xyz'],
        'lotwright rooms ./sample-plans/first-season/',
      ],
      [['explain', 'xyz', FIRST], `lotwright explain varieties ${FIRST}`],
      [['learn', FIRST, '--of', 'no/such'], `lotwright learn ${FIRST} lists`],
      [['release', FIRST, '--keep-weeks', 'none.json'], `lotwright release ${FIRST} --format json`],
      [['explain', 'R2', FIRST], `lotwright explain "R2.volume" ${FIRST}`],
      [['explain', 'varieties', FIRST], `lotwright explain Gala ${FIRST}`],
      [['whatif', '--all', FIRST], `lotwright whatif <scenario> ${FIRST}`],
    ] as const;
    for (const [words, hint] of hints) {
      const { out, err } = await lotwright(words);
      expect(`${out}${err}`.replace(/\s+/g, ' '), words.join(' ')).toContain(hint);
    }
  });

  test('has no folder where none was typed, and a name of several words in quotes', () => {
    expect(commandToCopy('check', undefined)).toBe('lotwright check');
    expect(commandToCopy('check', 'my plans/2026', '--as-of 2026-10-05')).toBe(
      'lotwright check "my plans/2026" --as-of 2026-10-05',
    );
    expect(commandToCopy('check', 'Pläne $1')).toBe("lotwright check 'Pläne $1'");
  });
});
