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
    expect(finding?.message).toBe(
      'R1 is filled by R1-late from 2026-09-25 while R1-gala is still in it. Give one of them another room.',
    );
  });
});
