import { describe, expect, it } from 'vitest';
import { findingsOnExample } from './page';

/** More fruit is advised for a leaky room only as many bins as were tried, with the tightness that it takes. */

function roomWith(bins: number, minutes: number): string {
  const lots = bins > 140 ? `L1: 140, L2: ${bins - 140}` : `L1: ${bins}`;
  return `rooms:
  R1:
    inside: { length: 13.1 m, width: 5.9 m, height: 5.8 m }
    bin-type: plastic-1200
    refrigeration: { capacity: 45 kW, group: engine-room }
    tightness: { from: 250 Pa, to: 125 Pa, after: ${minutes} min }
    scrubber: S1
    nitrogen: N1
fills:
  R1-gala:
    room: R1
    regime: gala-standard
    first-bin: 2026-09-05
    last-bin: 2026-09-15
    sealed: 2026-09-17
    lots: { ${lots} }
`;
}

function leaks(example: string): { readonly code: string; readonly message: string }[] {
  return findingsOnExample(example).filter(
    ({ code }) => code === 'room-too-leaky' || code === 'oxygen-climbs',
  );
}

describe('a room with so little fruit that no tightness does', () => {
  it.each([40, 80])('holds its oxygen with the bins and minutes that are told: %d bins', (bins) => {
    const [leaky] = leaks(roomWith(bins, 9));
    const [, more, now, minutes] =
      /With (\d+) bins of its fruit instead of (\d+), and brought to (\d+) min, it is tight enough/.exec(
        leaky?.message ?? '',
      ) ?? [];
    expect(Number(now)).toBe(bins);
    expect(leaks(roomWith(Number(more), Number(minutes)))).toEqual([]);
    expect(leaks(roomWith(Number(more) - 10, Number(minutes)))).not.toEqual([]);
  });

  it('is not told to take more fruit where it has no places for as many', () => {
    const small = roomWith(40, 9).replace('bin-type: plastic-1200', 'bin-type: plastic-1200\n    places: 60');
    const [leaky] = leaks(small);
    expect(leaky?.message).toContain('Nor does a full room of it: choose a regime with more oxygen.');
  });
});
