import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineEnd, lineEndingOf, lineStartsOf, offsetAt, positionAt } from '../../src/plan/lines';

describe('lines', () => {
  it('end with LF, CRLF or a lone CR', () => {
    const text = 'rooms:\r\n  R1:\n    stack: 9\r  R2:';
    const starts = lineStartsOf(text);
    expect(starts).toEqual([0, 8, 14, 27]);
    expect(starts.map((_, line) => text.slice(starts[line], lineEnd(text, starts, line)))).toEqual([
      'rooms:',
      '  R1:',
      '    stack: 9',
      '  R2:',
    ]);
    expect(lineEndingOf(text)).toBe('\r\n');
    expect(lineEndingOf('a\nb\r\n')).toBe('\n');
    expect(lineEndingOf('')).toBe('\n');
  });

  it('give the same place forth and back, and positions beyond an end count as the end', () => {
    const part = fc.constantFrom('a', '°', '😀', '\n', '\r\n', '\r', ' ');
    fc.assert(
      fc.property(
        fc.array(part).map((parts) => parts.join('')),
        fc.nat(),
        (text, at) => {
          const starts = lineStartsOf(text);
          const offset = at % (text.length + 1);
          const position = positionAt(starts, offset);
          const back = offsetAt(text, starts, position);
          // Only the place between CR and LF has no position of its own.
          if (text[offset - 1] !== '\r' || text[offset] !== '\n') expect(back).toBe(offset);
          expect(offsetAt(text, starts, { line: position.line, column: 1e9 })).toBe(
            lineEnd(text, starts, position.line),
          );
          expect(offsetAt(text, starts, { line: starts.length, column: 0 })).toBe(text.length);
        },
      ),
    );
  });
});
