import { describe, expect, test } from 'vitest';
import { comparePlans } from '../../src/compare/compare';
import { keptResult, referenceOf } from '../../src/compare/kept-weeks';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { checkSchedule } from '../../src/release/checker';
import { sampleFiles } from '../samples/sample';
import { fortyEdits, withChanges } from './forty-edits';
import { planted } from './planted';

describe('weeks that are kept', () => {
  test.each(['first-season', 'us-units', 'full-season'])(
    'are those of before where nothing has changed: %s',
    (name) => {
      const { release } = computeSeason(readPlan(sampleFiles(name)));
      if (!release) throw new Error('the sample has a schedule');
      const { problem, result } = release;
      const reference = referenceOf(problem, result);
      const kept = keptResult(problem, problem, reference, false);
      expect(kept.schedule.opens).toEqual(result.schedule.opens);
      expect(kept.schedule.value).toBeCloseTo(result.schedule.value, 4);
      expect(checkSchedule(problem, kept.schedule, kept.unmet ?? [])).toEqual([]);
    },
  );

  test.each(planted)('make a schedule that holds in both plans: $what', ({ changes }) => {
    const files = sampleFiles('first-season');
    const [old, now] = [readPlan(files), readPlan(withChanges(files, changes))];
    const { seasons } = comparePlans(old, now, { seed: 1, courses: false });
    for (const season of [seasons?.old, seasons?.now]) {
      if (!season?.release) continue;
      const { problem, result } = season.release;
      expect(checkSchedule(problem, result.schedule, result.unmet ?? [])).toEqual([]);
    }
  });

  test('make a schedule that holds after forty edits of the full season', () => {
    const files = sampleFiles('full-season');
    const now = readPlan(withChanges(files, fortyEdits));
    const { seasons } = comparePlans(readPlan(files), now, { seed: 1, courses: false });
    expect(seasons?.now.release).toBeDefined();
    for (const season of [seasons?.old, seasons?.now]) {
      const { problem, result } = season?.release ?? {};
      if (problem && result) expect(checkSchedule(problem, result.schedule, result.unmet ?? [])).toEqual([]);
    }
  });
});

describe('what differs comes of the change and not of another search', () => {
  const files = sampleFiles('full-season');
  const old = readPlan(files);
  // Edits of one variety alone, none of which leaves a room without its week.
  const small = fortyEdits.filter(([, from]) =>
    ['GA-001: 86', 'GA-018: 115', 'GD-003: 108', 'cartons: 890', '2027-W04: 1740'].includes(from),
  );

  test.each(small)('%s: %s', (file, from, to) => {
    const now = readPlan(withChanges(files, [[file, from, to]]));
    const { consequences } = comparePlans(old, now, { seed: 1, courses: false }).comparison;
    const varieties = consequences.flatMap(({ about }) => (about.of === 'product' ? [about.variety] : []));
    expect(new Set(varieties).size).toBe(1);
    expect(consequences.filter(({ kind }) => kind === 'opens')).toEqual([]);
  });
});
