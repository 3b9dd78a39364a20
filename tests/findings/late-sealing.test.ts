import { describe, expect, it } from 'vitest';
import { findingsOnExample, seasonOfExample } from './page';

/** Advice on a late seal has one day for it, which all findings on sealing accept, and tells the life that `explain` takes off. */

interface Days {
  readonly firstBin: string;
  readonly lastBin: string;
  readonly sealed: string;
}

function filledOn({ firstBin, lastBin, sealed }: Days, regime = 'gala-standard', more = ''): string {
  return `fills:
  R1-gala:
    room: R1
    regime: ${regime}
    first-bin: ${firstBin}
    last-bin: ${lastBin}
    sealed: ${sealed}
    lots: { L1: 140, L2: 146 }
${more}`;
}

const OF_SEALING = new Set([
  'sealed-late',
  'seal-waits-after-last-bin',
  'sealed-before-cold',
  'dates-out-of-order',
]);

function onSealing(example: string): { readonly code: string; readonly message: string }[] {
  return findingsOnExample(example).filter(({ code }) => OF_SEALING.has(code));
}

/** The days with what the finding says done. */
function followed(days: Days, message: string): Days {
  const [, sealed = '', lastBin = days.lastBin] =
    /Seal it by (\S{10})(?: with its last bin in by (\S{10}))?/.exec(message) ?? [];
  return { ...days, sealed, lastBin };
}

describe('a room that is sealed late', () => {
  it.each<[string, Days]>([
    ['is full early', { firstBin: '2026-09-03', lastBin: '2026-09-11', sealed: '2026-09-22' }],
    [
      'is full just before the last day',
      { firstBin: '2026-09-03', lastBin: '2026-09-15', sealed: '2026-09-20' },
    ],
    [
      'takes its last bin on the last day',
      { firstBin: '2026-09-03', lastBin: '2026-09-17', sealed: '2026-09-19' },
    ],
  ])('has nothing said of its seal any more once the advice is followed where it %s', (_, days) => {
    const [late, ...others] = onSealing(filledOn(days));
    expect([late?.code, others.map(({ code }) => code)]).toEqual(['sealed-late', []]);
    expect(onSealing(filledOn(followed(days, late?.message ?? '')))).toEqual([]);
  });

  it('is told which of its lots are picked too late for the day that its last bin is to be in', () => {
    const days = { firstBin: '2026-08-28', lastBin: '2026-09-15', sealed: '2026-09-17' };
    const [late] = onSealing(filledOn(days));
    expect(late?.message).toContain('Seal it by 2026-09-11 with its last bin in by 2026-09-09, or bring');
    expect(late?.message).toContain('What is picked after that day (L2) then needs another room.');
    const without = filledOn(followed(days, late?.message ?? '')).replace(', L2: 146', '');
    expect(onSealing(without)).toEqual([]);
  });

  it('has one day that leaves neither its first bins nor the full room waiting', () => {
    const [late] = onSealing(
      filledOn({ firstBin: '2026-09-03', lastBin: '2026-09-11', sealed: '2026-09-22' }),
    );
    // Fourteen days after the first bin would be the 17th, and five after the last are the 16th.
    expect(late?.message).toContain('Seal it by 2026-09-16.');
  });

  it('counts a warm hold as no delay, in what the advice asks either', () => {
    const more = `regimes:
  gala-warm: { varieties: [Gala], temperature: 0.8 \u00b0C, oxygen: 1.5 %, carbon-dioxide: 1.8 %, conditioning: { temperature: 10 \u00b0C, lasts: 4 days } }
`;
    const days = { firstBin: '2026-09-03', lastBin: '2026-09-11', sealed: '2026-09-26' };
    const [late] = onSealing(filledOn(days, 'gala-warm', more));
    expect(late?.message).toContain('19 days after its first bin and its warm hold, 5 days too late');
    expect(late?.message).toContain('Seal it by 2026-09-20.');
    const after = onSealing(filledOn(followed(days, late?.message ?? ''), 'gala-warm', more));
    expect(after.filter(({ code }) => code !== 'sealed-before-cold')).toEqual([]);
  });

  it('loses the days of storage life that its derivation takes off, counted from the same day', () => {
    const example = filledOn({ firstBin: '2026-09-03', lastBin: '2026-09-11', sealed: '2026-09-22' });
    const [late] = onSealing(example);
    const [, allowed, lot, days] =
      /allow for (\d+) days from .* what (\S+) waits longer takes (\d+) days? off its life/.exec(
        late?.message ?? '',
      ) ?? [];
    const origin = seasonOfExample(example)
      .keeping.get('R1-gala')
      ?.lots.find((one) => one.lot.id === lot)?.storageLife.origin;
    const lost = origin?.kind === 'computed' ? origin.inputs.lostBeforeSealing : undefined;
    const inputs = lost?.origin.kind === 'computed' ? lost.origin.inputs : {};
    expect(Number(days)).toBe(Math.round(lost?.value ?? 0));
    expect(Number(days)).toBeGreaterThan(0);
    expect(Number(allowed)).toBe(inputs.allowed?.value);
  });
});
