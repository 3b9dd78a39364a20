import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addFills, type NewFill } from '../../src/plan/add-fills';
import { parseDay } from '../../src/plan/dates';
import { applyEdits } from '../../src/plan/edits';
import type { Plan } from '../../src/plan/model';
import { type PlanFile, readPlan } from '../../src/plan/read';
import { sampleFiles } from '../samples/sample';

const day = (text: string) => parseDay(text) ?? Number.NaN;
const NEW: NewFill = {
  id: 'R9-gala',
  room: 'R9',
  regime: 'gala-own',
  firstBin: day('2026-09-08'),
  lastBin: day('2026-09-16'),
  sealed: day('2026-09-18'),
  lots: [
    { lot: 'G4', bins: 78 },
    { lot: 'G5', bins: 81 },
  ],
};
const IN_AIR: NewFill = { ...NEW, id: 'R8-gala', room: 'R8', regime: 'early-air', sealed: undefined };

const LOTS = 'lots:\n  G4: { variety: Gala, picked: 2026-09-08, bins: 80 } # firm\n';

function written(text: string, fills: readonly NewFill[] = [NEW]): string {
  return applyEdits(text, addFills(readPlan([{ path: 'a.lotplan.yaml', text }]), fills));
}

describe('a fill is added', () => {
  test('behind the last one, in its indentation, past the comment at its end', () => {
    const text =
      'lotwright: 1\nfills: # by store\n    R1-gala: # the early one\n        room: R1\n        lots: { G1: 54 } # all of it\n\n# The end\n';
    expect(written(text)).toBe(
      text.replace(
        '# all of it\n',
        '# all of it\n    R9-gala:\n      room: R9\n      regime: gala-own\n      first-bin: 2026-09-08\n      last-bin: 2026-09-16\n      sealed: 2026-09-18\n      lots: { G4: 78, G5: 81 }\n',
      ),
    );
  });

  test('with lines as they end in the file', () => {
    const text = 'fills:\r\n  R1-gala:\r\n    room: R1';
    expect(written(text, [IN_AIR])).toBe(
      `${text}\r\n  R8-gala:\r\n    room: R8\r\n    regime: early-air\r\n    first-bin: 2026-09-08\r\n    last-bin: 2026-09-16\r\n    lots: { G4: 78, G5: 81 }`,
    );
  });

  test('in braces where the section is in braces', () => {
    const text = 'fills: { R1-gala: { room: R1 } } # short\n';
    expect(written(text)).toBe(
      'fills: { R1-gala: { room: R1 }, R9-gala: { room: R9, regime: gala-own, first-bin: 2026-09-08, last-bin: 2026-09-16, sealed: 2026-09-18, lots: { G4: 78, G5: 81 } } } # short\n',
    );
  });

  test.each(['fills:\n', 'fills: {} # none yet\n', 'fills: null\n', 'fills:\n  # none yet\n'])(
    'to an empty section %j',
    (section) => {
      const text = `lotwright: 1\n${section}${LOTS}`;
      const after = readPlan([{ path: 'a.lotplan.yaml', text: written(text, [NEW, IN_AIR]) }]);
      expect([...after.fills.keys()]).toEqual(['R9-gala', 'R8-gala']);
      expect(after.problems).toEqual([]);
      expect(written(text)).toContain(section.includes('#') ? '# none yet' : 'fills:');
    },
  );

  test('in a section of its own at the end of the file with the lots', () => {
    expect(written(LOTS, [IN_AIR])).toBe(
      `${LOTS}\nfills:\n  R8-gala:\n    room: R8\n    regime: early-air\n    first-bin: 2026-09-08\n    last-bin: 2026-09-16\n    lots: { G4: 78, G5: 81 }\n`,
    );
  });

  test('with many lots over several lines', () => {
    const lots = Array.from({ length: 30 }, (_, index) => ({ lot: `GA-${100 + index}`, bins: 12 }));
    const text = written(LOTS, [{ ...NEW, lots }]);
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(110);
    const fill = readPlan([{ path: 'a.lotplan.yaml', text }]).fills.get('R9-gala');
    expect(fill?.lots.map(({ lot, bins }) => ({ lot: lot.value, bins: bins.value }))).toEqual(lots);
  });
});

describe('the text around it', () => {
  const samples = ['first-season', 'full-season', 'us-units'].map(sampleFiles);
  const identifier = fc.stringMatching(/^[A-Za-z][A-Za-z0-9-]{0,12}$/);
  const someFill = fc.record({
    id: identifier.map((id) => `new-${id}`),
    room: identifier,
    regime: identifier,
    firstBin: fc.integer({ min: 20_690, max: 20_720 }),
    lastBin: fc.integer({ min: 20_721, max: 20_730 }),
    sealed: fc.option(fc.integer({ min: 20_731, max: 20_740 }), { nil: undefined }),
    lots: fc.uniqueArray(fc.record({ lot: identifier, bins: fc.integer({ min: 1, max: 400 }) }), {
      selector: ({ lot }) => lot,
      minLength: 1,
      maxLength: 20,
    }),
  });
  const someFills = fc.uniqueArray(someFill, { selector: ({ id }) => id, minLength: 1, maxLength: 4 });

  test('stays as it is to the byte, and the plan reads as before with the fills added', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...samples),
        fc.boolean(),
        fc.boolean(),
        someFills,
        (sample, windows, cut, fills) => {
          const files = sample.map(({ path, text }) => ({
            path,
            text: windows
              ? (cut ? withoutFills(text) : text).replaceAll('\n', '\r\n')
              : cut
                ? withoutFills(text)
                : text,
          }));
          const plan = readPlan(files);
          const edits = addFills(plan, fills);
          const after = files.map(({ path, text }) => ({
            path,
            text: applyEdits(
              text,
              edits.filter(({ at }) => at.file === path),
            ),
          }));
          for (const { at } of edits) expect(at.end).toBe(at.start);
          for (const [index, { text }] of files.entries()) expectKept(text, after[index]?.text ?? '');
          expectAdded(plan, after, fills);
        },
      ),
      { numRuns: 40, seed: 20260904 },
    );
  });
});

/** A sample's fills taken out, the section with them; `fills:` stands last in its file. */
function withoutFills(text: string): string {
  const at = text.search(/^fills:/m);
  return at < 0 ? text : text.slice(0, at);
}

/** The old text is the new one with one stretch taken out. */
function expectKept(before: string, after: string): void {
  let same = 0;
  while (same < before.length && before[same] === after[same]) same += 1;
  expect(after.endsWith(before.slice(same))).toBe(true);
}

function expectAdded(plan: Plan, after: readonly PlanFile[], fills: readonly NewFill[]): void {
  const again = readPlan(after);
  expect(again.problems).toEqual(plan.problems);
  expect([...again.fills.keys()]).toEqual([...plan.fills.keys(), ...fills.map(({ id }) => id)]);
  for (const fill of fills) {
    const read = again.fills.get(fill.id);
    expect({
      id: read?.id,
      room: read?.room?.value,
      regime: read?.regime?.value,
      firstBin: read?.firstBin?.value,
      lastBin: read?.lastBin?.value,
      sealed: read?.sealed?.value,
      lots: read?.lots.map(({ lot, bins }) => ({ lot: lot.value, bins: bins.value })),
    }).toEqual(fill);
  }
}
