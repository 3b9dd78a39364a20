import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../src/plan/problem';
import { readChunk } from '../../src/plan/text/chunk';
import { fullParse } from '../../src/plan/text/full-parse';
import { quickParse } from '../../src/plan/text/quick-parse';
import { asSlip } from '../../src/plan/text/repairs';
import { type ChunkParent, split } from '../../src/plan/text/split';
import { mutatedStretch } from './mutated';
import { SLIPS } from './slips';

/** What the entries of a text that cannot be read are told as, with the texts that were read for each. */
function told(
  text: string,
): { readonly entry: string; readonly reads: string[]; readonly told: Problem[] }[] {
  return split('a.lotplan.yaml', text).chunks.flatMap((chunk) => {
    const entry = text.slice(chunk.start, chunk.end);
    if (quickParse(entry)) return [];
    const parsed = fullParse(entry);
    if (parsed.problems.length === 0) return [];
    const reads: string[] = [];
    const problems = asSlip(entry, parsed, (mended) => {
      reads.push(mended);
      return found(chunk.parent, mended);
    });
    return [{ entry, reads, told: [...problems] }];
  });
}

function found(parent: ChunkParent, mended: string): readonly Problem[] | undefined {
  return quickParse(mended) && readChunk(parent, mended, false).problems;
}

const slipped = SLIPS.map(
  ({ plan, written, typed }) => `lotwright: 1\n${plan.replace(written, () => typed)}`,
);

describe('repairs of an entry with a slip', () => {
  it('are known after a few readings of that entry alone, mostly the first four', () => {
    const reads = slipped.flatMap((text) => told(text).map((one) => one.reads.length));
    expect(Math.max(...reads)).toBeLessThanOrEqual(8);
    expect(reads.filter((count) => count <= 4).length).toBeGreaterThan(reads.length * 0.9);
  });

  it('are eight at most, whatever the entry holds, and none is longer than it but for some signs', () => {
    fc.assert(
      fc.property(fc.oneof(mutatedStretch, fc.constantFrom(...slipped)), fc.nat(), (text, at) => {
        const broken = `${text.slice(0, at % (text.length + 1))}"{[${text.slice(at % (text.length + 1))}`;
        for (const { entry, reads } of [...told(text), ...told(broken)]) {
          expect(reads.length).toBeLessThanOrEqual(8);
          // A sign on each of its lines is the most that a repair adds.
          for (const read of reads)
            expect(read.length).toBeLessThan(entry.length + 64 + entry.split('\n').length);
        }
      }),
      { seed: 31, numRuns: 100 },
    );
  });

  it('are not tried where more than a few lines of an entry are wrong', () => {
    const keys = ['block', 'grower', 'variety', 'picked', 'bins', 'received', 'field-temperature'];
    const text = `lots:\n  L1:\n${keys.map((key) => `    ${key}: }, x: y: ]\n`).join('')}`;
    const [one] = told(text);
    expect(one?.reads).toEqual([]);
    expect(one?.told[0]?.code).toBe('yaml-syntax');
  });

  it('is one reading where the one line that opens many lost its colon', () => {
    const lines = ['variety: Gala', 'picked: 2026-09-04', 'bins: 50', 'block: north', 'received: 50'];
    const text = `lots:\n  L1\n${lines.map((line) => `    ${line}\n`).join('')}    field-temperature: 19 °C\n`;
    const [one] = told(text);
    expect(one?.reads).toHaveLength(1);
    expect(one?.told.map(({ message }) => message)).toEqual([
      '`L1` has no colon behind it, and what stands below belongs to it.',
    ]);
  });

  it('are not tried in what is longer than an entry, as a section in braces with hundreds of lots', () => {
    const lots = Array.from({ length: 300 }, (_, at) => `  L${at}: { variety: Gala, bins: 5 }`).join(',\n');
    const [one] = told(`lots: {\n${lots.replace('bins: 5 }', 'bins: 5')}\n}\n`);
    expect(one?.told[0]?.code).toBe('yaml-syntax');
    expect(one?.reads).toEqual([]);
  });
});
