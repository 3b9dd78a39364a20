import { compute, type Figure, referenceFigure } from '../plan/figure';
import { saturationPressure } from './air';
import { physicalConstants, transpirationTable } from './sources';

/** Nanograms of water for each kilogram of fruit, second and pascal. */
export const transpirationCoefficient = referenceFigure(
  'transpiration coefficient of apples, ng/(kg s Pa)',
  '1',
  42,
  transpirationTable,
);
const dryMatterPerCarbonDioxide = referenceFigure(
  'dry matter used for each kilogram of carbon dioxide, kg',
  '1',
  0.682,
  {
    ...physicalConstants,
    citation: 'Molar masses of glucose and carbon dioxide (IUPAC): 180.16 / (6 * 44.01)',
  },
);
export const daysInMonth = referenceFigure('days in a month', 'days', 365.2425 / 12, {
  citation: 'Mean Gregorian year of 365.2425 days over 12',
  known: 'published',
});

/**
 * How far the air is from that at the fruit's surface, which has the air's temperature and is taken as saturated
 * unless the plan says otherwise; none where the air is the moister.
 */
export function vapourPressureDeficit(
  temperature: Figure<'degC'>,
  humidity: Figure<'%'>,
  atFruit?: Figure<'%'>,
): Figure<'Pa'> {
  const name = 'vapour pressure deficit';
  const inputs = { saturation: saturationPressure(temperature), humidity };
  if (!atFruit || atFruit.value === 100)
    return compute(
      name,
      'Pa',
      'saturation * (1 - humidity / 100)',
      inputs,
      (v) => v.saturation * (1 - v.humidity / 100),
    );
  return compute(
    name,
    'Pa',
    'saturation * max(0, atFruit - humidity) / 100',
    { ...inputs, atFruit },
    (v) => (v.saturation * Math.max(0, v.atFruit - v.humidity)) / 100,
  );
}

/** Water lost over a period, per cent of the fruit's mass. */
export function waterLoss(
  deficit: Figure<'Pa'>,
  period: Figure<'days'>,
  coefficient: Figure<'1'> = transpirationCoefficient,
): Figure<'%'> {
  return compute(
    'water loss',
    '%',
    'coefficient * deficit * period * 86400 / 10^12 * 100',
    { coefficient, deficit, period },
    (v) => ((v.coefficient * v.deficit * v.period * 86_400) / 10 ** 12) * 100,
  );
}

/** Dry matter used up by respiration over a period, per cent of the fruit's mass. */
export function dryMatterLoss(rate: Figure<'mg/kg/h'>, period: Figure<'days'>): Figure<'%'> {
  return compute(
    'dry matter loss',
    '%',
    'rate * dryMatter * period * 24 / 10^6 * 100',
    { rate, dryMatter: dryMatterPerCarbonDioxide, period },
    (v) => ((v.rate * v.dryMatter * v.period * 24) / 10 ** 6) * 100,
  );
}

/**
 * Mass lost over a period in store: water and dry matter. `fermented` is the part of the carbon dioxide's `meanRate`
 * that fermentation makes: the fruit loses its carbon dioxide, and keeps the ethanol.
 */
export function weightLoss(
  temperature: Figure<'degC'>,
  humidity: Figure<'%'>,
  meanRate: Figure<'mg/kg/h'>,
  period: Figure<'days'>,
  fermented?: Figure<'mg/kg/h'>,
  coefficient: Figure<'1'> = transpirationCoefficient,
  atFruit?: Figure<'%'>,
): Figure<'%'> {
  const water = waterLoss(vapourPressureDeficit(temperature, humidity, atFruit), period, coefficient);
  if (fermented) {
    const respired = compute(
      'mean carbon dioxide of respiration in store',
      'mg/kg/h',
      'all - fermented',
      { all: meanRate, fermented },
      (v) => v.all - v.fermented,
    );
    return compute(
      'weight loss',
      '%',
      'water + dryMatter + fermented * period * 24 / 10^6 * 100',
      { water, dryMatter: dryMatterLoss(respired, period), fermented, period },
      (v) => v.water + v.dryMatter + ((v.fermented * v.period * 24) / 10 ** 6) * 100,
    );
  }
  const inputs = { water, dryMatter: dryMatterLoss(meanRate, period) };
  return compute('weight loss', '%', 'water + dryMatter', inputs, (v) => v.water + v.dryMatter);
}
