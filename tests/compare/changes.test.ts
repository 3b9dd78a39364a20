import { describe, expect, test } from 'vitest';
import { comparePlans } from '../../src/compare/compare';
import type { Comparison, PlanChange } from '../../src/compare/types';
import { readPlan } from '../../src/plan/read';
import { changeText } from '../../src/report/compare-changes';
import { causeText } from '../../src/report/compare-words';
import { placeOf } from '../../src/report/place';
import { sampleFiles } from '../samples/sample';
import { type TextChange, withChanges } from './forty-edits';

const files = sampleFiles('first-season');
const old = readPlan(files);

function compared(...changes: TextChange[]): Comparison {
  return comparePlans(old, readPlan(withChanges(files, changes)), { seed: 1, courses: false }).comparison;
}

function texts({ changes }: Pick<Comparison, 'changes'>): string[] {
  return changes.map((change) => changeText(change, { system: 'metric', currency: 'EUR' }));
}

const FRUIT = 'fruit';
const BUILDINGS = 'orrowby';

describe('changes by kind', () => {
  const cases: readonly (readonly [string, readonly TextChange[], PlanChange['kind'], string])[] = [
    [
      'a lot moved',
      [
        [FRUIT, 'G4: 78, G5: 81, G6: 76', 'G4: 78, G6: 76'],
        [FRUIT, 'G1: 54,', 'G1: 54, G5: 81,'],
      ],
      'lot-moved',
      'lot G5 moved from R2-gala to R1-gala, 81 bins',
    ],
    [
      'a part of a lot moved',
      [
        [FRUIT, 'G5: 81', 'G5: 61'],
        [FRUIT, 'G1: 54,', 'G1: 54, G5: 20,'],
      ],
      'lot-moved',
      'lot G5 moved from R2-gala to R1-gala, 20 bins',
    ],
    [
      'fewer bins of a lot put into another room than were taken out',
      [
        [FRUIT, 'G4: 78, G5: 81, G6: 76', 'G4: 78, G6: 76'],
        [FRUIT, 'G1: 54,', 'G1: 54, G5: 54,'],
      ],
      'bins-changed',
      'lot G5: 27 more bins taken out of R2-gala',
    ],
    [
      'more bins of a lot put into another room than were taken out',
      [
        [FRUIT, 'G5: 81', 'G5: 71'],
        [FRUIT, 'G1: 54,', 'G1: 54, G5: 30,'],
      ],
      'bins-changed',
      'lot G5: 20 more bins put into R1-gala',
    ],
    [
      'a fill that takes over bins of another',
      [
        [FRUIT, 'G5: 81', 'G5: 61'],
        [FRUIT, 'fills:\n', 'fills:\n  R5-gala: { room: R5, lots: { G5: 30, G9: 5 } }\n'],
      ],
      'added',
      'fill R5-gala added, 35 bins, 20 bins of them moved into it',
    ],
    [
      'a fill that takes over all its bins',
      [
        [FRUIT, 'G5: 81', 'G5: 61'],
        [FRUIT, 'fills:\n', 'fills:\n  R5-gala: { room: R5, lots: { G5: 20 } }\n'],
      ],
      'added',
      'fill R5-gala added, 20 bins, all moved into it',
    ],
    [
      'bins received',
      [[FRUIT, 'bins: 95,\n', 'bins: 95, received: 91,\n']],
      'bins-changed',
      'lot D2: received set to 91 bins',
    ],
    ['bins in a fill', [[FRUIT, 'D1: 97', 'D1: 90']], 'bins-changed', 'lot D1 in R3-golden: 97 → 90 bins'],
    [
      'a pin moved',
      [[FRUIT, 'open: 2027-W01', 'open: 2027-W02']],
      'pin-changed',
      'fill R2-gala pinned to 2027-W02, 2027-W01 before',
    ],
    [
      'a demand',
      [[BUILDINGS, 'cartons: 110', 'cartons: 120']],
      'demand-changed',
      'demand golden-second: 770 → 840 cartons in all, 2026-W46..2026-W52',
    ],
    [
      'a demand later',
      [
        [
          BUILDINGS,
          'weeks: 2026-W46..2026-W52\n    cartons: 110',
          'weeks: 2026-W47..2026-W53\n    cartons: 110',
        ],
      ],
      'demand-shifted',
      'demand golden-second 1 week later, 2026-W46..2026-W52 to 2026-W47..2026-W53',
    ],
    [
      'a regime of the house',
      [[FRUIT, 'humidity: 93 %', 'humidity: 95 %']],
      'override-changed',
      'regime early-air: humidity 93.0 → 95.0 %',
    ],
    [
      'a key set',
      [[BUILDINGS, 'scrubber: S1\n', 'scrubber: S1\n    law: washington\n']],
      'key-changed',
      'room R2: law none → washington',
    ],
    [
      'a key left out',
      [[BUILDINGS, 'lost-places: 4 # under the cooler', 'stack: 6']],
      'key-changed',
      'room R2: stack set to 6 bins',
    ],
    [
      'a room',
      [[BUILDINGS, '  R4:\n', '  R5:\n    inside: { length: 3 m, width: 3 m, height: 3 m }\n  R4:\n']],
      'added',
      'room R5 added',
    ],
    [
      'a finding allowed',
      [
        [
          BUILDINGS,
          'tightness: { from: 250 Pa, to: 125 Pa, after: 26 min, tested: 2026-08-12 }',
          'tightness: { from: 250 Pa, to: 125 Pa, after: 26 min, tested: 2026-08-12 } # lotwright: allow room-too-leaky -- sealed anew',
        ],
      ],
      'allowance-changed',
      'room R2: findings that comments allow: set to room-too-leaky',
    ],
    [
      'money',
      [[BUILDINGS, 'processing-price: 3', 'processing-price: 4']],
      'key-changed',
      'packing: processing-price 3.00 → 4.00 EUR',
    ],
    [
      'a threshold of comparisons',
      [[BUILDINGS, '  confidence: 90 %', '  compare: { weeks: 2 }\n  confidence: 90 %']],
      'key-changed',
      'policy: compare.weeks set to 2 weeks',
    ],
  ];

  test.each(cases)('%s', (_, changes, kind, text) => {
    const comparison = compared(...changes);
    expect(comparison.changes.map((change) => change.kind)).toContain(kind);
    expect(texts(comparison)).toContain(text);
  });
});

test('a change stands at its line in either text, with its values in the units that are computed in', () => {
  const changes: TextChange[] = [[BUILDINGS, 'inside: { length: 10.6 m', 'inside: { length: 35 ft']];
  const now = readPlan(withChanges(files, changes));
  const [change] = comparePlans(old, now, { seed: 1, courses: false }).comparison.changes;
  expect(change).toMatchObject({
    kind: 'key-changed',
    things: [{ kind: 'rooms', id: 'R1' }],
    key: 'inside.length',
    before: { value: 10.6, unit: 'm' },
    after: { unit: 'm' },
  });
  expect(change?.after?.value).toBeCloseTo(10.668, 9);
  expect(change?.oldAt && placeOf(old, change.oldAt).line).toBe(31);
  expect(change?.newAt && placeOf(now, change.newAt).line).toBe(31);
});

describe('edits', () => {
  test('a lot moved is one edit with both its fills; what else is changed stands apart', () => {
    const { edits } = compared(
      [FRUIT, 'G4: 78, G5: 81, G6: 76', 'G4: 78, G6: 76'],
      [FRUIT, 'G1: 54,', 'G1: 54, G5: 81,'],
      [BUILDINGS, 'cartons: 110', 'cartons: 120'],
    );
    expect(edits.map(({ entries }) => entries.map(({ id }) => id).sort())).toEqual([
      ['R1-gala', 'R2-gala'],
      ['golden-second'],
    ]);
  });

  test('a receipt goes with the bins of the fill that takes it', () => {
    const { edits } = compared(
      [FRUIT, 'bins: 95,\n', 'bins: 95, received: 91,\n'],
      [FRUIT, 'D2: 95', 'D2: 91'],
    );
    expect(edits.map(({ entries }) => entries.map(({ id }) => id).sort())).toEqual([['D2', 'R3-golden']]);
  });

  test('a new lot goes with the fill that names it', () => {
    const { edits } = compared(
      [FRUIT, 'lots: { G1: 54', 'lots: { G9: 6, G1: 54'],
      [FRUIT, '  # Golden Delicious\n', '  G9: { variety: Gala, picked: 2026-09-07..2026-09-08, bins: 6 }\n'],
    );
    expect(edits.map(({ entries }) => entries.map(({ id }) => id).sort())).toEqual([['G9', 'R1-gala']]);
  });
});

test("of an edit of several changes the one about what follows is named: a pin for its room's week", () => {
  const { consequences, edits } = compared(
    [FRUIT, 'G4: 78, G5: 81, G6: 76', 'G4: 70, G6: 76'],
    [FRUIT, 'G1: 54,', 'G1: 54, G5: 6,'],
    [FRUIT, 'open: 2027-W01', 'open: 2027-W03'],
    [BUILDINGS, 'cartons: 110', 'cartons: 120'],
  );
  const units = { system: 'metric', currency: 'EUR' } as const;
  expect(edits).toHaveLength(2);
  const causeOf = (key: string) => {
    const found = consequences.find((one) => one.key === key);
    return found && causeText(found, { edits }, units);
  };
  expect(causeOf('opens/R2-gala')).toBe('fill R2-gala pinned to 2027-W03, 2027-W01 before (and 3 more)');
  expect(causeOf('bins-stored/R2-gala')).toMatch(
    /^lot G5 moved from R2-gala to R1-gala, 6 bins \(and 3 more\)/,
  );
});

describe('thresholds', () => {
  const change: TextChange = [BUILDINGS, 'cartons: 390', 'cartons: 392'];

  test('what stays below them is counted and not listed', () => {
    const { consequences, heldBack } = compared(change);
    expect(consequences.filter(({ kind }) => kind.startsWith('cartons'))).toEqual([]);
    expect(heldBack.find(({ kind }) => kind === 'cartons-sold')?.count).toBe(1);
  });

  test('are those of policy: compare, the lower of the two plans', () => {
    const finer: TextChange = [
      BUILDINGS,
      '  confidence: 90 %',
      '  compare: { cartons: 5 }\n  confidence: 90 %',
    ];
    const { consequences, thresholds } = compared(change, finer);
    expect(thresholds.cartons).toBe(5);
    expect(consequences.map(({ kind }) => kind)).toContain('cartons-sold');
  });
});

test('two edits that only do harm together are both named', () => {
  // Either room alone can be packed out in the first week of January; both cannot.
  const changes: TextChange[] = [
    [FRUIT, 'sealed: 2026-09-27\n', 'sealed: 2026-09-27\n    open: 2027-W01\n'],
    [BUILDINGS, '  confidence: 90 %', '  rooms-open-at-once: 1\n  confidence: 90 %'],
  ];
  const { consequences, edits } = compared(...changes);
  expect(edits).toHaveLength(2);
  const clash = consequences.find(({ newFinding }) => newFinding?.code === 'wishes-conflict');
  expect(clash?.causes).toEqual({ parts: [{ edits: [0, 1] }], onlyTogether: true });
});

test('a mistake in the text that one of two edits corrects is cured by that one alone', () => {
  // The width was measured with a tape; the estimate of a lot was changed in the same week.
  const feet: TextChange = [BUILDINGS, 'width: 4.8 m', 'width: 15 ft 9 in'];
  const before = readPlan(withChanges(files, [feet]));
  const now = readPlan(withChanges(files, [[FRUIT, 'B1: 100, B2: 95', 'B1: 100, B2: 45']]));
  const { consequences, edits } = comparePlans(before, now, { seed: 1, courses: false }).comparison;
  expect(edits).toHaveLength(2);
  const cured = consequences.find(({ oldFinding }) => oldFinding?.code === 'unknown-unit');
  expect(cured?.causes.onlyTogether).toBe(false);
  expect(cured?.causes.parts).toHaveLength(1);
  const cause = edits[cured?.causes.parts[0]?.edits[0] ?? -1];
  expect(cause?.entries.map(({ kind }) => kind)).toEqual(['rooms']);
});

test('of several changes of a room the one that makes it too small is named, though others come first', () => {
  const { consequences, edits, ...rest } = compared(
    [BUILDINGS, 'length: 13.1 m, width: 4.8 m', 'length: 13.1 m, width: 3.9 m'],
    [BUILDINGS, 'after: 26 min', 'after: 33 min'],
    [FRUIT, 'B1: 100, B2: 95', 'B1: 100, B2: 96'],
  );
  const filled = consequences.find(({ newFinding }) => newFinding?.code === 'room-overfilled');
  if (!filled) throw new Error('the room has fewer places now');
  const text = causeText(filled, { edits, ...rest }, { system: 'metric', currency: 'EUR' });
  expect(text).toContain('inside.width');
  expect(text).not.toContain('tightness');
});

describe('of changes made in one entry that is named which is of the variety and the class that fall short', () => {
  const units = { system: 'metric', currency: 'EUR' } as const;
  const causeOf = (key: string, comparison: Comparison) => {
    const found = comparison.consequences.find((one) => one.key === key);
    return found && causeText(found, comparison, units);
  };

  test('of packouts', () => {
    const comparison = compared(
      [
        BUILDINGS,
        'Gala: { shares: { first: 62 %, second: 18 % }',
        'Gala: { shares: { first: 61 %, second: 17 % }',
      ],
      [
        BUILDINGS,
        'Braeburn: { shares: { first: 61 %, second: 17 %',
        'Braeburn: { shares: { first: 45 %, second: 9 %',
      ],
    );
    expect(comparison.edits).toHaveLength(1);
    expect(causeOf('cartons-short/Braeburn/first', comparison)).toBe(
      'packing: packout.Braeburn.shares.first 61.0 → 45.0 % (and 3 more)',
    );
    expect(causeOf('cartons-short/Braeburn/second', comparison)).toBe(
      'packing: packout.Braeburn.shares.second 17.0 → 9.0 % (and 3 more)',
    );
  });

  test('of lots of two varieties in a room', () => {
    const mixed: TextChange = [
      FRUIT,
      'lots: { B1: 100, B2: 95, B3: 95 }',
      'lots: { D3: 20, B1: 80, B2: 95, B3: 95 }',
    ];
    const fewer: TextChange = [
      FRUIT,
      'lots: { B1: 100, B2: 95, B3: 95 }',
      'lots: { D3: 8, B1: 30, B2: 95, B3: 95 }',
    ];
    const [before, now] = [mixed, fewer].map((change) => readPlan(withChanges(files, [change])));
    if (!before || !now) throw new Error('two plans');
    const { comparison } = comparePlans(before, now, { seed: 1, courses: false });
    expect(comparison.edits).toHaveLength(1);
    const causes = comparison.consequences.flatMap(({ about, key }) =>
      about.of === 'product' ? [[about.variety, causeOf(key, comparison)]] : [],
    );
    expect(causes).toContainEqual(['Braeburn', 'lot B1 in R4-braeburn: 80 → 30 bins (and 1 more)']);
    expect(new Set(causes.map(([variety]) => variety))).toEqual(new Set(['Braeburn', 'Golden Delicious']));
    for (const [variety, cause] of causes)
      expect(cause).toMatch(variety === 'Braeburn' ? /^lot B1 in/ : /^lot D3 in/);
  });
});

test('what two edits do together beyond the sum is named', () => {
  const { consequences, edits } = compared(
    [BUILDINGS, 'cartons: 390', 'cartons: 480'],
    [FRUIT, 'B1: 100, B2: 95', 'B1: 100, B2: 45'],
  );
  const short = consequences.find(({ key }) => key === 'cartons-short/Braeburn/first');
  expect(edits).toHaveLength(2);
  expect(short?.causes.parts).toHaveLength(2);
  const parts = short?.causes.parts.map(({ part }) => part ?? 0) ?? [];
  expect(Math.abs(short?.causes.together ?? 0)).toBeGreaterThan(1);
  expect((parts[0] ?? 0) + (parts[1] ?? 0) + (short?.causes.together ?? 0)).toBeCloseTo(
    (short?.after ?? 0) - (short?.before ?? 0),
    6,
  );
});

test('what is only found by following a room through its gas has its one cause among several edits', () => {
  const changes: TextChange[] = [
    [BUILDINGS, 'after: 26 min', 'after: 6 min'],
    [BUILDINGS, 'cartons: 390', 'cartons: 480'],
  ];
  const now = readPlan(withChanges(files, changes));
  const { consequences } = comparePlans(old, now, { seed: 1, courses: true }).comparison;
  const climbs = consequences.find(({ newFinding }) => newFinding?.code === 'oxygen-climbs');
  expect(climbs?.causes).toEqual({ parts: [{ edits: [0] }], onlyTogether: false });
});

test('a promise that an edit breaks is a finding with that edit as its cause; what is promised may change too', () => {
  const promise: TextChange = [
    BUILDINGS,
    'packing:\n',
    'expect:\n  gala-in-january: { no-shortage: { variety: Gala, before: 2027-W05 } }\n\npacking:\n',
  ];
  const promised = readPlan(withChanges(files, [promise]));
  const broken = readPlan(
    withChanges(files, [
      promise,
      [FRUIT, 'open: 2027-W01', 'open: 2027-W03'],
      [BUILDINGS, 'cartons: 390', 'cartons: 400'],
    ]),
  );
  const { consequences, edits } = comparePlans(promised, broken, { seed: 1, courses: false }).comparison;
  const found = consequences.filter(({ newFinding }) => newFinding?.code.startsWith('expectation'));
  expect(found).toHaveLength(1);
  const [part] = found[0]?.causes.parts ?? [];
  expect(part && edits[part.edits[0]]?.changes[0]?.kind).toBe('pin-changed');
  const { changes } = compared(promise);
  expect(changes).toMatchObject([{ kind: 'added', things: [{ kind: 'expect', id: 'gala-in-january' }] }]);
});
