import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineStartsOf } from '../../src/plan/lines';
import { emptyPlanCache, readPlan } from '../../src/plan/read';
import { changeBetween } from '../../src/plan/text/change';
import { EditedText, type Replaced } from '../../src/plan/text/edited-text';
import { samplePlan } from '../server/plans';

const words = fc.array(fc.constantFrom('a', 'b: 3', ' ', '\n', '\r\n', '\r', 'x'.repeat(600)), {
  maxLength: 8,
});
const text = words.map((all) => all.join(''));
const edits = fc.array(fc.record({ start: fc.nat(2000), size: fc.nat(40), text }), { maxLength: 12 });

function replaced(before: string, { start, end, text: now }: Replaced): string {
  return before.slice(0, start) + now + before.slice(end);
}

/** All that came one after the other, as a string and as a text that is edited. */
function* edited(first: string, all: readonly { start: number; size: number; text: string }[]) {
  let plain = first;
  let kept = EditedText.of(first);
  yield { plain, kept };
  for (const { start, size, text: now } of all) {
    const at = Math.min(start, plain.length);
    const edit = { start: at, end: Math.min(at + size, plain.length), text: now };
    plain = replaced(plain, edit);
    kept = kept.replaced(edit);
    yield { plain, kept };
  }
}

describe('a text that is edited', () => {
  it('says in all its parts what the string does that is edited likewise', () => {
    fc.assert(
      fc.property(text, edits, fc.nat(2000), fc.nat(200), (first, all, from, size) => {
        for (const { plain, kept } of edited(first, all)) {
          expect(kept.length).toBe(plain.length);
          expect(kept.slice(from, from + size)).toBe(plain.slice(from, from + size));
          expect(kept.charCodeAt(from)).toBe(plain.charCodeAt(from));
          for (const character of ['\n', 'b', 'y']) {
            expect(kept.indexOf(character, from)).toBe(plain.indexOf(character, from));
            expect(kept.lastIndexOf(character, from)).toBe(plain.lastIndexOf(character, from));
          }
          expect(kept.lineStarts).toEqual(lineStartsOf(plain));
        }
        for (const { plain, kept } of edited(first, all)) expect(kept.toString()).toBe(plain);
      }),
      { numRuns: 400 },
    );
  });

  it('differs from the one before and the one before that as the strings do', () => {
    fc.assert(
      fc.property(text, edits, fc.boolean(), (first, all, isPutTogether) => {
        const states = [...edited(first, all)];
        const last = states.at(-1);
        if (isPutTogether) last?.kept.toString();
        for (const before of states.slice(-4)) {
          const change = last && changeBetween(before.kept, last.kept);
          expect(change).toEqual(last && changeBetween(before.plain, last.plain));
        }
      }),
      { numRuns: 400 },
    );
  });

  it('is the same when it is edited many times at once', () => {
    fc.assert(
      fc.property(text, edits, (first, all) => {
        const [before, after] = [EditedText.of(first), [...edited(first, all)].at(-1)];
        const together = before.replacedAll(all, ({ start, size, text: now }, { length }) => {
          const at = Math.min(start, length);
          return { start: at, end: Math.min(at + size, length), text: now };
        });
        expect(together.toString()).toBe(after?.plain);
        expect(together.lineStarts).toEqual(after?.kept.lineStarts);
        expect(before.lineStarts).toEqual(lineStartsOf(first));
      }),
      { numRuns: 400 },
    );
  });

  it('is put together once it has very many pieces', () => {
    let kept = EditedText.of('0123456789'.repeat(40_000));
    let plain = kept.toString();
    for (let at = 399_000; at > 0; at -= 1000) {
      const edit = { start: at, end: at + 1, text: 'x' };
      kept = kept.replaced(edit);
      plain = replaced(plain, edit);
    }
    expect(kept.toString()).toBe(plain);
  });

  it('is a plan that reads as the string does, key by key', () => {
    const files = samplePlan('first-season');
    const cache = emptyPlanCache();
    let texts = files.map((file) => ({ path: file.path, text: EditedText.of(file.text) }));
    readPlan(texts, cache);
    const typed = (path: string, words: string, by: string) => {
      texts = texts.map((file) => {
        if (file.path !== path) return file;
        const start = file.text.toString().indexOf(words);
        return { path, text: file.text.replaced({ start, end: start + words.length, text: by }) };
      });
      const plan = readPlan(texts, cache);
      const afresh = readPlan(texts.map((file) => ({ path: file.path, text: file.text.toString() })));
      expect(plan.problems).toEqual(afresh.problems);
      expect([...plan.lots.keys()]).toEqual([...afresh.lots.keys()]);
      expect([...plan.fills.values()].map(({ at }) => [at.start, at.end])).toEqual(
        [...afresh.fills.values()].map(({ at }) => [at.start, at.end]),
      );
      for (const [file, { text: now, lineStarts }] of plan.files) {
        expect(now).toBe(afresh.files.get(file)?.text);
        expect(lineStarts).toEqual(afresh.files.get(file)?.lineStarts);
      }
    };
    const fruit = 'fruit.lotplan.yaml';
    typed(fruit, 'room: R2\n', 'room: R9\n');
    typed(fruit, 'lots:\n', 'lots\n');
    typed(fruit, 'lots\n', 'lots:\n  NEW: { variety: Gala, picked: 2026-09-08, bins: 80 }\n');
    typed(fruit, 'room: R9\n', 'room: R2\n    # looked at\n');
    typed(fruit, 'fills:\n', '\tfills:\n');
    typed(fruit, '\tfills:\n', 'fills:\n');
  });
});
