import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cursorAt } from '../../src/server/services/cursor';
import { atCaret } from './cursor';

function place(marked: string) {
  const { text, offset } = atCaret(marked);
  const found = cursorAt(text, offset);
  return found && { path: found.path.join(' > '), at: found.at, text: found.text };
}

const ROOMS = `season:
  name: Harvest 2026
rooms:
  R1:
    inside: { length: 10.6 m, width: 4.8 m,
              height: 5.0 m }
    scrubber: S1 # the north one
  R2:
    places: 240
`;

describe('the place at the caret', () => {
  it('is a key, with the keys that lead to it', () => {
    expect(place(ROOMS.replace('scrubber', 'scru‸bber'))).toEqual({
      path: 'rooms > R1 > scrubber',
      at: 'key',
      text: 'scrubber',
    });
  });

  it('is a value, without the comment after it', () => {
    expect(place(ROOMS.replace('S1', 'S‸1'))).toEqual({
      path: 'rooms > R1 > scrubber',
      at: 'value',
      text: 'S1',
    });
  });

  it('is found inside braces, also on their second line', () => {
    expect(place(ROOMS.replace('4.8 m', '4.‸8 m'))).toEqual({
      path: 'rooms > R1 > inside > width',
      at: 'value',
      text: '4.8 m',
    });
    expect(place(ROOMS.replace('height', 'hei‸ght'))).toEqual({
      path: 'rooms > R1 > inside > height',
      at: 'key',
      text: 'height',
    });
  });

  it('is nothing inside a comment', () => {
    expect(place(ROOMS.replace('north', 'nor‸th'))).toBeUndefined();
  });

  it('belongs to the entry that its indentation says, on a line that has only spaces', () => {
    expect(place(`${ROOMS}    ‸`)).toEqual({ path: 'rooms > R2', at: 'new-key', text: '' });
    expect(place(`${ROOMS}  ‸`)).toEqual({ path: 'rooms', at: 'new-key', text: '' });
    expect(place(`${ROOMS}‸`)).toEqual({ path: '', at: 'new-key', text: '' });
  });

  it('is a key half written, before it has a colon', () => {
    expect(place(`${ROOMS}    lost-pl‸`)).toEqual({ path: 'rooms > R2', at: 'new-key', text: 'lost-pl' });
    expect(place('rooms:\n  R1:\n    inside: { length: 10 m, wi‸')).toEqual({
      path: 'rooms > R1 > inside',
      at: 'new-key',
      text: 'wi',
    });
  });

  it('is a value of a list, in brackets and with dashes', () => {
    expect(place('lots:\n  G1:\n    treatments: [1-mcp, ca‸lcium]')).toEqual({
      path: 'lots > G1 > treatments > []',
      at: 'value',
      text: 'calcium',
    });
    expect(place('packing:\n  closed:\n  - 2026-12-24\n  - 2026-‸12-31\n')).toEqual({
      path: 'packing > closed > []',
      at: 'value',
      text: '2026-12-31',
    });
  });

  it('reads keys with spaces, quotes and apostrophes', () => {
    expect(place("varieties:\n  Cox's Orange Pippin:\n    sof‸tening: 2 N")).toMatchObject({
      path: "varieties > Cox's Orange Pippin > softening",
    });
    expect(place('fills:\n  A:\n    lots: { "G 1": 5‸4 }')).toMatchObject({
      path: 'fills > A > lots > G 1',
      text: '54',
    });
  });

  it('knows the keys that stand beside it', () => {
    const { text, offset } = atCaret(ROOMS.replace('scrubber', 'scru‸bber'));
    expect([...(cursorAt(text, offset)?.siblings ?? [])]).toEqual(['inside', 'scrubber']);
  });

  it('is the same in a section of many entries as if its entry stood there alone', () => {
    const others = Array.from(
      { length: 40 },
      (_, index) => `  A${index}: { bins: ${index}, note: "a: b" }\n`,
    );
    const entries = [
      '  G1: { bins: 4, received: 3 }\n',
      '  G1:\n    # a note\n    bins: 4\n\n    treatments:\n    - 1-mcp\n',
    ];
    for (const entry of entries)
      for (const end of ['\n', '\r\n'])
        for (let at = 0; at < entry.replaceAll('\n', end).length; at++) {
          const own = entry.replaceAll('\n', end);
          const before = ['lots:\n', ...others].join('').replaceAll('\n', end);
          const alone = cursorAt(`lots:${end}${own}`, `lots:${end}`.length + at);
          const found = cursorAt(before + own + before.slice(before.indexOf('\n') + 1), before.length + at);
          const inEntry = alone && alone.path.length > 2;
          expect(found && [found.path, found.at, found.text, inEntry && [...found.siblings]]).toEqual(
            alone && [alone.path, alone.at, alone.text, inEntry && [...alone.siblings]],
          );
        }
  });

  it('among the entries of a section knows all of them', () => {
    const { text, offset } = atCaret(
      'lots:\n  A: { bins: 1 }\n  B: { bins: 1 }\n  ‸\n  C: { bins: 2 }\nfills:\n  D: {}\n',
    );
    expect([...(cursorAt(text, offset)?.siblings ?? [])]).toEqual(['A', 'B', 'C']);
  });

  it('keeps to the text and comes to an end, whatever is written', () => {
    const piece = fc.constantFrom(
      'rooms:',
      '\n',
      '  ',
      '{',
      '}',
      '[',
      ']',
      ',',
      ': ',
      '- ',
      '#',
      '"',
      "'",
      'R1',
      '\t',
      '\r\n',
      '‘',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 60 }), fc.nat(), (pieces, anywhere) => {
        const text = pieces.join('');
        const offset = text.length === 0 ? 0 : anywhere % (text.length + 1);
        const found = cursorAt(text, offset);
        if (!found) return;
        expect(found.start).toBeGreaterThanOrEqual(0);
        expect(found.start).toBeLessThanOrEqual(offset);
        expect(found.end).toBeGreaterThanOrEqual(found.start);
        expect(found.end).toBeLessThanOrEqual(text.length);
        expect(text.slice(found.start, found.end)).toBe(found.text);
      }),
      { numRuns: 500 },
    );
  });

  it.each([
    ['one word without end', `rooms: { R1: ${'x'.repeat(300_000)}`, ['rooms', 'R1']],
    ['quotes without end', `rooms: { R1: a${"'".repeat(300_000)}`, ['rooms', 'R1']],
    ['braces within braces', `rooms: ${'{ a: '.repeat(100_000)}`, ['rooms', ...Array(100_000).fill('a')]],
    [
      'lines ever deeper',
      Array.from({ length: 3000 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n'),
      undefined,
    ],
    ['one section of very many megabytes', `rooms:\n${'  R1: {}\n'.repeat(600_000)}`, ['rooms', 'R1']],
  ])('is found, or not, whatever a text grows to: %s', (_, text, path) => {
    expect(cursorAt(text, text.length - 1)?.path).toEqual(path);
  });
});
