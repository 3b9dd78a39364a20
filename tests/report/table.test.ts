import fc from 'fast-check';
import { expect, test } from 'vitest';
import { PAGE_WIDTH, table, visibleWidth, wrap } from '../../src/report/table';

test('words stand at the left, numbers at the right, units under the titles', () => {
  const lines = table(
    [{ title: 'Room' }, { title: 'Volume', unit: 'm³', align: 'right' }],
    [
      ['R1', '1,272'],
      ['R12', '98'],
    ],
    { totals: [['2 rooms', '1,370']] },
  );
  expect(lines).toEqual([
    'Room     Volume',
    '             m³',
    '-------  ------',
    'R1        1,272',
    'R12          98',
    '-------  ------',
    '2 rooms   1,370',
  ]);
});

test('colour takes no room', () => {
  const red = `\u001B[31mR1\u001B[39m`;
  expect(visibleWidth(red)).toBe(2);
  expect(table([{ title: 'Room' }, { title: 'Bins' }], [[red, '12']]).at(-1)).toBe(`${red}    12`);
});

test('a cell too long for the page is broken over several lines', () => {
  const lines = table(
    [{ title: 'Week' }, { title: 'Rooms opening', breaks: true }, { title: 'Bins' }],
    [['2026-W40', 'R01, R02, R03, R04', '120']],
    { width: 30 },
  );
  expect(lines.slice(2)).toEqual(['2026-W40  R01, R02, R03,  120', '          R04'].map((line) => line));
});

test('a table too wide for the page is cut in two that both have the key column', () => {
  const titles = ['Week', ...Array.from({ length: 30 }, (_, at) => `S${at + 1}`)];
  const lines = table(
    titles.map((title) => ({ title })),
    [titles.map(() => '12345')],
  );
  expect(lines.filter((line) => line.startsWith('Week'))).toHaveLength(3);
  expect(Math.max(...lines.map(visibleWidth))).toBeLessThanOrEqual(PAGE_WIDTH);
});

test('no line is wider than the page, whatever the cells hold, and no text is lost', () => {
  const word = fc.stringMatching(/^[A-Za-z0-9,. -]{0,60}$/);
  fc.assert(
    fc.property(fc.array(fc.tuple(word, word, word), { minLength: 1, maxLength: 5 }), (rows) => {
      const lines = table(
        [
          { title: 'A', breaks: true },
          { title: 'B', breaks: true },
          { title: 'C', breaks: true },
        ],
        rows,
      );
      expect(Math.max(...lines.map(visibleWidth))).toBeLessThanOrEqual(PAGE_WIDTH);
      const letters = (text: string) => [...text.replace(/[^A-Za-z0-9,.]/g, '')].sort().join('');
      expect(letters(lines.slice(2).join(''))).toBe(letters(rows.flat().join('')));
    }),
    { numRuns: 60 },
  );
});

test('a paragraph is broken at spaces, and later lines stand further in', () => {
  expect(wrap('one two three four', 9, '  ')).toEqual(['one two', '  three', '  four']);
});
