import { describe, expect, it } from 'vitest';
import { findingsOnExample } from './page';

/** Two lots of which all bins go into one room of 295 places, and what is recorded of them. */
function plan({ bins = '140', filled = '140', records = '' }): string {
  return `lots:
  L1: { variety: Gala, picked: 2026-09-05..2026-09-10, bins: ${bins}, field-temperature: 17 °C }
  L2: { variety: Gala, picked: 2026-09-10..2026-09-15, bins: 146, field-temperature: 17 °C }
fills:
  R1-gala:
    room: R1
    regime: gala-standard
    first-bin: 2026-09-05
    last-bin: 2026-09-15
    sealed: 2026-09-17
    lots: { L1: ${filled}, L2: 146 }
${records}`;
}

function recorded(lots: string): string {
  return `progress:\n  R1-gala: { first-bin: 2026-09-05, last-bin: 2026-09-15, lots: ${lots} }\n`;
}

function placeIn(text: string, at: { readonly start: number; readonly end: number } | undefined): string {
  return at ? text.slice(at.start, at.end) : '';
}

describe('bins that are mistyped', () => {
  it.each([
    ['12O', '120'],
    ['08O', '80'],
    ['l4O', '140'],
    ['I40', '140'],
  ])('%s has a letter in the place of a digit, which is not left out', (bins, meant) => {
    const wrong = findingsOnExample(plan({ bins })).find(({ code }) => code === 'wrong-type');
    expect(wrong?.message).toContain(`a letter stands where a digit belongs. Write \`${meant}\``);
    expect(wrong?.fixes?.map(({ edits }) => edits[0]?.newText)).toEqual([meant]);
  });

  it('7B may have been meant for 78: nothing is offered in its place, as it is for 7 bins', () => {
    const fixes = (bins: string) =>
      findingsOnExample(plan({ bins })).find(({ code }) => code === 'wrong-type')?.fixes ?? [];
    expect(fixes('7B')).toEqual([]);
    expect(fixes('7 bins').map(({ edits }) => edits[0]?.newText)).toEqual(['7']);
  });

  it.each([
    ['in the fill', plan({ filled: '14O' })],
    ['in the record', plan({ records: recorded('{ L1: 14O, L2: 146 }') })],
  ])('are told at the figure %s, and nothing says that the lot goes to no room', (_, example) => {
    const codes = findingsOnExample(example).map(({ code }) => code);
    expect(codes).toContain('wrong-type');
    expect(codes).not.toContain('lot-not-placed');
    expect(findingsOnExample(plan({ filled: '100' })).map(({ code }) => code)).toContain('lot-not-placed');
  });

  it('are told at the receipt, and nothing says that more went in than came', () => {
    const came = (day: string) =>
      plan({ records: recorded('{ L1: 140, L2: 146 }') }).replace(
        'bins: 140,',
        `bins: 140, received-by-day: { 2026-09-06: 70, 2026-09-08: ${day} },`,
      );
    const told = (example: string) => findingsOnExample(example).map(({ code }) => code);
    expect(told(came('60'))).toContain('went-in-beyond-received');
    expect(told(came('6O'))).toContain('wrong-type');
    expect(told(came('6O'))).not.toContain('went-in-beyond-received');
    expect(told(came('6O'))).not.toContain('lot-placed-beyond-its-bins');
  });
});

describe('a record of more bins than the room has places', () => {
  it('is told at the figure that is more than was planned', () => {
    const example = plan({ records: recorded('{ L1: 140, L2: 1460 }') });
    const found = findingsOnExample(example).find(({ code }) => code === 'room-overfilled');
    expect(found?.message).toMatch(
      /^As recorded, 1,600 bins of R1-gala went into R1: 1460 of L2, planned 146\. It has \d+ places, /,
    );
    expect(placeIn(example, found?.at)).toBe('1460');
    const [planned] = found?.related ?? [];
    expect(planned?.message).toBe('What R1-gala was planned to hold');
    expect(placeIn(example, planned?.at)).toBe('lots');
  });

  it('is told at the plan where nothing of what went in is recorded', () => {
    const example = plan({ filled: '1400' });
    const found = findingsOnExample(example).find(({ code }) => code === 'room-overfilled');
    expect(found?.message).toMatch(/^R1-gala puts 1,546 bins into R1, which has /);
    expect(placeIn(example, found?.at)).toBe('lots');
  });
});
