import { describe, expect, test } from 'vitest';
import { findingsOnExample, roomOfExamples } from './page';

function told(code: string, example: string) {
  return findingsOnExample(example)
    .filter((one) => one.code === code)
    .map(({ message, fixes }) => ({
      message,
      becomes: fixes.flatMap(({ edits }) => edits.map(({ newText }) => newText)),
    }));
}

const setPoint = (oxygen: string) => `regimes:
  gala-standard:
    varieties: [Gala]
    temperature: 0.8 °C
    oxygen: ${oxygen}
    carbon-dioxide: 1.8 %
    storage-life: 7 months
    source: own records
`;

describe('a set-point that is mistyped', () => {
  test('with a letter for a digit becomes the quantity it looks like, never a text in quotes', () => {
    const [letter] = told('not-a-quantity', setPoint('1.O %'));
    expect(letter?.message).toContain(
      'a letter stands where a digit belongs. Write `1.0 %` if that is meant',
    );
    expect(letter?.becomes).toEqual(['1.0 %']);
    expect(told('not-a-quantity', setPoint('l.5 %'))[0]?.becomes).toEqual(['1.5 %']);
  });

  // Two per cent, or 0.2 with its point missing, which fruit does not survive.
  test('with a nought before it is a choice of two', () => {
    expect(told('unit-missing', setPoint('02'))[0]?.becomes).toEqual(['2 %', '0.2 %']);
    expect(told('unit-missing', setPoint("'02'"))[0]?.becomes).toEqual(['2 %', '0.2 %']);
  });

  test('as the sign of oxygen has no fix', () => {
    expect(told('not-a-quantity', setPoint('O2 %'))[0]?.becomes).toEqual([]);
  });
});

describe('a column of readings that YAML reads as a number', () => {
  test('is likely the sign of oxygen', () => {
    const example = `readings:
  store: { file: none.csv, columns: { time: Time, room: Room, oxygen: 02 } }
`;
    expect(told('wrong-type', example)[0]?.becomes).toEqual(['O2']);
  });
});

describe('rates in the wrong unit', () => {
  const scrubber = (removal: string) => `plant:
  scrubbers:
    S1:
      kind: carbon
      removal: ${removal}
      at-level: 3 %
      beds: { number: 2, carbon: 90 kg, adsorb: 8 min, regenerate: 8 min }
`;

  test('of a scrubber by the hour for by the day are more than its fruit gives off', () => {
    expect(told('implausible-value', scrubber('18 kg/day'))).toEqual([]);
    expect(told('implausible-value', scrubber('18 kg/h'))[0]?.message).toMatch(
      /^S1: a removal of 432\.0 kg\/day is hard to believe: its rooms hold 90\.0 t of fruit, which gives off no more than some 90\.0 kg\/day/,
    );
  });

  test('of a cooler and of a generator far beyond any are hard to believe', () => {
    const room = (cooler: string) => roomOfExamples({ cooler });
    expect(told('implausible-value', room('45 kW'))).toEqual([]);
    expect(told('implausible-value', room('45000 kW'))[0]?.message).toContain(
      'R1: a cooling capacity of 45,000.0 kW is hard to believe; between 0.5 kW and 1,000.0 kW is usual.',
    );
    const nitrogen = (flow: string) =>
      `plant:\n  nitrogen:\n    N1: { kind: adsorption, flows: [{ purity: 97 %, flow: ${flow} }] }\n`;
    expect(told('implausible-value', nitrogen('90 m3/h'))).toEqual([]);
    expect(told('implausible-value', nitrogen('90000 m3/h'))[0]?.message).toContain(
      'N1: a flow of nitrogen of 90,000',
    );
  });
});
