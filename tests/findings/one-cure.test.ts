import { describe, expect, it } from 'vitest';
import { formatDay, parseDay } from '../../src/plan/dates';
import { findingsOnExample, roomOfExamples } from './page';

/** A room of 286 bins behind a small cooler, filled in so many days and sealed a week later. */
function filledIn(days: number, cooler: string): string {
  const first = parseDay('2026-09-05') ?? 0;
  const [last, sealed] = [first + days - 1, first + days + 6].map(formatDay);
  return `${roomOfExamples({ cooler })}lots:
  L1: { variety: Gala, picked: 2026-09-05, bins: 140, field-temperature: 17 °C }
  L2: { variety: Gala, picked: 2026-09-05, bins: 146, field-temperature: 17 °C }
fills:
  R1-gala:
    room: R1
    regime: gala-standard
    first-bin: 2026-09-05
    last-bin: ${last}
    sealed: ${sealed}
    lots: { L1: 140, L2: 146 }
`;
}

function told(code: string, days: number, cooler: string): string | undefined {
  return findingsOnExample(filledIn(days, cooler)).find((one) => one.code === code)?.message;
}

describe('a filling too fast for the plan and for the cooler', () => {
  it.each(['11 kW', '14 kW', '15 kW'])('has one cure, which ends both, behind %s', (cooler) => {
    const tooFast = told('intake-too-fast', 4, cooler) ?? '';
    const [, days] = /Take (\d+) days to fill it/.exec(tooFast) ?? [];
    const [, bins] =
      /It keeps up with (\d+) bins a day\./.exec(told('cooling-overloaded', 4, cooler) ?? '') ?? [];
    for (const [, same] of tooFast.matchAll(/(\d+) bins a day/g)) expect(same).toBe(bins);
    expect(286 / Number(days)).toBeLessThanOrEqual(Number(bins));
    for (const code of ['intake-too-fast', 'cooling-overloaded'])
      expect(told(code, Number(days), cooler)).toBeUndefined();
  });

  it('sends to the cooling where that pace would keep fruit waiting too long for its gas', () => {
    expect(told('intake-too-fast', 4, '10 kW')).toMatch(
      /See to the cooling first: its cooler keeps up with 17 bins a day, fewer than the plan allows, and 17 days of filling/,
    );
  });
});
