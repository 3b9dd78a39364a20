import type { Day } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import type { Plan } from '../plan/model';
import { formulaKeys, type Keyed, sumOf } from '../room/figures';
import type { PlantPeriod } from './period';
import { keptCold, type RoomLoad } from './refrigeration-load';

/** What a day of the calendar takes power for. */
type DayOfUse = Pick<PlantPeriod, 'from' | 'refrigeration' | 'nitrogen' | 'scrubbing'>;

const hours = countedFigure('hours', 'h', 24, 'a day');

/**
 * Kilowatt-hours of a day, and what they cost where the plan has a price: refrigeration for the cooling it gives, the
 * rooms' own fans and lights, nitrogen and scrubbers for the hours they run where their power is stated. Vehicles are
 * charged elsewhere. Fans and lights are counted once as power; that their heat is carried off is in the refrigeration.
 */
export function daysPower(
  plan: Plan,
  loads: readonly RoomLoad[],
): (day: DayOfUse) => Pick<PlantPeriod, 'power' | 'cost'> {
  const inRooms = roomsPower(loads);
  const price = plan.season?.powerPrice;
  return (day) => {
    const power = sumOf('power of the plant, kWh', '1', [
      ...refrigerationPower(plan, day),
      ...inRooms(day.from),
      ...nitrogenPower(plan, day),
      ...scrubberPower(plan, day),
    ]);
    if (!price) return { power };
    const cost = compute(
      'cost of power',
      'money',
      'power * price',
      { power, price },
      (v) => v.power * v.price,
    );
    return { power, cost };
  };
}

function refrigerationPower(plan: Plan, { refrigeration }: DayOfUse): Keyed<'1'>[] {
  const keys = formulaKeys(
    'refrigeration',
    refrigeration.map(({ id }) => id),
  );
  return refrigeration.flatMap(({ id, use, taken }, index) => {
    const performance = plan.refrigerationGroups.get(id)?.performance;
    if (!performance || use.value === 0) return [];
    const figure = compute(
      `power of ${id}, kWh`,
      '1',
      'cooling * hours / performance',
      { cooling: taken ?? use, hours, performance },
      (v) => (v.cooling * v.hours) / v.performance,
    );
    return [[keys[index] ?? '', figure] as const];
  });
}

function nitrogenPower(plan: Plan, { nitrogen }: DayOfUse): Keyed<'1'>[] {
  const keys = formulaKeys(
    'nitrogen',
    nitrogen.map(({ id }) => id),
  );
  return nitrogen.flatMap(({ id, use }, index) => {
    const power = plan.nitrogenSources.get(id)?.power;
    return power && use.value > 0 ? [[keys[index] ?? '', powerOfRun(id, power, use)] as const] : [];
  });
}

/** A scrubber runs as long as its rooms need it, and no longer than it may. */
function scrubberPower(plan: Plan, { scrubbing }: DayOfUse): Keyed<'1'>[] {
  const keys = formulaKeys(
    'scrubber',
    scrubbing.map(({ id }) => id),
  );
  return scrubbing.flatMap(({ id, use }, index) => {
    const scrubber = plan.scrubbers.get(id);
    if (!scrubber?.power || use.value === 0) return [];
    const runs = compute(
      `hours ${id} runs`,
      'h',
      'hoursADay * min(100, needed) / 100',
      { hoursADay: scrubber.hoursADay, needed: use },
      (v) => (v.hoursADay * Math.min(100, v.needed)) / 100,
    );
    return [[keys[index] ?? '', powerOfRun(id, scrubber.power, runs)] as const];
  });
}

function powerOfRun(id: string, power: Figure<'kW'>, runs: Figure<'h'>): Figure<'1'> {
  return compute(`power of ${id}, kWh`, '1', 'power * runs', { power, runs }, (v) => v.power * v.runs);
}

/** Fans of all rooms that are kept cold, lights of those being filled; the same figure for days of the same rooms. */
function roomsPower(loads: readonly RoomLoad[]): (day: Day) => Keyed<'1'>[] {
  const known = new Map<string, Keyed<'1'>[]>();
  return (day) => {
    const cold = loads.filter((load) => keptCold(load, day));
    const filling = cold.filter(({ room }) => day <= (room.intake.at(-1)?.day ?? 0));
    const cooling = cold.filter(({ marched }) => day <= (marched.last ?? 0));
    const key = [...cold, undefined, ...filling, undefined, ...cooling]
      .map((load) => load?.room.fill.id)
      .join('\n');
    const found = known.get(key) ?? powerInRooms(cold, filling, cooling);
    known.set(key, found);
    return found;
  };
}

/** Fans run in full until the fruit has settled. */
function powerInRooms(
  cold: readonly RoomLoad[],
  filling: readonly RoomLoad[],
  cooling: readonly RoomLoad[],
): Keyed<'1'>[] {
  const sum = (
    name: string,
    loads: readonly RoomLoad[],
    of: (load: RoomLoad) => Figure<'kW'> | undefined,
  ) => {
    const parts = loads.flatMap((load) => {
      const { room } = load;
      const heat = of(load);
      return heat && heat.value > 0 ? [{ id: room.fill.id, heat }] : [];
    });
    const keys = formulaKeys(
      'fill',
      parts.map(({ id }) => id),
    );
    return sumOf(
      name,
      'kW',
      parts.map(({ heat }, index) => [keys[index] ?? '', heat] as const),
    );
  };
  const fans = sum('fans of the rooms', cold, (load) =>
    cooling.includes(load) ? load.room.intake[0]?.fanHeat : load.room.fanHeatHolding,
  );
  const lights = sum('lights of rooms being filled', filling, ({ room }) => room.intake[0]?.lightHeat);
  if (fans.value + lights.value === 0) return [];
  const power = compute(
    'power of fans and lights, kWh',
    '1',
    '(fans + lights) * hours',
    { fans, lights, hours },
    (v) => (v.fans + v.lights) * v.hours,
  );
  return [['rooms', power]];
}
