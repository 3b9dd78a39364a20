import { expect, test } from 'vitest';
import { lineText, placeOf } from '../../src/report/place';
import { planOf, textOf } from './hand-made';

const plan = planOf({ 'a.lotplan.yaml': 'rooms:\r\n  R1:\r\n    bin-type: big\r\n' });

test('lines and columns count from 1, the end is exclusive', () => {
  const start = 8 + 2;
  expect(placeOf(plan, { file: 'a.lotplan.yaml', start, end: start + 2 })).toEqual({
    file: 'a.lotplan.yaml',
    line: 2,
    column: 3,
    endLine: 2,
    endColumn: 5,
  });
});

test('the end of the text is a place', () => {
  const end = plan.files.get('a.lotplan.yaml')?.text.length ?? 0;
  expect(placeOf(plan, { file: 'a.lotplan.yaml', start: end, end })).toMatchObject({ line: 4, column: 1 });
});

test('a span of a file that is not there stands at its beginning', () => {
  const gone = placeOf(plan, { file: 'gone.lotplan.yaml', start: 99, end: 100 });
  expect(gone).toMatchObject({ file: 'gone.lotplan.yaml', line: 1, column: 1 });
});

test("a line's text has no line end", () => {
  expect(lineText(plan.files.get('a.lotplan.yaml'), 2)).toBe('  R1:');
  expect(lineText(textOf('b', 'one'), 1)).toBe('one');
  expect(lineText(textOf('b', 'one'), 2)).toBe('');
  expect(lineText(undefined, 1)).toBe('');
});
