import { describe, expect, it } from 'vitest';
import { findingsOnExample, readPage, seasonOfExample } from './page';

/** Sealing later helps a scrubber or a compressor, and costs the fruit that waits: advice to do so names its price. */

function messageOf(code: string, example: string): string {
  return findingsOnExample(example).find((finding) => finding.code === code)?.message ?? '';
}

/** Two rooms of the same fruit on a scrubber that is too small for both. */
function twoRooms(sealed: string, more = ''): string {
  return `rooms:
  R2:
    inside: { length: 13.1 m, width: 5.9 m, height: 5.8 m }
    bin-type: plastic-1200
    refrigeration: { capacity: 45 kW, group: engine-room }
    tightness: { from: 250 Pa, to: 125 Pa, after: 32 min }
    scrubber: S1
    nitrogen: N1
plant:
  scrubbers:
    S1: { kind: carbon, removal: 5 kg/day, at-level: 3 % }
lots:
  L3: { variety: Gala, picked: 2026-09-05..2026-09-15, bins: 286, maturity: { starch: 2.8, firmness: 82 N } }
fills:
  R2-gala:
    room: R2
    regime: gala-standard
    first-bin: 2026-09-05
    last-bin: 2026-09-15
    sealed: ${sealed}
    lots: { L3: 286 }
${more}`;
}

/** As in the plan around the examples, with a holiday. */
const PACKING = `packing:
  bins-a-week: 160
  days-to-empty: 14 days
  packed-wait: 28 days
  closed: [2026-10-02]
  packout:
    Gala: { shares: { first: 62 %, second: 18 % } }
`;

function lifeOf(lot: string, example: string): number {
  const lots = seasonOfExample(example).keeping.get('R2-gala')?.lots ?? [];
  return lots.find((one) => one.lot.id === lot)?.storageLife.value ?? Number.NaN;
}

describe('a room that is to be sealed later for its scrubber', () => {
  const planned = twoRooms('2026-09-18');

  it('has the storage life that its fruit loses and the finding that it brings beside the day', () => {
    expect(messageOf('scrubber-overloaded', planned)).toContain(
      'seal R2-gala on 2026-10-02, 14 days later (its price: 8 days of storage life and `sealed-late` by 13 days)',
    );
  });

  it('pays that price where the advice is followed', () => {
    const followed = twoRooms('2026-10-02');
    expect(messageOf('sealed-late', planned)).toBe('');
    expect(messageOf('sealed-late', followed)).toContain('13 days too late');
    expect(Math.round(lifeOf('L3', planned) - lifeOf('L3', followed))).toBe(8);
  });

  it('is given a day on which people work: no closed day and no weekend', () => {
    const closed = twoRooms('2026-09-18', PACKING);
    expect(messageOf('scrubber-overloaded', closed)).toContain('seal R2-gala on 2026-10-05, 17 days later');
  });

  it('is none that is sealed already', () => {
    const records = '{ first-bin: 2026-09-05, last-bin: 2026-09-15, sealed: 2026-09-18 }';
    const recorded = twoRooms('2026-09-18', `progress:\n  R2-gala: ${records}\n`);
    const message = messageOf('scrubber-overloaded', recorded);
    expect(message).toContain('S1 is loaded above');
    expect(message).not.toContain('seal R2-gala on');
  });

  it('is otherwise told to be sealed within the days that fruit may wait', () => {
    expect(messageOf('scrubber-overloaded', planned)).toContain(
      'else move a room to another scrubber, or seal one later, within 14 days of its first bin.',
    );
  });
});

describe('a room that is to be filled more slowly for its compressor', () => {
  const [example = ''] = readPage('refrigeration-group-overloaded').wrong;

  it('has the price beside the days', () => {
    expect(messageOf('refrigeration-group-overloaded', example)).toContain(
      'take 8 days more to fill R1-gala and seal as much later (its price: 6 days of storage life and `sealed-late` by 6 days), or give',
    );
  });
});
