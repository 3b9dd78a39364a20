import { describe, expect, it } from 'vitest';
import { completionAt } from '../../src/server/services/completion';
import { atCaret } from './cursor';
import { computed, samplePlan } from './plans';

const firstSeason = samplePlan('first-season');
const file = 'more.lotplan.yaml';

/** The days that are offered in a further file of the first season, with what is told of each. */
function offered(marked: string): [day: string, detail: string][] {
  const { text, offset } = atCaret(marked);
  const { season } = computed([...firstSeason, { path: file, text }]);
  return completionAt(season.plan, { file, offset }, season).map(({ label, detail }) => [label, detail]);
}

describe('completion of the days of a fill', () => {
  const lots = 'lots: { G1: 20, G2: 20, G4: 20 }';

  it('offers for the first bin the days on which the picking of its lots begins, the first before all others', () => {
    expect(offered(`fills:\n  F1:\n    ${lots}\n    first-bin: ‸`)).toEqual([
      ['2026-09-02', 'picking begins: G1'],
      ['2026-09-04', 'picking begins: G2'],
      ['2026-09-08', 'picking begins: G4'],
    ]);
  });

  it('offers no first bin before its room is ready, but the day on which it is', () => {
    const room = 'rooms:\n  R9: { ready: 2026-09-06 }\n';
    expect(offered(`${room}fills:\n  F1:\n    room: R9\n    ${lots}\n    first-bin: ‸`)).toEqual([
      ['2026-09-06', 'its room is ready'],
      ['2026-09-08', 'picking begins: G4'],
    ]);
  });

  it('offers for the last bin the days on which picking ends, the last of them first and none before the first bin', () => {
    const days = offered(`fills:\n  F1:\n    ${lots}\n    first-bin: 2026-09-05\n    last-bin: ‸`);
    expect(days).toEqual([
      ['2026-09-10', 'picking ends: G4'],
      ['2026-09-07', 'picking ends: G2'],
    ]);
  });

  it('names the lots of one day together', () => {
    const [first] = offered(
      'lots:\n  N1: { picked: 2026-09-09 }\n  N2: { picked: 2026-09-09..2026-09-12 }\nfills:\n  F1:\n    lots: { N1: 5, N2: 5 }\n    first-bin: ‸',
    );
    expect(first).toEqual(['2026-09-09', 'picking begins: N1, N2']);
  });

  it('offers the usual day of sealing after the last bin, and after any warm hold', () => {
    const fill = (more: string) => `fills:\n  F1:\n    last-bin: 2026-09-16\n${more}    sealed: ‸`;
    expect(offered(fill('    regime: gala-own\n'))).toEqual([['2026-09-18', '2 days after the last bin']]);
    const warm =
      'regimes:\n  held:\n    { temperature: 3 °C, oxygen: 1.5 %, carbon-dioxide: 1 %, conditioning: { temperature: 10 °C, lasts: 7 days } }\n';
    expect(offered(warm + fill('    regime: held\n'))).toEqual([['2026-09-25', '9 days after the last bin']]);
  });

  it('keeps the example where the plan knows no day: no lots yet, a room in air that is never sealed', () => {
    for (const key of ['first-bin', 'last-bin', 'sealed'])
      expect(offered(`fills:\n  F1:\n    regime: early-air\n    ${key}: ‸`)).toEqual([
        [expect.stringMatching(/^2026-09-\d\d$/), 'example'],
      ]);
  });
});

describe('completion of the days of records', () => {
  const recorded = 'progress:\n  R1-gala: { first-bin: 2026-09-02, last-bin: 2026-09-10 }\n';

  it('offers what was planned, then the day after the last record and that of it', () => {
    expect(offered(`${recorded}  R2-gala:\n    first-bin: ‸`)).toEqual([
      ['2026-09-08', 'as planned'],
      ['2026-09-11', 'day after the last record'],
      ['2026-09-10', 'day of the last record'],
    ]);
  });

  it('offers no step of a fill before one that came earlier, nor after one that came later', () => {
    const begun = `${recorded}  R2-gala:\n    first-bin: 2026-09-11\n    `;
    expect(offered(`${begun}last-bin: ‸`)).toEqual([
      ['2026-09-16', 'as planned'],
      ['2026-09-12', 'day after the last record'],
      ['2026-09-11', 'day of the last record'],
    ]);
    expect(offered(`${begun}sealed: 2026-09-15\n    last-bin: ‸`)).toEqual([
      ['2026-09-15', 'day of the last record'],
    ]);
  });

  it('holds the day on which all fruit is cool to the first bin alone: a room may be sealed before', () => {
    expect(offered(`${recorded}  R2-gala:\n    cool: 2026-09-08\n    first-bin: ‸`)).toEqual([
      ['2026-09-08', 'as planned'],
    ]);
    expect(offered(`${recorded}  R2-gala:\n    sealed: 2026-09-09\n    cool: ‸`)).toEqual([
      ['2026-09-11', 'day after the last record'],
      ['2026-09-10', 'day of the last record'],
    ]);
  });

  it('offers for an opening the Monday of the planned week, with the caution at each day', () => {
    const { text, offset } = atCaret(`${recorded}  R2-gala: { sealed: 2026-09-18, opened: ‸ }`);
    const { season } = computed([...firstSeason, { path: file, text }]);
    const found = completionAt(season.plan, { file, offset }, season);
    expect(found.map(({ label }) => label)).toEqual(['2027-01-04', '2026-09-19', '2026-09-18']);
    expect(found[0]?.detail).toBe('Monday of the planned week');
    for (const { documentation } of found) expect(documentation).toMatch(/Sealed rooms kill/);
  });

  it('offers for a sample and a packed run the days at which records stand, no run before its room was opened', () => {
    const days = [
      ['2026-09-11', 'day after the last record'],
      ['2026-09-10', 'day of the last record'],
    ];
    expect(offered(`${recorded}samples:\n  T1: { lot: G1, taken: ‸ }`)).toEqual(days);
    expect(offered(`${recorded}packed:\n  P1: { lot: G1, fill: R1-gala, day: ‸ }`)).toEqual(days);
    const opened =
      'progress:\n  R1-gala: { opened: 2026-09-21 }\n  R2-gala: { opened: 2026-09-22, emptied: 2026-09-22 }\n';
    expect(offered(`${opened}packed:\n  P1: { lot: G4, fill: R2-gala, day: ‸ }`).map(([day]) => day)).toEqual(
      ['2026-09-23', '2026-09-22'],
    );
  });

  it('keeps the example where nothing is recorded, and while no season is at hand', () => {
    expect(offered('samples:\n  T1: { lot: G1, taken: ‸ }')).toEqual([['2027-01-12', 'example']]);
    const { text, offset } = atCaret(`${recorded}samples:\n  T1: { lot: G1, taken: ‸ }`);
    const { season } = computed([...firstSeason, { path: file, text }]);
    expect(completionAt(season.plan, { file, offset }).map(({ detail }) => detail)).toEqual(['example']);
  });
});
