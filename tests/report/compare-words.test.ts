import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Consequence } from '../../src/compare/types';
import { type DisplayUnits, showApart } from '../../src/plan/display';
import { referenceFigure, type Unit } from '../../src/plan/figure';
import { consequenceText } from '../../src/report/compare-words';

const units: DisplayUnits = { system: 'metric', currency: 'EUR' };
const figure = (unit: Unit, value: number) =>
  referenceFigure('made up', unit, value, { citation: '', known: 'common practice' });

describe('what is told from one figure to another', () => {
  const told = (kind: Consequence['kind'], unit: Consequence['unit'], before: number, after: number) =>
    consequenceText(
      {
        kind,
        key: '',
        unit,
        before,
        after,
        about: { of: 'fill', fill: 'R1-gala', room: 'R1' },
        gravity: 'shift',
        direction: 'neither',
        causes: { parts: [], onlyTogether: false },
      },
      units,
    );

  it('has as many decimals as it takes to see that it has changed, and no more', () => {
    expect(told('carbon-dioxide', 'kg/day', 4.31, 4.34)).toContain(' 4.31 kg/day → 4.34 kg/day');
    expect(told('carbon-dioxide', 'kg/day', 4.2, 4.34)).toContain(' 4.2 kg/day → 4.3 kg/day');
    expect(told('room-cooling', '%', 85.2, 85.4)).toContain(' 85.2 % → 85.4 %');
    expect(told('bins-packed', 'bins', 99.6, 100.4)).toContain('(99.6 bins → 100.4 bins)');
  });

  it('never reads the same where the figures differ by more than a millionth of what is usual to show', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<Unit>('kg/day', 'kW', '%', 'money', 'bins', 'degC'),
        fc.double({ min: 0.1, max: 5000, noNaN: true }),
        fc.double({ min: 0.001, max: 2, noNaN: true }),
        (unit, value, change) => {
          const [was, is] = showApart(figure(unit, value), figure(unit, value + change), units);
          expect(was).not.toBe(is);
        },
      ),
    );
    expect(showApart(figure('kW', 12), figure('kW', 12), units)).toEqual(['12.0 kW', '12.0 kW']);
  });
});
