import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { formatDay, parseDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { explainReport, explainText } from '../../src/report/explain-report';
import { findThing } from '../../src/report/find-thing';
import { thingsOf } from '../../src/report/things';
import { present } from '../fruit/plans';
import { sampleFiles } from '../samples/sample';

const season = computeSeason(readPlan(sampleFiles('first-season')), { release: 'none' });

function told(name: string): string {
  const found = findThing(thingsOf(season), name);
  if (found.kind !== 'figure') throw new Error(`${name} is a figure`);
  const units = { system: 'metric', currency: 'EUR' } as const;
  return explainText(explainReport(season, [], found), season.plan.files, units).replace(/\s+/g, ' ');
}

/** The day that so many days after another is. */
function dayAfter(day: string, days: number): string {
  return formatDay(present(parseDay(day), 'a day') + days);
}

describe('the earliest week for opening', () => {
  test('of a sealed room is rounded up to a Monday in a step of its own', () => {
    // R2 is sealed on Friday 18 September; three days later is Monday the 21st, on which a week begins.
    const text = told('R2.earliest');
    expect(text).toContain('Comes to week 2026-W39; its days count from 2026-09-18 (sealed).');
    expect(text).toContain('= 7 * weeks - weekday = 7 * 1 - 4 = 3 days');
    expect(text).toContain(
      'weeks: weeks until a week begins with that done, rounded up to a Monday = ceil((weekday + days) / 7) = ceil((4 + 3) / 7) = 1 weeks',
    );
    expect(dayAfter('2026-09-18', 3)).toBe('2026-09-21');
  });

  test('of a room in air counts from its last bin', () => {
    // The last bin comes on Thursday 10 September.
    const text = told('R1.earliest');
    expect(text).toContain('Comes to week 2026-W38; its days count from 2026-09-10 (last bin in).');
    expect(text).toContain('= 7 * weeks - weekday = 7 * 1 - 3 = 4 days');
    expect(dayAfter('2026-09-10', 4)).toBe('2026-09-14');
  });
});
