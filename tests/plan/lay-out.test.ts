import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseDocument } from 'yaml';
import { layoutEdits } from '../../src/plan/layout/lay-out';
import { readPlan } from '../../src/plan/read';
import { mutatedStretch, sampleTexts } from './mutated';

function laidOut(text: string): string {
  let at = 0;
  let out = '';
  for (const { start, end, newText } of layoutEdits(text)) {
    out += text.slice(at, start) + newText;
    at = end;
  }
  return out + text.slice(at);
}

describe('laying a plan file out', () => {
  it('sets levels, brackets and line ends, and keeps comments with what they stand over', () => {
    const text = [
      '',
      'rooms:',
      '    # the first room',
      '    R1: # north',
      '        inside: {length: 3 m,width: 4 m , height: 5 m}   ',
      '',
      '',
      '    # the second',
      '    R2: {}',
      'packing:',
      '    closed: [ 2026-12-24,2026-12-25 ]',
    ].join('\n');
    expect(laidOut(text).split('\n')).toEqual([
      'rooms:',
      '  # the first room',
      '  R1: # north',
      '    inside: { length: 3 m, width: 4 m, height: 5 m }',
      '',
      '  # the second',
      '  R2: {}',
      'packing:',
      '  closed: [2026-12-24, 2026-12-25]',
      '',
    ]);
  });

  it('leaves the sample plans as they are, columns of lots too', () => {
    for (const text of sampleTexts) expect(layoutEdits(text)).toEqual([]);
  });

  it('takes the line ends of the file', () => {
    expect(laidOut('rooms:\r\n    R1: {}\r\n\r\n\r\n')).toBe('rooms:\r\n  R1: {}\r\n');
  });

  it.each([
    ['a text over several lines', 'season:\n  name: |\n      two\n        lines\n'],
    ['brackets that are not closed', 'rooms:\n    R1: { inside: {length: 3 m\n'],
    ['a quote that is not closed', "rooms:\n    R1: { name: 'a\n"],
  ])('never touches %s', (_, text) => {
    expect(laidOut(text)).toBe(text);
  });

  it('changes no value, no comment and no order, and nothing the second time', () => {
    fc.assert(
      fc.property(mutatedStretch, (text) => {
        const laid = laidOut(text);
        expect(laidOut(laid)).toBe(laid);
        const values = (source: string) => {
          const document = parseDocument(source, { uniqueKeys: false, logLevel: 'silent' });
          return document.errors.length > 0 ? source : JSON.stringify(document.toJS({ maxAliasCount: 10 }));
        };
        if (laid !== text) expect(values(laid)).toBe(values(text));
        const comments = (source: string) => source.match(/(?<=^|\s)#.*\S/gm) ?? [];
        expect(comments(laid).map((one) => one.trim())).toEqual(comments(text).map((one) => one.trim()));
        const codes = (source: string) =>
          readPlan([{ path: 'a', text: source }])
            .problems.map(({ code }) => code)
            .sort();
        if (!codes(text).includes('yaml-syntax')) expect(codes(laid)).toEqual(codes(text));
      }),
      { numRuns: 2000 },
    );
  });
});
