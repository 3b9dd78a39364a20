import { describe, expect, it } from 'vitest';
import { findingsOnExample, readPage, seasonOfExample } from './page';

/** Sealing later helps a scrubber or a compressor, and costs the fruit that waits: advice to do so names its price. */

function messageOf(code: string, example: string): string {
  return findingsOnExample(example).find((finding) => finding.code === code)?.message ?? '';
}

/** Two rooms of the same fruit on a scrubber that is too small for both. */
function twoRooms(sealed: string, removal: number, more = ''): string {
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
    S1: { kind: carbon, removal: ${removal} kg/day, at-level: 3 % }
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
  const planned = twoRooms('2026-09-17', 12);
  const advice = (example: string) =>
    /If you seal R2-gala on (\S+), \d+ days? later(.*?), S1 comes to (\d+) %: (that[^.]*)\./.exec(
      messageOf('scrubber-overloaded', example),
    ) ?? [];

  it('is enough on the day that is told', () => {
    const [, day = '', , share, verdict] = advice(planned);
    expect([day, verdict]).toEqual(['2026-09-18', 'that is enough']);
    expect(Number(share)).toBeLessThanOrEqual(100);
    const followed = twoRooms(day, 12);
    expect(messageOf('scrubber-overloaded', followed)).toBe('');
    expect(messageOf('sealed-late', followed)).toBe('');
  });

  it('is told to help only, with what it leaves, where it is not enough', () => {
    const [, day = '', , share, verdict] = advice(twoRooms('2026-09-17', 10));
    expect(verdict).toBe('that helps, but is not enough');
    expect(messageOf('scrubber-overloaded', twoRooms(day, 10))).toContain(`(${share} %)`);
  });

  it('has the storage life that its fruit loses beside the day, and loses as much', () => {
    // Picked in three days, it has waited for ten when the room is sealed: more than storage lives allow for.
    const early = (sealed: string) =>
      twoRooms(sealed, 12).replace(
        'picked: 2026-09-05..2026-09-15, bins: 286',
        'picked: 2026-09-05..2026-09-07, bins: 286',
      );
    const [, day = '', price] = advice(early('2026-09-17'));
    const days = Number(/its price: (\d+) days? of storage life\)/.exec(price ?? '')?.[1]);
    expect(days).toBeGreaterThan(0);
    expect(Math.round(lifeOf('L3', early('2026-09-17')) - lifeOf('L3', early(day)))).toBe(days);
  });

  it('is never sealed later than fruit should wait for its gas', () => {
    // The fourteenth day after its first bin is the 19th.
    expect(advice(twoRooms('2026-09-19', 10))[1]).toBeUndefined();
    expect(messageOf('scrubber-overloaded', twoRooms('2026-09-19', 10))).not.toContain('sealed-late');
  });

  it('is given a day on which people work: no closed day and no weekend', () => {
    const closed = twoRooms('2026-09-17', 10, PACKING.replace('2026-10-02', '2026-09-18'));
    expect(advice(closed)[1]).toBeUndefined();
  });

  it('is none that is sealed already', () => {
    const records = '{ first-bin: 2026-09-05, last-bin: 2026-09-15, sealed: 2026-09-17 }';
    const recorded = twoRooms('2026-09-17', 5, `progress:\n  R2-gala: ${records}\n`);
    const message = messageOf('scrubber-overloaded', recorded);
    expect(message).toContain('S1 is loaded above');
    expect(message).not.toContain('seal R2-gala on');
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
