import { describe, expect, it } from 'vitest';
import { groupCooling } from '../../src/plant/group-cooling';
import { coolingCourse } from '../../src/room/cooling-course';
import { aFill, aPlan, aRoom, figure, filledRooms, known } from '../room/orchard';

/** Two rooms filled in the same days, each with a cooler that is never short. */
const rooms = ['R1', 'R2'].map((id) => aRoom({ id, coolerCapacity: figure('kW', 500) }));
const fills = rooms.map(({ id }, index) => aFill({ id: `F${index + 1}`, room: id, last: '2026-09-05' }));

function cooledBy(kilowatts: number) {
  const plan = aPlan({ rooms, fills });
  const [group] = plan.refrigerationGroups.values();
  if (!group) throw new Error('no group');
  const filled = [...filledRooms(plan).values()];
  const cooling = groupCooling(plan, { ...group, capacity: figure('kW', kilowatts) }, filled);
  if (!cooling) throw new Error('no cooling');
  return { cooling, plan, filled, group };
}

describe('rooms on one refrigeration group', () => {
  it('are cooled as alone where it has enough', () => {
    const { cooling, plan, filled } = cooledBy(5000);
    expect(cooling.later).toEqual([]);
    for (const room of filled) {
      const alone = coolingCourse(plan, room);
      expect(cooling.courses.get(room.fill.id)?.allCold?.value).toBe(known(alone?.allCold));
    }
  });

  it('share it when they want more, and are cold later, alike', () => {
    const { cooling } = cooledBy(90);
    for (const { taken, wanted } of cooling.days) {
      expect(taken.value).toBeLessThanOrEqual(90 + 1e-9);
      expect(wanted.value).toBeGreaterThanOrEqual(taken.value - 1e-9);
    }
    const [first, second] = cooling.later;
    expect(first?.days).toBeGreaterThan(0.5);
    expect(second?.days).toBeCloseTo(first?.days ?? 0, 9);
  });

  it('are never cold sooner with a smaller plant', () => {
    const colds = [60, 80, 120, 200].map((kw) =>
      [...cooledBy(kw).cooling.courses.values()].map(
        ({ allCold }) => allCold?.value ?? Number.POSITIVE_INFINITY,
      ),
    );
    colds.slice(1).forEach((larger, index) => {
      larger.forEach((days, room) => {
        expect(days).toBeLessThanOrEqual(colds[index]?.[room] ?? 0);
      });
    });
  });

  it('are not counted where the group states no capacity', () => {
    const { plan, group, filled } = cooledBy(100);
    expect(groupCooling(plan, { ...group, capacity: undefined }, filled)).toBeUndefined();
  });
});
