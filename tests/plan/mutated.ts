import fc from 'fast-check';
import { sampleFiles } from '../samples/sample';

const PIECES = [
  ' ',
  '  ',
  '\n',
  '\n  ',
  '\n    ',
  '\r\n',
  '\r',
  '\t',
  '# c',
  ' # c',
  ':',
  ': ',
  '- ',
  '-',
  ',',
  ', ',
  '{',
  '}',
  '[',
  ']',
  "'",
  '"',
  "''",
  'a',
  '1',
  '.',
  '~',
  'null',
  'true',
  '&a ',
  '*a',
  '!',
  '|',
  '>',
  '%',
  '@',
  '?',
  '? ',
  '°',
  '0x1',
  '+',
  '\\',
  '<<',
  '---\n',
  '...\n',
  '\u0000',
  '\ufeff',
  '\u00a0',
  ':\u00a0',
  '\u200b',
  '\u2028',
  '😀',
  '\ud800',
  'rooms:\n',
  '  R1:\n',
  'lotwright: 1\n',
  '<<<<<<< a\n',
  '=======\n',
  '>>>>>>> b\n',
  '# lotwright: allow x',
  '2026-W09',
  '1 m',
  'plant:',
  'packout:',
] as const;

interface Mutation {
  readonly at: number;
  readonly cut: number;
  readonly piece: string;
}

const mutation: fc.Arbitrary<Mutation> = fc.record({
  at: fc.nat({ max: 1_000_000 }),
  cut: fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, fc.nat({ max: 5 }), fc.nat({ max: 200 })),
  piece: fc.oneof(fc.constant(''), fc.constantFrom(...PIECES)),
});

export function mutate(text: string, { at, cut, piece }: Mutation): string {
  const start = at % (text.length + 1);
  return text.slice(0, start) + piece + text.slice(start + cut);
}

export const mutations = fc.array(mutation, { minLength: 0, maxLength: 4 });

/** Texts of the sample plans' files, whole. */
export const sampleTexts: readonly string[] = ['first-season', 'us-units', 'full-season', 'with-mistakes']
  .flatMap((name) => sampleFiles(name))
  .map(({ text }) => text);

/** A stretch of some lines of a sample plan, with its indentation or without. */
export const stretch: fc.Arbitrary<string> = fc
  .tuple(fc.constantFrom(...sampleTexts), fc.nat(), fc.nat({ max: 14 }), fc.boolean())
  .map(([text, from, count, shift]) => {
    const lines = text.split('\n');
    const first = from % lines.length;
    const taken = lines.slice(first, first + 1 + count);
    const indent = / */.exec(taken[0] ?? '')?.[0] ?? '';
    return taken
      .map((line) => (shift && line.startsWith(indent) ? line.slice(indent.length) : line))
      .join('\n');
  });

/** Such a stretch with some letters cut or put in. */
export const mutatedStretch: fc.Arbitrary<string> = fc
  .tuple(stretch, mutations)
  .map(([text, steps]) => steps.reduce(mutate, text));
