import { describe, expect, test } from 'vitest';
import { fruitData } from '../../src/fruit/data';
import { starchOneToEight, termOf } from '../../src/keeping/maturity';
import type { UnitSystem } from '../../src/plan/display';
import { planWith, present } from '../fruit/plans';
import { type LotValues, maturity } from './rooms';

const { variety } = fruitData(planWith());

function decision(name: string, test: LotValues, system: UnitSystem = 'metric') {
  const { term, reason } = termOf(maturity(test), present(variety(name)));
  return { term, reason: reason({ system, currency: 'money' }) };
}

describe('storage term by maturity', () => {
  test('says what decided it', () => {
    expect(decision('Gala', { firmnessLbf: 16.5, starch: 4 })).toEqual({
      term: 'short',
      reason:
        'firmness 73.4 N is below the mid-term 75.6 N; starch 4 is past 3, the limit for long-term storage',
    });
  });

  test('says it in pounds where those are asked for, as finely as it takes to tell test and limit apart', () => {
    const told = (firmnessLbf: number) => decision('Gala', { firmnessLbf }, 'us').reason;
    expect(told(16.5)).toBe('firmness 16.5 lbf is below the mid-term 17 lbf');
    expect(told(17.98)).toBe('firmness 17.98 lbf is below the long-term 18 lbf');
    expect(told(18)).toBe('firmness 18 lbf is at least the long-term 18 lbf');
  });

  test('the weaker of firmness and starch decides', () => {
    expect(decision('Gala', { firmnessLbf: 18, starch: 3 }).term).toBe('long');
    expect(decision('Gala', { firmnessLbf: 18, starch: 3.1 }).term).toBe('mid');
    expect(decision('Gala', { firmnessLbf: 17.9, starch: 3 }).term).toBe('mid');
    expect(decision('Gala', { firmnessLbf: 18, starch: 6 }).term).toBe('short');
    expect(decision('Gala', { firmnessLbf: 15.9, starch: 3 }).term).toBe('air');
  });

  test('either test alone is used, and ethylene above 1 ppm rules out long storage', () => {
    expect(decision('Gala', { starch: 2 }).term).toBe('long');
    expect(decision('Gala', { firmnessLbf: 17 }).term).toBe('mid');
    expect(decision('Gala', { starch: 2, ethylene: 1.4 }).term).toBe('mid');
    expect(decision('Gala', { starch: 2, ethylene: 1 }).term).toBe('long');
  });

  test('nothing is decided without a test or a table', () => {
    expect(decision('Gala', {})).toEqual({ term: undefined, reason: 'no maturity test' });
    expect(decision('Ambrosia', { starch: 2 }).reason).toBe('no table of harvest maturity for Ambrosia');
  });

  test('other starch scales keep their ends and middle', () => {
    expect([1, 5.5, 10].map((index) => starchOneToEight(index, 'one-to-ten'))).toEqual([1, 4.5, 8]);
    expect([1, 3.5, 6].map((index) => starchOneToEight(index, 'one-to-six'))).toEqual([1, 4.5, 8]);
    expect(decision('Gala', { starch: 3.5, starchScale: 'one-to-ten' }).term).toBe('long');
    expect(decision('Gala', { starch: 3.5, starchScale: 'one-to-six' }).term).toBe('mid');
  });
});
