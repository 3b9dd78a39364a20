import { describe, expect, test } from 'vitest';
import { computed, samplePlan } from '../server/plans';

const sample = samplePlan('first-season');

/** What the first season says with one slip in its fruit. */
function findingsWith(right: string, wrong: string) {
  const files = sample.map((file) => ({ ...file, text: file.text.replace(right, wrong) }));
  expect(files).not.toEqual(sample);
  return computed(files).findings;
}

const REGIME = '    room: R2\n    regime: gala-own';
const R2_SLIPS: readonly [string, string, string][] = [
  ['a regime that stands too shallow', REGIME, REGIME.replace('    regime', '   regime')],
  ['a sealing day without its colon', 'sealed: 2026-09-18', 'sealed 2026-09-18'],
  ['a sealing day with dashes for hyphens', 'sealed: 2026-09-18', 'sealed: 2026–09–18'],
  ['a sealing day that is misspelt', 'sealed: 2026-09-18', 'seald: 2026-09-18'],
];

describe.each(R2_SLIPS)('%s', (_, right, wrong) => {
  const findings = findingsWith(right, wrong);
  const of = (code: string) => findings.filter((one) => one.code === code);

  test('makes no room of low oxygen one that people go into', () => {
    expect(of('air-room-on-shared-scrubber').filter(({ message }) => message.startsWith('R2-gala'))).toEqual(
      [],
    );
  });

  test('leaves its room in the caution before opening', () => {
    const [caution] = of('caution-before-opening');
    expect(caution?.message).toContain('R2-gala and 2 more sealed rooms will be opened');
  });

  test('moves no pin by a fix, for its window is that of another plan', () => {
    expect(of('pin-outside-window').flatMap(({ fixes }) => fixes)).toEqual([]);
  });
});

describe('oxygen of a regime that cannot be read', () => {
  test.each(['oxygen:1.5 %', 'oxygen= 1.5 %', 'oxygen: O2 %', 'oxygen: 1,5 %'])(
    'is not taken for a regime of air: %s',
    (wrong) => {
      const findings = findingsWith('oxygen: 1.5 %', wrong);
      expect(findings.filter(({ code }) => code === 'sealing-and-regime-disagree')).toEqual([]);
    },
  );
});

describe('where all is read', () => {
  test('a sealing day beside a regime of air is told, and a pin outside its window has a fix', () => {
    const air = findingsWith('    oxygen: 1.5 %\n', '');
    expect(air.map(({ code }) => code)).toContain('sealing-and-regime-disagree');
    const late = findingsWith('open: 2027-W01', 'open: 2027-W30');
    expect(late.filter(({ code }) => code === 'pin-outside-window')[0]?.fixes).toHaveLength(1);
  });

  test('a room of air on a scrubber of sealed rooms is told', () => {
    const own = computed(
      sample.map((file) => ({
        ...file,
        text: file.text
          .replace(`${REGIME}\n`, '    room: R2\n    regime: early-air\n')
          .replace('    sealed: 2026-09-18\n', ''),
      })),
    ).findings;
    expect(
      own.filter(
        ({ code, message }) => code === 'air-room-on-shared-scrubber' && message.startsWith('R2-gala'),
      ),
    ).toHaveLength(1);
  });
});
