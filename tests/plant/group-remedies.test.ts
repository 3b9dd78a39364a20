import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import type { Plan } from '../../src/plan/model';
import { readPlan } from '../../src/plan/read';
import { groupRemedies } from '../../src/plant/group-remedies';
import { sampleFiles } from '../samples/sample';

const GROUP = 'plant-main';
/** Of what its rooms ask on their worst day: a little too small. */
const LITTLE_SHORT = 0.95;

function seasonWith(change: (plan: Plan) => Plan) {
  return computeSeason(change(readPlan(sampleFiles('full-season'))), { release: 'none' });
}

function withCapacity(plan: Plan, kilowatts: number): Plan {
  const groups = [...plan.refrigerationGroups].map(([id, group]) => {
    const capacity = group.capacity && { ...group.capacity, value: kilowatts };
    return [id, id === GROUP ? { ...group, capacity } : group] as const;
  });
  return { ...plan, refrigerationGroups: new Map(groups) };
}

/** Weeks of the season in which the group is asked for more than it gives. */
function weeksOver(change: (plan: Plan) => Plan): number {
  const load = seasonWith(change).plant?.refrigeration.find(({ group }) => group.id === GROUP);
  return (load?.weeks ?? []).filter(({ share }) => (share?.value ?? 0) > 100).length;
}

describe('what helps a refrigeration group that is a little too small', () => {
  const weeks = seasonWith((plan) => plan).plant?.refrigeration.find(
    ({ group }) => group.id === GROUP,
  )?.weeks;
  const short = LITTLE_SHORT * Math.max(...(weeks ?? []).map(({ load }) => load.value));
  const { plan, fruit, plant } = seasonWith((one) => withCapacity(one, short));
  const load = plant?.refrigeration.find(({ group }) => group.id === GROUP);
  const remedies =
    load && groupRemedies({ plan, fruit, group: load.group, rooms: load.rooms, opens: undefined });

  it('is the least capacity, which carries the season as the plant is reckoned', () => {
    const enough = remedies?.capacityKw ?? 0;
    expect(weeksOver((one) => withCapacity(one, short))).toBeGreaterThan(0);
    expect(weeksOver((one) => withCapacity(one, enough))).toBe(0);
    expect(weeksOver((one) => withCapacity(one, enough - 1))).toBeGreaterThan(0);
  });

  it('is a room filled and sealed later, with which the season is carried', () => {
    const { fill, days } = remedies?.later ?? { fill: '', days: 0 };
    const later = (by: number) => (one: Plan) => {
      const tight = withCapacity(one, short);
      const fills = [...tight.fills].map(([id, known]) => {
        if (id !== fill) return [id, known] as const;
        const { firstBin, lastBin, sealed } = known;
        const moved = {
          ...known,
          firstBin: firstBin && { ...firstBin, value: firstBin.value + by },
          lastBin: lastBin && { ...lastBin, value: lastBin.value + by },
          sealed: sealed && { ...sealed, value: sealed.value + by },
        };
        return [id, moved] as const;
      });
      return { ...tight, fills: new Map(fills) };
    };
    expect(days).toBeGreaterThan(0);
    expect(weeksOver(later(days))).toBe(0);
    expect(weeksOver(later(days - 1))).toBeGreaterThan(0);
  });
});
