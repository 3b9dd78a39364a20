import { compute, type Figure, referenceFigure } from '../plan/figure';
import type { BinType } from '../plan/model';
import { saturationPressure } from './air';
import { commonPractice, humidStores, moistAir } from './sources';
import { atmosphere } from './tightness';
import { transpirationCoefficient } from './weight-loss';

/** What humidity a room comes to: the fruit gives water off, the cooler takes it out. */

export const coilDifference = referenceFigure('difference between the air and the coil', 'K', 5, humidStores);
const heatOfAir = referenceFigure('specific heat of air', 'kJ/kgK', 1.005, moistAir);

/** Vapour pressure at the coil, its surface saturated at its own temperature (over water, also below 0 °C). */
export function coilPressure(
  temperature: Figure<'degC'>,
  difference: Figure<'K'> = coilDifference,
): Figure<'Pa'> {
  const coil = compute(
    'temperature of the coil',
    'degC',
    'temperature - difference',
    { temperature, difference },
    (v) => v.temperature - v.difference,
  );
  return saturationPressure(coil);
}

/** Water that a cooler takes out for each pascal, kg/(h Pa), by Lewis: heat and water pass the coil alike. */
function waterPerPascal(cooling: Figure<'kW'>, difference: Figure<'K'>): Figure<'1'> {
  return compute(
    'water the coil takes out for each pascal, kg/h',
    '1',
    '3600 * cooling / (heatOfAir * difference) * 0.622 / atmosphere',
    { cooling, heatOfAir, difference, atmosphere },
    (v) => ((3600 * v.cooling) / (v.heatOfAir * v.difference)) * (0.622 / v.atmosphere),
  );
}

/** Water that the fruit gives off for each pascal, kg/(h Pa). */
function fruitPerPascal(fruit: Figure<'t'>, coefficient: Figure<'1'>): Figure<'1'> {
  return compute(
    'water the fruit gives off for each pascal, kg/h',
    '1',
    'coefficient * fruit * 1000 * 3600 / 10^12',
    { coefficient, fruit },
    (v) => (v.coefficient * v.fruit * 1000 * 3600) / 10 ** 12,
  );
}

/**
 * The relative humidity at which fruit and cooler balance, with nothing else giving or taking water: the fruit gives
 * k m (p_sat - p), the coil takes G (p - p_coil). `cooling` is the sensible heat the cooler takes out of the air; fans
 * that rest while holding, a larger coil (a smaller difference) and humidifiers raise it.
 */
export function humidityOfRoom(
  temperature: Figure<'degC'>,
  fruit: Figure<'t'>,
  cooling: Figure<'kW'>,
  difference: Figure<'K'> = coilDifference,
  coefficient: Figure<'1'> = transpirationCoefficient,
  atFruit?: Figure<'%'>,
): Figure<'%'> {
  const name = 'relative humidity the room comes to';
  const inputs = {
    fruitGives: fruitPerPascal(fruit, coefficient),
    coilTakes: waterPerPascal(cooling, difference),
    saturation: saturationPressure(temperature),
    atCoil: coilPressure(temperature, difference),
  };
  if (atFruit && atFruit.value !== 100)
    return compute(
      name,
      '%',
      '100 * (fruitGives * saturation * atFruit / 100 + coilTakes * atCoil) / (fruitGives + coilTakes) / saturation',
      { ...inputs, atFruit },
      (v) =>
        (100 * ((v.fruitGives * v.saturation * v.atFruit) / 100 + v.coilTakes * v.atCoil)) /
        (v.fruitGives + v.coilTakes) /
        v.saturation,
    );
  return compute(
    name,
    '%',
    '100 * (fruitGives * saturation + coilTakes * atCoil) / (fruitGives + coilTakes) / saturation',
    inputs,
    (v) =>
      (100 * (v.fruitGives * v.saturation + v.coilTakes * v.atCoil)) /
      (v.fruitGives + v.coilTakes) /
      v.saturation,
  );
}

/** Largest difference to the coil at which a relative humidity is still held, however large the cooling. */
export function driestHumidity(
  temperature: Figure<'degC'>,
  difference: Figure<'K'> = coilDifference,
): Figure<'%'> {
  return compute(
    'relative humidity of air that has all passed the coil',
    '%',
    '100 * atCoil / saturation',
    { atCoil: coilPressure(temperature, difference), saturation: saturationPressure(temperature) },
    (v) => (100 * v.atCoil) / v.saturation,
  );
}

const waterOfWoodenBin = referenceFigure(
  'water a dry wooden bin takes up in its first weeks',
  'kg',
  4.5,
  humidStores,
);
const waterOfPlasticBin = referenceFigure(
  'water a plastic bin takes up',
  'kg',
  0,
  commonPractice('Polyethylene takes up no water to speak of'),
);

/** Water that dry bins soak up in their first weeks, out of the air and so out of the fruit. */
export function waterOfBins(bins: Figure<'bins'>, material: NonNullable<BinType['material']>): Figure<'kg'> {
  const waterOfBin = material === 'wood' ? waterOfWoodenBin : waterOfPlasticBin;
  return compute(
    'water the bins soak up',
    'kg',
    'bins * waterOfBin',
    { bins, waterOfBin },
    (v) => v.bins * v.waterOfBin,
  );
}

/** The same as a share of the fruit's mass: at most what the fruit loses by it, less if the bins come in wet. */
export function lossToBins(water: Figure<'kg'>, fruit: Figure<'t'>): Figure<'%'> {
  return compute(
    'weight lost to dry bins',
    '%',
    '100 * water / (fruit * 1000)',
    { water, fruit },
    (v) => (100 * v.water) / (v.fruit * 1000),
  );
}
