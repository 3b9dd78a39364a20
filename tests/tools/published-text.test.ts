import { describe, expect, it } from 'vitest';
import { publishedTable } from '../../src/tools/published-text';
import type { MadeCheck } from '../published/published';

function made(over: Partial<MadeCheck> = {}): MadeCheck {
  return {
    id: 'leak',
    what: 'Leak at 250 Pa',
    source: 'Physics',
    known: 'published',
    expected: 8.55,
    unit: 'm3/h',
    tolerance: 0.005,
    subject: 'tightness',
    actual: 8.55102,
    ...over,
  };
}

const lineOf = (text: string, what: string) =>
  text.split('\n').find((line) => line.startsWith(`| ${what} |`));

describe('the table of published checks', () => {
  it('shows a digit more than the tolerance, and the difference of what it shows', () => {
    expect(lineOf(publishedTable([made()]), 'Leak at 250 Pa')).toBe(
      '| Leak at 250 Pa | 1 | 8.55 | 8.551 | +0.001 | 0.005 | m3/h | published |',
    );
  });

  it('is the same whatever the last bits of a value, so that no machine makes it stale', () => {
    for (const [expected, tolerance] of [
      [0.1 + 0.2, 1e-9],
      [8.5505, 0.005],
      [12.5, 0],
      [9_540_379, 0.5],
    ] as const) {
      const table = (actual: number) => publishedTable([made({ expected: 1, tolerance, actual })]);
      for (const noise of [-1e-15, 1e-15]) expect(table(expected * (1 + noise))).toBe(table(expected));
    }
  });

  it('puts subjects in order and keeps the order of a subject', () => {
    const [a, b] = [made({ id: 'a', what: 'First' }), made({ id: 'b', what: 'Second' })];
    const other = made({ id: 'c', what: 'Bins', subject: 'capacity', known: 'from memory' });
    const text = publishedTable([a, other, b]);
    expect(text).toBe(publishedTable([other, a, b]));
    expect(text.indexOf('## Capacity')).toBeLessThan(text.indexOf('## Tightness'));
    expect(text.indexOf('| First')).toBeLessThan(text.indexOf('| Second'));
    expect(text).toContain('| **All** | **2** | **0** | **1** | **3** |');
  });

  it('refuses two checks of one name', () => {
    expect(() => publishedTable([made(), made({ subject: 'capacity' })])).toThrow(
      'two checks are named leak: in tightness and in capacity',
    );
  });
});
