import { describe, expect, it, test } from 'vitest';
import type { Finding } from '../../src/findings/types';
import { findingsOnExample, readPage } from './page';

/** Advice that would send somebody into a sealed room, or that would not help. */

function found(code: string, example: string): Finding | undefined {
  return findingsOnExample(example).find((finding) => finding.code === code);
}

function wrongExample(code: string): string {
  const [example] = readPage(code).wrong;
  if (example === undefined) throw new Error(`the page of ${code} has no wrong example`);
  return example;
}

describe('what is said of going into rooms', () => {
  it('dry bins are wetted before the room is sealed, and nobody goes in for it after', () => {
    const { message } = found('dry-bins', wrongExample('dry-bins')) ?? {};
    expect(message).toContain('wet the floor before the room is sealed: once it is, nobody goes in for it.');
    expect(message).not.toContain('while they take it up');
  });

  it('a room in air on a shared scrubber has both gases read before anyone goes in', () => {
    const { message } =
      found('air-room-on-shared-scrubber', wrongExample('air-room-on-shared-scrubber')) ?? {};
    expect(message).toContain('R2-gala is kept in air');
    expect(message).toContain('Before anyone goes in, read oxygen and carbon dioxide, both,');
  });

  it.each(['gala-standard', 'gala-starndad'])(
    'a room that lacks its sealing day, whose regime is %s, is not said to be gone into',
    (regime) => {
      const example = wrongExample('air-room-on-shared-scrubber').replace('gala-air', regime);
      const findings = findingsOnExample(example);
      expect(findings.filter(({ message }) => message.includes('people go in'))).toEqual([]);
      const codes = findings.map(({ code }) => code);
      expect(codes).toContain(
        regime === 'gala-standard' ? 'sealing-and-regime-disagree' : 'unknown-reference',
      );
    },
  );
});

/** A room of 286 bins, tight for all of its fruit and not for a tenth of it. */
function roomOf(variety: string, lots: string, minutes = 28): string {
  return `rooms:
  R1:
    inside: { length: 13.1 m, width: 5.9 m, height: 5.8 m }
    bin-type: plastic-1200
    refrigeration: { capacity: 45 kW, group: engine-room }
    tightness: { from: 250 Pa, to: 125 Pa, after: ${minutes} min }
    scrubber: S1
    nitrogen: N1
lots:
  L1: { variety: ${variety}, picked: 2026-09-05..2026-09-15, bins: 260, field-temperature: 17 °C }
fills:
  R1-gala:
    room: R1
    regime: gala-standard
    first-bin: 2026-09-05
    last-bin: 2026-09-15
    sealed: 2026-09-17
    lots: ${lots}
`;
}

const OF_ITS_FRUIT = [
  'oxygen-climbs',
  'room-too-leaky',
  'set-point-late',
  'weight-loss-high',
  'room-partly-filled',
];

describe('a fill whose fruit is not all known', () => {
  test.each([
    ['a variety is misspelt', roomOf('Galumph', '{ L1: 260, L2: 26 }'), 'unknown-reference'],
    ['a lot is misspelt', roomOf('Gala', '{ LX-11: 260, L2: 26 }'), 'unknown-reference'],
    ['bins are no number', roomOf('Gala', '{ L1: 26O, L2: 26 }'), 'wrong-type'],
  ])('is told of the mistake alone where %s', (_what, example, code) => {
    const codes = findingsOnExample(example).map((one) => one.code);
    expect(codes).toContain(code);
    expect(codes.filter((one) => OF_ITS_FRUIT.includes(one))).toEqual([]);
  });

  it('of less fruit, all of it known, is told that more comes in than it uses', () => {
    expect(found('oxygen-climbs', roomOf('Gala', '{ L2: 26 }'))?.message).toContain('more comes in than');
  });

  it('is still told what its pressure test is asked, without what the fruit keeps up with', () => {
    const known = found('room-too-leaky', roomOf('Gala', '{ L1: 260, L2: 26 }', 9));
    expect(known?.message).toMatch(/of the oxygen the fruit uses.*it is tight enough\. Find the leak/);
    const { message } = found('room-too-leaky', roomOf('Galumph', '{ L1: 260, L2: 26 }', 9)) ?? {};
    expect(message).toMatch(/at least 20 min are asked \(from memory, NRAES-22\)\. Find the leak/);
  });
});

describe('a scrubber that is out of use', () => {
  const scrubber = (removal: number, days: string) =>
    found(
      'scrubber-overloaded',
      `plant:\n  scrubbers:\n    S1: { kind: carbon, removal: ${removal} kg/day, at-level: 3 %, out-of-use: [${days}] }\n`,
    )?.message;

  it('is not said to carry its load with more removal', () => {
    const message = scrubber(10, '2026-09-22..2026-09-26');
    expect(message).toContain(
      'In 2026-W39 it is out of use for 5 days, and while it stands still no removal of its own carries the load: move that to another date,',
    );
    expect(message).not.toContain('A removal of');
    expect(message).not.toContain('settle near');
  });

  it('is told of where it stands still for all of a week', () => {
    const message = scrubber(60, '2026-09-21..2026-09-27');
    expect(message).toMatch(/at most [\d.]+ kg\/day against 0\.?0* kg\/day in 2026-W39\./);
    expect(message).toContain('it is out of use for 7 days');
  });

  it('is told what removal would carry the other weeks', () => {
    const message = scrubber(6, '2026-09-22..2026-09-26');
    expect(message).toMatch(
      /no removal of its own .* In weeks in which it runs every day: A removal of [\d.]+ kg/,
    );
  });
});

it('a set-point that is not reached may be for want of flow, and is reached with more', () => {
  const late = (flow: number) =>
    found(
      'set-point-late',
      `plant:
  nitrogen:
    N1: { kind: adsorption, flows: [{ purity: 97 %, flow: ${flow} m3/h }, { purity: 99.5 %, flow: ${flow / 2} m3/h }] }
${roomOf('Gala', '{ L1: 60, L2: 26 }')}`,
    );
  expect(late(1)?.message).toContain('never reaches its 1.75 % oxygen');
  expect(late(1)?.message).toContain(
    'give the room a larger flow or purer gas, or have the leak found before it',
  );
  expect(late(60)).toBeUndefined();
});
