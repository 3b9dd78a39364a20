import { describe, expect, it } from 'vitest';
import { findingsOnExample } from './page';

/** Two fills of one room in the plan around the examples, whose rooms take 14 days to empty. */
const twice = (opens: string, firstBin: string) => `fills:
  R1-gala:
    room: R1
    regime: gala-standard
    first-bin: 2026-09-05
    last-bin: 2026-09-15
    sealed: 2026-09-17
    ${opens}
    lots: { L1: 140, L2: 146 }
  R1-late:
    room: R1
    regime: gala-standard
    first-bin: ${firstBin}
    last-bin: 2027-06-20
    sealed: 2027-06-22
    lots: { L3: 120 }
lots:
  L3: { variety: Gala, picked: 2026-09-18..2026-09-21, bins: 120 }
`;

function told(opens: string, firstBin: string) {
  return findingsOnExample(twice(opens, firstBin)).filter(({ code }) => code === 'room-filled-twice');
}

describe('a room that is filled again', () => {
  it('is still full until the room opened before has been emptied', () => {
    // Week 2026-W45 begins on Monday 2 November.
    expect(told('open: 2026-W45', '2026-11-15')).toHaveLength(1);
    expect(told('open: 2026-W45', '2026-11-16')).toEqual([]);
  });

  it('may wait for a schedule that opens the room before in time', () => {
    expect(told('', '2027-06-10')).toEqual([]);
    const [finding] = told('', '2026-09-25');
    expect(finding?.message).toMatch(
      /^R1 is filled by R1-late from 2026-09-25 while R1-gala is still in it\. Give one of them another room\. No other room is free from 2026-09-25 to \d{4}-\d\d-\d\d\.$/,
    );
  });

  it('names three rooms that are free over that time, which take its bins first, with when they are', () => {
    const room = (id: string, more: string) => `  ${id}: { bin-type: plastic-1200, ${more} }\n`;
    const fill = (id: string, opens: string, firstBin: string, lot: string) =>
      `  ${id}:\n    room: ${id.slice(0, 2)}\n    regime: gala-standard\n    first-bin: ${firstBin}\n    last-bin: ${firstBin}\n    sealed: ${firstBin}\n    open: ${opens}\n    lots: { ${lot}: 40 }\n`;
    const lot = (id: string) => `  ${id}: { variety: Gala, picked: 2026-09-01..2026-09-02, bins: 80 }\n`;
    const example = `${twice('', '2026-09-25').replace('lots:\n  L3', `${fill('R5-late', '2027-W40', '2027-08-01', 'L5')}${fill('R6-held', '2027-W01', '2026-09-05', 'L6')}lots:\n  L3`)}${lot('L5')}${lot('L6')}rooms:\n${[
      room('R2', 'places: 130'),
      room('R3', 'places: 90'),
      room('R4', 'places: 200, ready: 2026-09-20'),
      room('R5', 'places: 160'),
      room('R6', 'places: 300'),
      room('R7', 'places: 300, ready: 2026-10-20'),
      room('R8', 'places: 110'),
    ].join('')}`;
    const [finding] = findingsOnExample(example).filter(({ code }) => code === 'room-filled-twice');
    // R6 is full, R7 is not ready in time, R8 and R3 are too small for the 120 bins.
    expect(finding?.message).toMatch(
      / Free from 2026-09-25 to \S+: R2 \(130 places, the whole season\), R5 \(160 places, until 2027-08-01\), R4 \(200 places, from 2026-09-20 on\) and 2 more\.$/,
    );
  });
});
