import { carbonDioxideDensity } from '../fruit/conversions';
import { compute, type Figure, referenceFigure, type Source } from '../plan/figure';
import type { MembraneSelectivity, Scrubber } from '../plan/model';
import type { MembraneShares } from '../room/course/types';
import { finite } from '../room/figures';
import { commonPractice } from '../room/sources';
import { oxygenInAir } from '../room/tightness';

/**
 * A membrane between the room's gas and outside air that is blown past it. Each gas passes in proportion to the
 * difference of its partial pressure, by solution and diffusion: flow = permeance * area * difference. What a maker
 * rates is the carbon dioxide; oxygen and nitrogen follow by the ideal selectivity, the ratio of two permeances.
 */

const solutionDiffusion: Source = {
  citation:
    'Solution-diffusion of gases through dense membranes: flux in proportion to the difference of partial pressure (general texts on membrane separation); ideal selectivity as the ratio of permeances: Jansen 2016, https://iris.cnr.it/handle/20.500.14243/371039',
  known: 'from memory',
};

export const carbonDioxideOutside = referenceFigure(
  'carbon dioxide in outside air',
  '%',
  0.04,
  commonPractice('About 400 ppm by volume'),
);
const nitrogenOutside = referenceFigure(
  'nitrogen in outside air, argon with it',
  '%',
  79.06,
  commonPractice('What oxygen (20.9 %) and carbon dioxide (0.04 %) leave'),
);

/** Undefined for what is no membrane, and where the plan does not give its selectivity. */
export function selectivityOf({ kind, selectivity }: Scrubber): MembraneSelectivity | undefined {
  return kind === 'membrane' ? selectivity : undefined;
}

/** What it lets through of oxygen and nitrogen for each of carbon dioxide, at the same difference. */
export function membraneShares(scrubber: Scrubber): MembraneShares | undefined {
  const selectivity = selectivityOf(scrubber);
  if (!selectivity) return undefined;
  return { oxygen: 1 / selectivity.overOxygen.value, nitrogen: 1 / selectivity.overNitrogen.value };
}

/** Oxygen and nitrogen that a membrane lets into a room while it holds its carbon dioxide; less than nothing: out. */
export interface ThroughMembrane {
  readonly oxygen: Figure<'m3/h'>;
  readonly nitrogen: Figure<'m3/h'>;
}

/** `made`: what it takes out, all that the fruit gives off. */
export function throughMembrane(
  scrubber: Scrubber,
  made: Figure<'kg/day'>,
  levels: { readonly oxygen: Figure<'%'>; readonly carbonDioxide: Figure<'%'> },
  temperature: Figure<'degC'>,
): ThroughMembrane | undefined {
  const selectivity = selectivityOf(scrubber);
  if (!selectivity) return undefined;
  const forEach = compute(
    'carbon dioxide that passes the membrane for each per cent of difference',
    'm3/h',
    'made / 24 / density / (carbonDioxide - outside)',
    {
      made,
      density: carbonDioxideDensity(temperature),
      carbonDioxide: levels.carbonDioxide,
      outside: carbonDioxideOutside,
    },
    (v) => v.made / 24 / v.density / (v.carbonDioxide - v.outside),
    solutionDiffusion,
  );
  if (!finite(forEach) || forEach.value < 0) return undefined;
  return {
    oxygen: compute(
      'oxygen that the membrane lets in',
      'm3/h',
      'forEach / overOxygen * (oxygenInAir - oxygen)',
      { forEach, overOxygen: selectivity.overOxygen, oxygenInAir, oxygen: levels.oxygen },
      (v) => (v.forEach / v.overOxygen) * (v.oxygenInAir - v.oxygen),
    ),
    nitrogen: compute(
      'nitrogen that the membrane lets in',
      'm3/h',
      'forEach / overNitrogen * (nitrogenOutside - (100 - oxygen - carbonDioxide))',
      {
        forEach,
        overNitrogen: selectivity.overNitrogen,
        nitrogenOutside,
        oxygen: levels.oxygen,
        carbonDioxide: levels.carbonDioxide,
      },
      (v) => (v.forEach / v.overNitrogen) * (v.nitrogenOutside - (100 - v.oxygen - v.carbonDioxide)),
    ),
  };
}
