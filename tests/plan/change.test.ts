import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineStartsOf } from '../../src/plan/lines';
import { changeBetween } from '../../src/plan/text/change';
import { changedLineStarts } from '../../src/plan/text/changed-lines';

const part = fc.constantFrom(
  'a',
  'b',
  ' ',
  '\n',
  '\r\n',
  'abc: d\n',
  'a line as long as some are\n'.repeat(12),
);
const parts = fc.array(part, { maxLength: 20 });
/** A text before and after a stretch of it was written anew. */
const edited = fc.tuple(parts, parts, parts, parts).map(([front, old, now, back]) => ({
  before: [...front, ...old, ...back].join(''),
  after: [...front, ...now, ...back].join(''),
}));

/** How many characters both begin with. */
function alike(a: string, b: string, most: number): number {
  let length = 0;
  while (length < most && a.at(length) === b.at(length)) length++;
  return length;
}

const backwards = (text: string) => text.split('').reverse().join('');

describe('the change between two texts', () => {
  it('is the stretch between the longest beginning and the longest end that both have', () => {
    fc.assert(
      fc.property(edited, ({ before, after }) => {
        const most = Math.min(before.length, after.length);
        const start = alike(before, after, most);
        const end = alike(backwards(before), backwards(after), most - start);
        expect(changeBetween(before, after)).toEqual({
          start,
          oldEnd: before.length - end,
          newEnd: after.length - end,
        });
      }),
      { numRuns: 500 },
    );
  });

  it('gives the starts of the lines that a text has after it', () => {
    fc.assert(
      fc.property(edited, ({ before, after }) => {
        const change = changeBetween(before, after);
        expect(changedLineStarts(lineStartsOf(before), after, change)).toEqual(lineStartsOf(after));
      }),
      { numRuns: 1000 },
    );
  });
});
