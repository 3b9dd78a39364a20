import { describe, expect, it } from 'vitest';
import { firstDayOfWeek, parseWeek } from '../../src/plan/dates';
import { coolingOn, roomLoads } from '../../src/plant/refrigeration-load';
import { aFill, aPlan, aRoom, day, figure, known, onlyRoom } from '../room/orchard';

const opening = parseWeek('2027-W06') ?? 0;

describe('a room that is opened', () => {
  const work = {
    at: { file: 'a', start: 0, end: 0 },
    lights: figure('kW', 0.6),
    vehicles: figure('1', 1),
    vehicleHeat: figure('kW', 1.2),
    people: undefined,
    hoursADay: figure('h', 8),
  };
  const plan = aPlan({ rooms: [{ ...aRoom(), loading: work }], fills: [aFill({ open: opening })] });
  const room = onlyRoom(plan);

  it('asks for its fruit in air, its door in use, lights and vehicles', () => {
    const [first] = room.intake;
    if (!first) throw new Error('no intake');
    const held = known(room.holdingCooling);
    const emptied = known(room.emptyingCooling);
    // Sealed, its fruit gives off in store what `carbonDioxideInStore` says; in air what it did before.
    const inAir = known(room.carbonDioxideBeforePullDown) - known(room.carbonDioxideInStore);
    const respiration = (inAir * 1e6 * 10.7) / 24 / 3600 / 1000;
    expect(emptied - held).toBeCloseTo(respiration + first.airChangeHeat.value + ((0.6 + 1.2) * 8) / 24, 9);
  });

  it('asks so from the first day of its week until it is empty, in the calendar too', () => {
    const [load] = roomLoads(plan, new Map([[room.fill.id, room]]), undefined, day('2027-06-30'));
    if (!load) throw new Error('no load');
    const monday = firstDayOfWeek(opening);
    expect(coolingOn(load, monday - 1)?.value).toBe(known(room.holdingCooling));
    expect(coolingOn(load, monday)?.value).toBe(known(room.emptyingCooling));
    expect(coolingOn(load, load.lastDay)?.value).toBe(known(room.emptyingCooling));
    expect(coolingOn(load, load.lastDay + 1)).toBeUndefined();
  });
});
