import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pageKey, rowKey } from '../../extension/panel/keys';
import {
  firstState,
  LEAST_WEEK_WIDTH,
  MOST_WEEK_WIDTH,
  restoreState,
  withFolded,
  zoomed,
} from '../../extension/panel/state';

describe('the state of the view', () => {
  const set = {
    ...firstState,
    mode: 'table' as const,
    weekWidth: 20,
    scrollWeek: 3.5,
    scrollTop: 120,
    row: 'R7-gala',
    series: 'Gala',
    folded: ['scrubbers' as const],
    order: 'slack' as const,
    pick: 'tight' as const,
    find: 'gala',
  };

  test('comes back as it was saved', () => {
    expect(restoreState(JSON.parse(JSON.stringify(set)))).toEqual(set);
  });

  test('is as at first where nothing was saved, or something of another version', () => {
    const first = withFolded(firstState, 'key', true);
    for (const saved of [undefined, null, 'x', 7, { ...set, version: 2 }])
      expect(restoreState(saved, first)).toBe(first);
  });

  test('is always whole, whatever was saved', () => {
    const keys = fc.record(
      Object.fromEntries(
        Object.keys(set).map((key) => [key, key === 'version' ? fc.constant(1) : fc.anything()]),
      ),
      { requiredKeys: ['version'] },
    );
    fc.assert(
      fc.property(keys, (saved) => {
        const state = restoreState(saved);
        expect(Object.keys(state).sort()).toEqual(Object.keys(firstState).sort());
        expect(state.scrollWeek >= 0 && state.scrollTop >= 0).toBe(true);
        const { weekWidth } = state;
        expect(weekWidth === null || (weekWidth >= LEAST_WEEK_WIDTH && weekWidth <= MOST_WEEK_WIDTH)).toBe(
          true,
        );
        expect(restoreState(JSON.parse(JSON.stringify(state)))).toEqual(state);
      }),
    );
  });

  test('folds a part once and unfolds it', () => {
    const once = withFolded(firstState, 'supply', true);
    expect(withFolded(once, 'supply', true).folded).toEqual(['supply']);
    expect(withFolded(once, 'supply', false).folded).toEqual([]);
  });

  test('zooms in and out by the same step, within limits', () => {
    expect(zoomed(zoomed(20, 1), -1)).toBeCloseTo(20);
    expect(zoomed(MOST_WEEK_WIDTH, 1)).toBe(MOST_WEEK_WIDTH);
    expect(zoomed(LEAST_WEEK_WIDTH, -1)).toBe(LEAST_WEEK_WIDTH);
  });
});

describe('keys', () => {
  const key = (name: string, over = {}) => ({
    key: name,
    ctrlKey: false,
    metaKey: false,
    altKey: false,
    ...over,
  });

  test('zoom with Ctrl or Cmd and without', () => {
    for (const over of [{}, { ctrlKey: true }, { metaKey: true }]) {
      expect(rowKey(key('=', over))).toEqual({ do: 'zoom', direction: 1 });
      expect(rowKey(key('-', over))).toEqual({ do: 'zoom', direction: -1 });
      expect(rowKey(key('0', over))).toEqual({ do: 'fit' });
    }
  });

  test('that are the editor’s stay the editor’s', () => {
    expect(rowKey(key('o', { ctrlKey: true }))).toBeUndefined();
    expect(rowKey(key('ArrowDown', { altKey: true }))).toBeUndefined();
    expect(pageKey(key('t', { ctrlKey: true }))).toBeUndefined();
    expect(rowKey(key('Tab'))).toBeUndefined();
    expect(rowKey(key('x'))).toBeUndefined();
    expect(rowKey(key('p', { ctrlKey: true }))).toBeUndefined();
    expect(rowKey(key('P'))).toEqual({ do: 'pin' });
  });

  test('turn to the table and back wherever the focus is', () => {
    expect(pageKey(key('t'))).toEqual({ do: 'table' });
    expect(pageKey(key('T'))).toEqual({ do: 'table' });
    expect(pageKey(key('/'))).toEqual({ do: 'find' });
    expect(rowKey(key('ArrowRight', { shiftKey: true }))).toEqual({ do: 'moveOpening', weeks: 1 });
    expect(rowKey(key('ArrowRight'))).toEqual({ do: 'scroll', weeks: 4 });
  });
});
