import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { parseDay } from '../../src/plan/dates';
import { layoutEdits } from '../../src/plan/layout/lay-out';
import { readPlan } from '../../src/plan/read';
import { newPlanText } from '../../src/report/new-plan';

const harvest = parseDay('2027-08-30') ?? 0;

describe('a new plan', () => {
  it.each(['metric', 'us'] as const)('in %s units reads without an error and gives a schedule', (units) => {
    const text = newPlanText({ name: 'North: "old" house, 2027', units, harvest });
    const plan = readPlan([{ path: 'new.lotplan.yaml', text }]);
    expect(plan.problems).toEqual([]);
    expect(plan.season?.name?.value).toBe('North: "old" house, 2027');
    const season = computeSeason(plan);
    const found = findingsOf(season).filter(({ severity }) => severity !== 'notice');
    expect(found.map(({ code, message }) => `${code}: ${message}`)).toEqual([]);
    expect(season.keeping.get('R1-gala')?.window).toBeDefined();
    expect(season.release?.result.schedule.opens[0]).not.toBeNull();
    expect(layoutEdits(text)).toEqual([]);
  });

  it('keeps a name on its line, whatever is typed', () => {
    const text = newPlanText({ name: ' two\nlines: [x] ', units: 'metric', harvest });
    expect(readPlan([{ path: 'a', text }]).problems).toEqual([]);
  });
});
