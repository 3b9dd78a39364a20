import type { Figure } from '../plan/figure';
import { referenceFigure } from '../plan/figure';
import type { Plan, Room, Scrubber } from '../plan/model';
import { airChangesHolding, airChangesLoading } from './cooling';
import { limeUtilisation } from './lime';
import {
  commonPractice,
  outsideHumiditySource,
  rapidCooling,
  serviceLeakSource,
  transpirationTable,
  weatherSource,
} from './sources';

/**
 * What an engineer assumes of all rooms of a plan: the handbooks' value, or the planner's own from the plan. Limits by
 * law and the levels that ventilation is planned for are published constants and stand elsewhere.
 */
export interface Assumptions {
  readonly servicePressure: Figure<'Pa'>;
  readonly barometerRise: Figure<'Pa'>;
  readonly airChangesLoading: Figure<'1'>;
  readonly airChangesHolding: Figure<'1'>;
  readonly outsideHumidity: Figure<'%'>;
  readonly humidityAtFruit: Figure<'%'>;
  readonly stepDownADay: Figure<'K'>;
  readonly daysToCold: Figure<'days'>;
  readonly limeUtilisation: Figure<'%'>;
}

export const usualAssumptions: Assumptions = {
  servicePressure: referenceFigure('mean pressure difference in service', 'Pa', 10, serviceLeakSource),
  barometerRise: referenceFigure('rise of the barometer in a day', 'Pa', 500, weatherSource),
  airChangesLoading,
  airChangesHolding,
  outsideHumidity: referenceFigure('relative humidity outside', '%', 60, outsideHumiditySource),
  humidityAtFruit: referenceFigure("relative humidity at the fruit's surface", '%', 100, {
    ...transpirationTable,
    citation: `${transpirationTable.citation}; its coefficients are for a surface taken as saturated`,
  }),
  stepDownADay: referenceFigure(
    'step down in temperature a day',
    'K',
    1,
    commonPractice('After a warm hold a room is brought down gradually, about 1 K a day'),
  ),
  daysToCold: referenceFigure('days from the first bin to all fruit cold', 'days', 5, rapidCooling),
  limeUtilisation,
};

/** The planner's own values laid over the usual ones. */
export function assumptionsOf(plan: Pick<Plan, 'season' | 'policy'>): Assumptions {
  const own = plan.policy.assumptions;
  const outsideHumidity = plan.season?.outsideHumidity;
  if (!own && !outsideHumidity) return usualAssumptions;
  const usual = usualAssumptions;
  return {
    servicePressure: own?.servicePressure ?? usual.servicePressure,
    barometerRise: own?.barometerRise ?? usual.barometerRise,
    airChangesLoading: own?.airChangesLoading ?? usual.airChangesLoading,
    airChangesHolding: own?.airChangesHolding ?? usual.airChangesHolding,
    outsideHumidity: outsideHumidity ?? usual.outsideHumidity,
    humidityAtFruit: own?.humidityAtFruit ?? usual.humidityAtFruit,
    stepDownADay: own?.stepDownADay ?? usual.stepDownADay,
    daysToCold: own?.daysToCold ?? usual.daysToCold,
    limeUtilisation: own?.limeUtilisation ?? usual.limeUtilisation,
  };
}

/** The same for one room: lime as its scrubber has it. */
export function assumptionsFor(plan: Pick<Plan, 'season' | 'policy' | 'scrubbers'>, room: Room): Assumptions {
  const all = assumptionsOf(plan);
  const utilisation = room.scrubber && plan.scrubbers.get(room.scrubber.value)?.utilisation;
  return utilisation ? { ...all, limeUtilisation: utilisation } : all;
}

/** Share of a scrubber's lime that gets used: as it says itself, else as the plan does. */
export function utilisationOf(
  plan: Pick<Plan, 'season' | 'policy'>,
  scrubber: Scrubber | undefined,
): Figure<'%'> {
  return scrubber?.utilisation ?? assumptionsOf(plan).limeUtilisation;
}
