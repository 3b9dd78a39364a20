import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { parseDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { explainReport, explainText } from '../../src/report/explain-report';
import { findThing } from '../../src/report/find-thing';
import { roomFacts } from '../../src/report/room-card-facts';
import { thingsOf } from '../../src/report/things';
import { explainAt } from '../../src/server/services/explain';
import { present } from '../fruit/plans';
import { sampleFiles } from '../samples/sample';

const season = computeSeason(readPlan(sampleFiles('first-season')), { release: 'none' });
const units = { system: 'metric', currency: 'EUR' } as const;

function told(name: string): string {
  const found = findThing(thingsOf(season), name);
  if (found.kind !== 'figure') throw new Error(`${name} is a figure`);
  return explainText(explainReport(season, [], found), season.plan.files, units);
}

/**
 * Gala of lot G1, picked from Wednesday 2 September on, keeps 60.1 days: to Sunday 1 November, the last of eight whole
 * weeks after the week of picking. The room is packed out over 28 days, four weeks with that of opening, so 2026-W41 is
 * the last to open it in. Its Monday, 5 October, is the 33rd day.
 */
describe('the latest week for opening', () => {
  const text = told('R1.latest').replace(/\s+/g, ' ');

  test('has each rounding from days to whole weeks as a step, with which way it goes', () => {
    expect(text).toContain('Comes to week 2026-W41; its days count from 2026-09-02');
    expect(text).toMatch(
      /= 7 \* \(lastWeek - toEmpty \+ 1\) - weekday\s+= 7 \* \(8 - 4 \+ 1\) - 2\s+= 33 days/,
    );
    expect(text).toContain(
      'lastWeek: weeks that lot G1 keeps, rounded down to a Sunday = floor((weekday + lasts - 6) / 7) = floor((2 + 60.132 - 6) / 7) = 8 weeks',
    );
    expect(text).toContain(
      'toEmpty: weeks of packing, that of opening included, rounded up = max(1, ceil(daysToEmpty / 7)) = max(1, ceil(28 / 7)) = 4 weeks',
    );
    expect(present(parseDay('2026-09-02'), 'a day') + 33).toBe(parseDay('2026-10-05'));
  });

  test('has them on the room card and in the editor too', () => {
    const filled = present(season.filled.get('R1-gala'), 'R1-gala');
    const facts = roomFacts(season, filled, units).flatMap((group) => group.facts);
    expect(facts.find(({ figure }) => figure === 'R1.latest')).toEqual({
      label: 'days from picking to the Monday that lot G1 calls for',
      value: '33 days, 2026-W41',
      figure: 'R1.latest',
    });
    const at = present(season.plan.fills.get('R1-gala'), 'R1-gala').at;
    const hover = present(explainAt(season, { file: at.file, offset: at.start + 1 }), 'an explanation');
    expect(hover.markdown.replace(/\s+/g, ' ')).toContain('floor((weekday + lasts - 6) / 7)');
  });
});
