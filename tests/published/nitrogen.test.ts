import { describe, expect, it } from 'vitest';
import { parseDay } from '../../src/plan/dates';
import { flushTarget, flushVolumes, oxygenInNitrogen, quickestFlush } from '../../src/room/nitrogen';
import { aFill, aNitrogenSource, aPlan, figure, known, onlyRoom } from '../room/orchard';
import { check } from './published';

const PURGE =
  'Dilution purge ln((C0 - Cp) / (Ct - Cp)) (SIGTTO/IGC), https://staging.shipcalculators.com/docs/formulas/lng-purge-dilution';
const percent = (value: number) => figure('%', value);

function volumes(from: number, to: number, purity: number): number {
  return flushVolumes(percent(from), percent(to), oxygenInNitrogen(percent(purity))).value;
}

const LEVELS = [10, 5, 3, 2.5, 2, 1.5, 1];
/** Volumes of nitrogen from 20.9 % oxygen, by purity; a level that the purity cannot reach has none. */
const TABLE: readonly (readonly [purity: number, volumes: readonly (number | undefined)[]])[] = [
  [100, [0.737, 1.43, 1.941, 2.123, 2.347, 2.634, 3.04]],
  [99.5, [0.764, 1.511, 2.099, 2.322, 2.61, 3.016, 3.709]],
  [99, [0.793, 1.604, 2.298, 2.585, 2.991, 3.684, undefined]],
  [98, [0.86, 1.841, 2.939, 3.632, undefined, undefined, undefined]],
  [97.5, [0.897, 1.996, 3.605, undefined, undefined, undefined, undefined]],
];

describe('nitrogen from air to a level', () => {
  for (const [purity, row] of TABLE) {
    LEVELS.forEach((level, index) => {
      const expected = row[index];
      const source = aNitrogenSource([[purity, 100]]);
      const flush = quickestFlush(source, figure('m3', 1), percent(level));
      it(`${purity} % nitrogen to ${level} % oxygen`, () => {
        if (expected === undefined) {
          expect(flush).toBeUndefined();
          return;
        }
        check(
          {
            id: `nitrogen-${purity}-to-${level}`,
            what: `Volumes of ${purity} % nitrogen from air to ${level} % oxygen`,
            source: PURGE,
            known: 'published',
            expected,
            unit: 'volumes',
            tolerance: 0.0005,
          },
          known(flush?.nitrogen),
        );
      });
    });
  }
});

it('agrees with the worked examples', () => {
  const chart = {
    source: 'Dilution purge chart after Branan, Rules of Thumb for Chemical Engineers: reads 3.1',
    known: 'published' as const,
    unit: 'volumes',
  };
  check(
    {
      id: 'nitrogen-21-to-1',
      what: '21 to 1 % with pure nitrogen',
      ...chart,
      expected: 3.0445,
      tolerance: 0.00005,
    },
    volumes(21, 1, 100),
  );
  check(
    {
      id: 'nitrogen-21-to-1-chart',
      what: 'The same as read off the chart',
      ...chart,
      expected: 3.1,
      tolerance: 0.06,
    },
    volumes(21, 1, 100),
  );
  check(
    {
      id: 'nitrogen-21-to-5',
      what: '21 to 5 % with pure nitrogen',
      ...chart,
      expected: 1.4351,
      tolerance: 0.00005,
    },
    volumes(21, 5, 100),
  );
  check(
    {
      id: 'nitrogen-apple-chamber',
      what: 'Nitrogen at 97.5 % against pure, an apple chamber to 3 % oxygen (0.21 against 0.12 kg)',
      source: 'Journal of Food Engineering 2007, 82(1):77-83',
      known: 'published',
      expected: 1.75,
      unit: 'times',
      // The masses are printed to two digits.
      tolerance: 0.12,
    },
    volumes(20.9, 3, 97.5) / volumes(20.9, 3, 100),
  );
  check(
    {
      id: 'nitrogen-purity-ratio',
      what: 'The same by the formula for dilution',
      source: PURGE,
      known: 'published',
      expected: 1.857,
      unit: 'times',
      tolerance: 0.0005,
    },
    volumes(20.9, 3, 97.5) / volumes(20.9, 3, 100),
  );
});

it('stops the nitrogen at about 1.8 % where the plan says so, and leaves the rest to the fruit', () => {
  const stopped = { ...aNitrogenSource(), stopsAt: percent(1.8) };
  const room = onlyRoom(aPlan({ regimes: { plain: { oxygen: 1.0 } }, nitrogen: [stopped] }));
  check(
    {
      id: 'nitrogen-flushed-to',
      what: 'A room for 1.0 % oxygen, its feed stopped as the trade does, is flushed to',
      source:
        'Common practice: brought down to about 1.8 % oxygen by nitrogen, then continuous scrubbing starts',
      known: 'common practice',
      unit: '%',
      tolerance: 0.05,
      expected: 1.8,
    },
    known(room.flushTo),
  );
  expect(known(room.respirationHours)).toBeGreaterThan(0);
  expect(flushTarget(percent(2.5), percent(1.8)).value).toBe(2.5);
  expect(flushTarget(percent(1.0)).value).toBe(1.0);
});

it('reaches 3 % oxygen within the four days that the trade asks', () => {
  const room = onlyRoom(aPlan({ regimes: { plain: { oxygen: 3 } }, fills: [aFill()] }));
  // ARC 2019: nitrogen flushing must reach 3 % oxygen within 4 days of sealing.
  expect(known(room.nitrogenHours)).toBeLessThan(4 * 24);
  expect(known(room.nitrogenHours)).toBeGreaterThan(0);
});

it('counts the days a CA rule gives from sealing', () => {
  // Washington WAC 16-450-041: 5 % oxygen within 20 days of sealing.
  const sealed = parseDay('2025-10-01') ?? 0;
  check(
    {
      id: 'nitrogen-washington-20-days',
      what: 'Sealed 1 October 2025, 5 % oxygen by 21 October: days between',
      source: 'Washington Administrative Code 16-450-041, https://lawfilesext.leg.wa.gov',
      known: 'published',
      expected: 20,
      unit: 'days',
      tolerance: 0,
    },
    (parseDay('2025-10-21') ?? 0) - sealed,
  );
});
