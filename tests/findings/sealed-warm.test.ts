import { describe, expect, it } from 'vitest';
import { formatDay } from '../../src/plan/dates';
import { findingsOnExample, roomOfExamples, seasonOfExample } from './page';

/** A room of Honeycrisp: a week at 10 °C in air after its last bin on the 12th, then a kelvin a day down to 3.3 °C. */
function honeycrisp(sealed: string, cooler = '45 kW'): string {
  return `${roomOfExamples({ cooler })}lots:
  H1: { variety: Honeycrisp, picked: 2026-09-08..2026-09-12, bins: 280, field-temperature: 22 °C }
fills:
  R1-gala:
    room: R1
    regime: honeycrisp-conditioned
    first-bin: 2026-09-08
    last-bin: 2026-09-12
    sealed: ${sealed}
    lots: { H1: 280 }
`;
}

function message(sealed: string, cooler?: string): string | undefined {
  return findingsOnExample(honeycrisp(sealed, cooler)).find(({ code }) => code === 'sealed-before-cold')
    ?.message;
}

const SMALL = '10 kW';

describe('a room with a warm hold', () => {
  it('is not sealed in the hold: that is in ventilated air', () => {
    const told = message('2026-09-16');
    expect(told).toContain('in its warm hold, which lasts until 2026-09-19.');
    expect(told).toContain('Seal it on 2026-09-20.');
    expect(message('2026-09-20')).toBeUndefined();
  });

  it('may be sealed while it steps down: it does not wait for the last kelvin', () => {
    const { stepDown } = seasonOfExample(honeycrisp('2026-09-20')).filled.get('R1-gala') ?? {};
    expect(stepDown && [stepDown.first, stepDown.last].map(formatDay)).toEqual(['2026-09-20', '2026-09-26']);
    for (const day of ['2026-09-20', '2026-09-22', '2026-09-26']) expect(message(day)).toBeUndefined();
  });

  it('waits for fruit that has not come down to the hold, behind a cooler that is too small', () => {
    const told = message('2026-09-20', SMALL) ?? '';
    const [, day = ''] = /all fruit is down to its warm hold on (\S+), \d+ days? later/.exec(told) ?? [];
    const { cooling } = seasonOfExample(honeycrisp('2026-09-20', SMALL)).courses ?? {};
    expect(day).toBe(formatDay(cooling?.get('R1-gala')?.canBeSealed ?? 0));
    expect(told).toContain(`Seal it on ${day}`);
    expect(message(day, SMALL)).toBeUndefined();
  });
});
