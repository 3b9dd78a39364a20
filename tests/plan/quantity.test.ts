import Qty from 'js-quantities';
import { describe, expect, it } from 'vitest';
import {
  type Dimension,
  dimensions,
  dimensionsOf,
  parseQuantity,
  quantityPattern,
  toUnit,
  unitOf,
  unitSpellings,
} from '../../src/plan/quantity';

/** How a general-purpose unit library (js-quantities) spells our units. */
const THEIRS: Readonly<Record<string, string>> = {
  L: 'liter',
  m3: 'm^3',
  ft3: 'ft^3',
  '°C': 'tempC',
  '°F': 'tempF',
  inH2O: 'inH2O',
  t: 'tonne',
  kgf: 'kg*gee',
  lbf: 'lbf',
  TR: '12000 btu/h',
  'BTU/h': 'btu/h',
  'W/m2K': 'W/m^2*degK',
  'BTU/hft2°F': 'btu/h*ft^2*degF',
  'm3/h': 'm^3/h',
  'ft3/min': 'ft^3/min',
  'kg/day': 'kg/day',
  'kg/h': 'kg/h',
  'lb/day': 'lb/day',
  'mg/kg/h': 'mg/kg*h',
  'ng/kg/s/Pa': 'ng/kg*s*Pa',
  'kJ/kgK': 'kJ/kg*degK',
  'kcal/kgK': 'kcal/kg*degK',
  'BTU/lb°F': 'btu/lb*degF',
  'kg/m3': 'kg/m^3',
  'lb/ft3': 'lb/ft^3',
  days: 'day',
  weeks: 'week',
  oz: 'oz',
  in: 'in',
  '%': '%',
  ppm: 'ppm',
  K: 'tempK',
};

/** Ours are exact by definition (NIST SP 811); theirs are rounded where noted. */
const TOLERANCE: Readonly<Record<string, number>> = {
  // Theirs is water at 4 °C, ours the conventional inch of water.
  inH2O: 5e-5,
  TR: 1e-6,
  'BTU/h': 1e-6,
  'BTU/hft2°F': 1e-6,
  'BTU/lb°F': 1e-6,
  // Theirs is the thermochemical calorie of 4.184 J, ours the international one of 4.1868 J.
  'kcal/kgK': 7e-4,
  lbf: 1e-6,
};

function theirs(value: number, unit: string, dimension: Dimension): number {
  const base = unitOf(dimension);
  if (dimension === 'temperature') return Qty(value, THEIRS[unit] ?? unit).to('tempC').scalar;
  if (dimension === 'temperature difference')
    return Qty(value, unit === '°F' ? 'degF' : 'degK').to('degK').scalar;
  const name = THEIRS[unit] ?? unit;
  const counted = /^(\d+) (.*)$/.exec(name);
  const quantity = counted ? Qty(value * Number(counted[1]), counted[2] ?? '') : Qty(value, name);
  return quantity.to(THEIRS[base] ?? base).scalar;
}

describe('quantities', () => {
  for (const dimension of Object.keys(dimensions) as Dimension[])
    for (const unit of Object.keys(dimensions[dimension])) {
      // A month is a twelfth of the mean Gregorian year here; unit libraries differ on it.
      if (unit === 'months') continue;
      it(`${dimension} in ${unit} as js-quantities has it`, () => {
        for (const value of [1, 17.2, 250]) {
          const ours = parseQuantity(`${value} ${unit}`, dimension)?.value ?? Number.NaN;
          const expected = theirs(value, unit, dimension);
          const tolerance = (TOLERANCE[unit] ?? 1e-9) * Math.max(1e-6, Math.abs(expected));
          expect(Math.abs(ours - expected), `${ours} against ${expected}`).toBeLessThanOrEqual(tolerance);
        }
      });
    }

  it('a month is a twelfth of 365.2425 days', () => {
    expect(parseQuantity('12 months', 'long time')?.value).toBeCloseTo(365.2425, 9);
  });

  it('reads every spelling, with and without a space, and prints back what was written', () => {
    for (const dimension of Object.keys(dimensions) as Dimension[])
      for (const spelling of unitSpellings(dimension))
        for (const text of [`12.5 ${spelling}`, `12.5${spelling}`]) {
          const read = parseQuantity(text, dimension);
          expect(read, text).toBeDefined();
          if (!read) continue;
          expect(read.written).toBe(12.5);
          expect(toUnit(read.value, dimension, read.unit)).toBeCloseTo(12.5, 9);
          expect(new RegExp(quantityPattern(dimension)).test(text), text).toBe(true);
        }
  });

  it('accepts by pattern exactly what it reads', () => {
    const texts = [
      '1',
      '1 m',
      '1m',
      '-1 m',
      '+.5 m',
      '1. m',
      '1,5 m',
      '1e3 m',
      '1 mm',
      '1 M',
      '1  m',
      ' 1 m',
      '1 m ',
      '0 °C',
      '0 C',
      '3 %',
      '3 % ',
      '5 µL/L',
      '10 cfm',
      '2 in w.g.',
      '1 m3',
      '1 m³',
      'm',
      '',
    ];
    for (const dimension of Object.keys(dimensions) as Dimension[])
      for (const text of texts)
        expect(new RegExp(quantityPattern(dimension)).test(text), `${text} as ${dimension}`).toBe(
          parseQuantity(text, dimension) !== undefined,
        );
  });

  it('tells a mass from a length', () => {
    expect(dimensionsOf('18.6 kg')).toEqual(['mass']);
    expect(dimensionsOf('18.6 m')).toEqual(['length']);
    expect(dimensionsOf('18.6')).toEqual([]);
  });
});
