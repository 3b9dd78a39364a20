import { compute, type Figure, referenceFigure } from '../plan/figure';
import { commonPractice, physicalConstants } from './sources';
import { daysInMonth } from './weight-loss';

const massOf = (what: string, gramsPerMole: number) =>
  referenceFigure(`molar mass of ${what}, g/mol`, '1', gramsPerMole, physicalConstants);

/** Ca(OH)2 + CO2 -> CaCO3 + H2O, a mole of each. */
const lime = massOf('lime, Ca(OH)2', 74.093);
const carbonDioxideMass = massOf('carbon dioxide', 44.0095);
const carbonate = massOf('calcium carbonate', 100.087);
const water = massOf('water', 18.015);

export const limeUtilisation = referenceFigure(
  'share of the lime that gets used',
  '%',
  60,
  commonPractice('50 to 70 % of hydrated lime in bags is used before it is changed'),
);

function ratio(name: string, wanted: Figure<'1'>, given: Figure<'1'>): Figure<'1'> {
  return compute(name, '1', 'wanted / given', { wanted, given }, (v) => v.wanted / v.given);
}

/** Kilograms of carbon dioxide that a kilogram of pure lime takes up. */
export const carbonDioxidePerLime = ratio('carbon dioxide for each kg of lime', carbonDioxideMass, lime);
/** Kilograms of pure lime for a kilogram of carbon dioxide. */
export const limePerCarbonDioxide = ratio('lime for each kg of carbon dioxide', lime, carbonDioxideMass);
export const carbonatePerLime = ratio('calcium carbonate from each kg of lime', carbonate, lime);
export const waterPerLime = ratio('water from each kg of lime', water, lime);

/** Lime that a room's carbon dioxide uses up in a period. */
export function limeFor(
  carbonDioxide: Figure<'kg/day'>,
  period: Figure<'days'> = daysInMonth,
  utilisation: Figure<'%'> = limeUtilisation,
): Figure<'kg'> {
  return compute(
    'lime used up',
    'kg',
    'carbonDioxide * period * limePerCarbonDioxide / (utilisation / 100)',
    { carbonDioxide, period, limePerCarbonDioxide, utilisation },
    (v) => (v.carbonDioxide * v.period * v.limePerCarbonDioxide) / (v.utilisation / 100),
  );
}

/** Carbon dioxide in a day that a charge of lime takes up over a period. */
export function carbonDioxideTakenUp(
  limeCharge: Figure<'kg'>,
  period: Figure<'days'>,
  utilisation: Figure<'%'> = limeUtilisation,
): Figure<'kg/day'> {
  return compute(
    'carbon dioxide the lime takes up',
    'kg/day',
    'limeCharge * carbonDioxidePerLime * utilisation / 100 / period',
    { limeCharge, carbonDioxidePerLime, utilisation, period },
    (v) => (v.limeCharge * v.carbonDioxidePerLime * v.utilisation) / 100 / v.period,
  );
}
