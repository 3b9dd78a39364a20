import { compute, type Figure, referenceFigure } from '../plan/figure';
import { carbonDioxideLimit, commonPractice, lowOxygenWork } from './sources';
import { oxygenInAir } from './tightness';

/**
 * Fresh air to plan for before a crew is called. Planning figures only: show `caution` beside them. The readings that
 * count are taken in the room, by a calibrated instrument, by trained people.
 */

export const leastOxygenByLaw = referenceFigure(
  'oxygen below which air is deficient by the rule',
  '%',
  19.5,
  lowOxygenWork,
);
/** One point above the 19.5 % below which the rule calls air oxygen-deficient. */
export const oxygenPlanned = referenceFigure('oxygen ventilation is planned to', '%', 20.5, {
  ...lowOxygenWork,
  citation: `${lowOxygenWork.citation}: below 19.5 % is immediately dangerous; planned one point above it`,
});
export const carbonDioxidePlanned = referenceFigure(
  'carbon dioxide ventilation is planned to',
  '%',
  0.5,
  carbonDioxideLimit,
);
const carbonDioxideOutside = referenceFigure(
  'carbon dioxide in fresh air',
  '%',
  0.04,
  commonPractice('Carbon dioxide in outside air by volume, about 0.04 %'),
);

/** Volumes of fresh air, in volumes of the gas in the room, that raise oxygen to a level at perfect mixing. */
export function freshAirForOxygen(oxygen: Figure<'%'>, level: Figure<'%'> = oxygenPlanned): Figure<'1'> {
  return compute(
    'volumes of fresh air for oxygen',
    '1',
    'max(0, log((oxygenInAir - oxygen) / (oxygenInAir - level)))',
    { oxygenInAir, oxygen, level },
    (v) => Math.max(0, Math.log((v.oxygenInAir - v.oxygen) / (v.oxygenInAir - v.level))),
  );
}

/** Volumes of fresh air that bring carbon dioxide down to a level. */
export function freshAirForCarbonDioxide(
  carbonDioxide: Figure<'%'>,
  level: Figure<'%'> = carbonDioxidePlanned,
): Figure<'1'> {
  return compute(
    'volumes of fresh air for carbon dioxide',
    '1',
    'log(max(carbonDioxide - outside, level - outside) / (level - outside))',
    { carbonDioxide, outside: carbonDioxideOutside, level },
    (v) => Math.log(Math.max(v.carbonDioxide - v.outside, v.level - v.outside) / (v.level - v.outside)),
  );
}

/** Volumes of fresh air for both gases: the larger of the two, since both must pass. */
export function freshAirVolumes(oxygen: Figure<'%'>, carbonDioxide: Figure<'%'>): Figure<'1'> {
  const inputs = {
    forOxygen: freshAirForOxygen(oxygen),
    forCarbonDioxide: freshAirForCarbonDioxide(carbonDioxide),
  };
  return compute('volumes of fresh air to plan for', '1', 'max(forOxygen, forCarbonDioxide)', inputs, (v) =>
    Math.max(v.forOxygen, v.forCarbonDioxide),
  );
}
