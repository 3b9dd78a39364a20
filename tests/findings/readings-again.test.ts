import { describe, expect, it } from 'vitest';
import { SeasonAgain } from '../../src/findings/again/season-again';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import type { ComputedSeason } from '../../src/findings/types';
import { emptyPlanCache, readPlan } from '../../src/plan/read';
import { readReadings } from '../../src/readings/read-readings';
import { expectedOf } from '../../src/report/watching';
import { recordMore } from '../../src/watching/record';
import { seenReadings } from '../../src/watching/seen-readings';
import { planText, withPlant } from '../watching/room-plan';

const TEXT = withPlant(
  planText({
    progress: 'first-bin: 2026-09-08, last-bin: 2026-09-16, sealed: 2026-09-18, lots: { L1: 200 }',
    more: 'readings:\n  store: { file: store.csv, columns: { time: Time, room: Room, oxygen: O2 } }\n',
  }),
);
const CSV = `Time,Room,O2
${[0, 1, 2, 3, 4, 5].map((hour) => `2026-10-01 0${hour}:00,R1,1.05`).join('\n')}
2026-10-01 06:00,R7,1.5
`;

/** The plan as it is typed, with what was read in its rooms before. */
const EDITS: readonly ((text: string) => string)[] = [
  (text) => `# a line above\n${text}`,
  (text) => text.replace('    law: washington\n', ''),
  (text) => text.replaceAll('R1-fill', 'R1-other'),
  (text) =>
    text.replace(
      'sealed: 2026-09-18, lots',
      'sealed: 2026-09-18, opened: 2026-10-02, emptied: 2026-10-09, lots',
    ),
  (text) =>
    text.replace(
      '  R1-fill:\n',
      '  # lotwright: allow oxygen-low -- the analyser is being changed\n  R1-fill:\n',
    ),
  (text) => `${text}policy: { findings: { oxygen-low: notice, record-gap: off } }\n`,
  (text) => text.replace(/^readings:\n.*\n/m, ''),
  (text) => text.replace('  store:', '  yard:'),
];

function read({ plan, ...season }: ComputedSeason): ComputedSeason['readings'] {
  const files = [...plan.readings.values()].map((layout) => ({
    ...readReadings(CSV, layout, new Set(plan.rooms.keys())),
    ...{ readings: layout.id, file: 'store.csv', isMissing: false },
  }));
  const expected = expectedOf({ plan, ...season });
  const records = files.flatMap(({ rooms }) =>
    [...rooms].map(([room, one]) => [room, recordMore(expected.get(room) ?? [], undefined, one)] as const),
  );
  return seenReadings(files, expected, new Map(records));
}

describe('findings of readings while the plan is edited', () => {
  it('are those of the edited plan, with the same readings at hand', () => {
    const cache = emptyPlanCache();
    const again = new SeasonAgain({ byField: true });
    const whole = (text: string) =>
      computeSeason(readPlan([{ path: 'a.lotplan.yaml', text }]), { courses: true, release: 'none' });
    const { courses, ...first } = whole(TEXT);
    const readings = read({ ...first, courses });
    let kinds = 0;
    for (const text of [TEXT, ...EDITS.flatMap((edit) => [edit(TEXT), TEXT])]) {
      const plan = readPlan([{ path: 'a.lotplan.yaml', text }], cache);
      const season = again.compute(plan, { release: undefined, courses, readings });
      const found = again.findings(season, {});
      expect(found).toEqual(findingsOf({ ...whole(text), courses, readings }));
      kinds += found.filter(({ family }) => family === 'readings').length;
    }
    // Of the plan as it is: a gap, low oxygen and a row that cannot be taken.
    expect(
      findingsOf({ ...first, courses, readings }).filter(({ family }) => family === 'readings'),
    ).toHaveLength(3);
    expect(kinds).toBeGreaterThan(3 * EDITS.length);
  });
});
