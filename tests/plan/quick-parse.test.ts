import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fullParse } from '../../src/plan/text/full-parse';
import { quickParse } from '../../src/plan/text/quick-parse';
import { mutatedStretch, sampleTexts } from './mutated';

/** The full YAML reader's tree, held to be right; undefined where it sees anything wrong. */
function byFullReader(text: string) {
  const { root, problems } = fullParse(text);
  return problems.length === 0 ? root : undefined;
}

describe('the small parser', () => {
  it('reads every sample file, to the tree of the full YAML reader', () => {
    for (const text of sampleTexts)
      for (const variant of [text, text.replaceAll('\n', '\r\n'), text.trimEnd()]) {
        const tree = quickParse(variant);
        expect(tree).toBeDefined();
        expect(isDeepStrictEqual(tree, byFullReader(variant))).toBe(true);
      }
  });

  it('never reads a mutated text otherwise than the full reader, and never one that has an error', () => {
    let read = 0;
    fc.assert(
      fc.property(mutatedStretch, (text) => {
        const tree = quickParse(text);
        if (!tree) return;
        read++;
        expect(isDeepStrictEqual(tree, byFullReader(text)), JSON.stringify(text)).toBe(true);
      }),
      { numRuns: 4000 },
    );
    expect(read).toBeGreaterThan(300);
  });

  it.each([
    ['an anchor', 'a: &b 1'],
    ['an alias', 'a: *b'],
    ['a tag', 'a: !!str 1'],
    ['a block scalar', 'a: |\n  b'],
    ['text over two lines', 'a: b\n  c'],
    ['a tab', 'a:\t1'],
    ['an escape', 'a: "\\n"'],
    ['a second colon', 'a: b: c'],
    ['a number as key', '1: a'],
    ['an unclosed brace', 'a: { b: 1'],
    ['a missing value', 'a:'],
    ['true, which is no text', 'a: true'],
    ['an exponent', 'a: 1e3'],
    ['nothing', ''],
  ])('hands back %s', (_, text) => {
    expect(quickParse(text)).toBeUndefined();
  });
});
