import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { pageKey, rowKey } from '../../extension/panel/keys';
import { keysTold } from '../../extension/panel/keys-told';

const plain = { ctrlKey: false, metaKey: false, altKey: false };
const asIn = (key: string, shiftKey = false) => ({ ...plain, key, shiftKey });

/** Keys that stand under another name, or do in a card alone what they do. */
const OTHER_NAMES: Readonly<Record<string, string>> = { '=': '+', ' ': 'Enter' };

describe('the keys that are told', () => {
  const told = keysTold().flatMap(({ keys, withShift = false }) => keys.map((key) => ({ key, withShift })));
  const has = (key: string, withShift: boolean) =>
    told.some((one) => one.key === key && one.withShift === withShift);

  test('are all there are: whatever a key does in the page, the list says so', () => {
    const named = ['ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight', 'PageUp', 'PageDown', 'Home', 'End'];
    const printable = Array.from({ length: 95 }, (_, at) => String.fromCharCode(32 + at));
    const all = [...named, 'Enter', 'Escape', 'Tab', 'Delete', 'Backspace', 'F2', 'F10', ...printable];
    for (const key of all) {
      const name = OTHER_NAMES[key] ?? (key.length === 1 ? key.toLowerCase() : key);
      const does = rowKey(asIn(key)) ?? pageKey(asIn(key));
      if (does) expect(has(name, false), `${key} does ${does.do}`).toBe(true);
      const shifted = rowKey(asIn(key, true));
      if (shifted?.do === 'moveOpening') expect(has(key, true), `Shift and ${key}`).toBe(true);
    }
  });

  test('all do something', () => {
    const cards = readFileSync(path.resolve(import.meta.dirname, '../../extension/panel/cards.ts'), 'utf8');
    for (const { key, withShift } of told) {
      const does = rowKey(asIn(key, withShift)) ?? pageKey(asIn(key));
      expect(does !== undefined || cards.includes(`'${key}'`), key).toBe(true);
      if (withShift) expect(does?.do).toBe('moveOpening');
    }
  });
});
