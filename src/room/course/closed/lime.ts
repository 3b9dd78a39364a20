import { compute, type Figure } from '../../../plan/figure';
import { finite } from '../../figures';
import { carbonDioxidePerLime, limePerCarbonDioxide, limeUtilisation } from '../../lime';

/** Carbon dioxide that a charge of lime takes up before it has to be changed. */
export function chargeTakesUp(
  charge: Figure<'kg'>,
  utilisation: Figure<'%'> = limeUtilisation,
): Figure<'kg'> {
  return compute(
    'carbon dioxide the charge takes up',
    'kg',
    'charge * carbonDioxidePerLime * utilisation / 100',
    { charge, carbonDioxidePerLime, utilisation },
    (v) => (v.charge * v.carbonDioxidePerLime * v.utilisation) / 100,
  );
}

/** Days for which it lasts at a load. */
export function limeLasts(takesUp: Figure<'kg'>, load: Figure<'kg/day'>): Figure<'days'> | undefined {
  return finite(
    compute(
      'days the charge lasts, by the closed form',
      'days',
      'takesUp / load',
      { takesUp, load },
      (v) => v.takesUp / v.load,
    ),
  );
}

/** Lime that so much carbon dioxide uses up. */
export function limeForAll(scrubbed: Figure<'kg'>, utilisation: Figure<'%'> = limeUtilisation): Figure<'kg'> {
  return compute(
    'lime for all of it',
    'kg',
    'scrubbed * limePerCarbonDioxide / (utilisation / 100)',
    { scrubbed, limePerCarbonDioxide, utilisation },
    (v) => (v.scrubbed * v.limePerCarbonDioxide) / (v.utilisation / 100),
  );
}
