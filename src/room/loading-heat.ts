import { compute, type Figure, referenceFigure } from '../plan/figure';
import type { Loading, Plan, Room } from '../plan/model';
import { fanHeat, fanHeatOfMotors } from './cooling';
import { commonPractice, handbook66HeatLoad } from './sources';

/**
 * Heat of what works in a room while it is filled: lights, vehicles and people, each the mean over a day. A room that
 * only holds its fruit has none of it. What neither the room nor the plan states is counted as none.
 */

/** 36,920 kJ in 8 h. */
export const heatOfVehicle = referenceFigure(
  'heat of an electric forklift at work',
  'kW',
  36_920 / 8 / 3600,
  {
    ...handbook66HeatLoad,
    citation: `${handbook66HeatLoad.citation} (36,920 kJ each in 8 h)`,
  },
);
/** 1,000 kJ an hour. */
export const heatOfPerson = referenceFigure('heat of a person at work', 'kW', 1000 / 3600, {
  ...handbook66HeatLoad,
  citation: `${handbook66HeatLoad.citation} (1,000 kJ an hour each)`,
});
const shift = referenceFigure('hours a day in which a room is filled', 'h', 8, {
  ...handbook66HeatLoad,
  citation: `${handbook66HeatLoad.citation} (vehicles counted for 8 h)`,
});
const notCounted = commonPractice('Lights, vehicles and people are counted where the plan states them');
const noLights = referenceFigure('lights while the room is filled', 'kW', 0, notCounted);
const noVehicles = referenceFigure('vehicles at work in the room', '1', 0, notCounted);
const noPeople = referenceFigure('people at work in the room', '1', 0, notCounted);

/** Heat of lights, vehicles and people on a day of filling. */
export interface LoadingHeat {
  readonly lights: Figure<'kW'>;
  readonly vehicles: Figure<'kW'>;
  readonly people: Figure<'kW'>;
}

/** Each key as the room states it, else as the policy does for all rooms, else the reference value. */
export function loadingHeat(plan: Plan, room: Room): LoadingHeat {
  const of = <K extends keyof Loading>(key: K) => room.loading?.[key] ?? plan.policy.loading?.[key];
  const hoursADay = of('hoursADay') ?? shift;
  return {
    lights: lightHeat(of('lights') ?? noLights, hoursADay),
    vehicles: vehicleHeat(of('vehicles') ?? noVehicles, of('vehicleHeat') ?? heatOfVehicle, hoursADay),
    people: peopleHeat(of('people') ?? noPeople, hoursADay),
  };
}

/** Lights give off all the power they take. */
export function lightHeat(lights: Figure<'kW'>, hoursADay: Figure<'h'>): Figure<'kW'> {
  return compute(
    'heat of lights',
    'kW',
    'lights * hoursADay / 24',
    { lights, hoursADay },
    (v) => (v.lights * v.hoursADay) / 24,
  );
}

export function vehicleHeat(
  vehicles: Figure<'1'>,
  heatOfEach: Figure<'kW'>,
  hoursADay: Figure<'h'>,
): Figure<'kW'> {
  return compute(
    'heat of vehicles',
    'kW',
    'vehicles * heatOfEach * hoursADay / 24',
    { vehicles, heatOfEach, hoursADay },
    (v) => (v.vehicles * v.heatOfEach * v.hoursADay) / 24,
  );
}

export function peopleHeat(people: Figure<'1'>, hoursADay: Figure<'h'>): Figure<'kW'> {
  return compute(
    'heat of people',
    'kW',
    'people * heatOfEach * hoursADay / 24',
    { people, heatOfEach: heatOfPerson, hoursADay },
    (v) => (v.people * v.heatOfEach * v.hoursADay) / 24,
  );
}

const allFans = referenceFigure(
  'share of the fans that runs when holding',
  '%',
  100,
  commonPractice('Fans are counted at full circulation all season unless the plan says so'),
);

/** Heat, and power, of the fans once the fruit is cold. */
export function fanHeatHolding(fans: Figure<'kW'>, share: Figure<'%'> = allFans): Figure<'kW'> {
  return compute(
    'heat of the fans when holding',
    'kW',
    'fans * share / 100',
    { fans, share },
    (v) => (v.fans * v.share) / 100,
  );
}

/** Fans as their power is stated, else by their motors' rating, else by the room's volume. */
export function fanHeatIn({ fanPower, fanMotors }: Room, volume: Figure<'m3'>): Figure<'kW'> {
  if (fanPower) return compute('heat of the fans', 'kW', 'fanPower', { fanPower }, (v) => v.fanPower);
  return fanMotors ? fanHeatOfMotors(fanMotors) : fanHeat(volume);
}
