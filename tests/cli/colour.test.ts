import { expect, test } from 'vitest';
import { paintFor, wantsColour } from '../../src/cli/colour';
import { visibleWidth } from '../../src/report/table';

test('colour is for terminals only, and never where NO_COLOR is set', () => {
  expect(wantsColour({}, true)).toBe(true);
  expect(wantsColour({}, false)).toBe(false);
  expect(wantsColour({ NO_COLOR: '1' }, true)).toBe(false);
  // By the convention an empty NO_COLOR counts as not set.
  expect(wantsColour({ NO_COLOR: '' }, true)).toBe(true);
  expect(wantsColour({ TERM: 'dumb' }, true)).toBe(false);
});

test('colour changes nothing but colour', () => {
  const [colour, plain] = [paintFor(true), paintFor(false)];
  for (const name of ['error', 'warning', 'notice', 'good', 'bold', 'dim'] as const) {
    expect(colour[name]('12 rooms')).not.toBe('12 rooms');
    expect(visibleWidth(colour[name]('12 rooms'))).toBe(8);
    expect(plain[name]('12 rooms')).toBe('12 rooms');
  }
});
