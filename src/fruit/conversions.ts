import { compute, type Figure, referenceFigure } from '../plan/figure';
import { commonPractice, sources } from './sources';

/** Gas constant, J/(mol K). */
const GAS_CONSTANT = 8.314462618;
/** Molar mass of carbon dioxide, g/mol. */
const CARBON_DIOXIDE = 44.0095;
/** Standard pressure, Pa. */
const ATMOSPHERE = 101_325;
const ZERO_CELSIUS = 273.15;

const perVolume = referenceFigure(
  'CO2 at 101.325 kPa times absolute temperature, mg K/mL',
  '1',
  ((CARBON_DIOXIDE * ATMOSPHERE) / GAS_CONSTANT / 1e6) * 1e3,
  sources.gasLaw,
);

/** Mass of a millilitre of carbon dioxide at a temperature and 101.325 kPa, as an ideal gas. */
export function carbonDioxideDensity(temperature: Figure<'degC'>): Figure<'mg/mL'> {
  return compute(
    'mass of carbon dioxide',
    'mg/mL',
    'perVolume / (temperature + 273.15)',
    { perVolume, temperature },
    (v) => v.perVolume / (v.temperature + ZERO_CELSIUS),
  );
}

/** kcal per tonne and day from mg CO2/kg/h: the factor 61 of USDA Agriculture Handbook 66. */
export function kilocaloriesPerTonneDay(milligramsPerKgHour: number): number {
  return milligramsPerKgHour * 61;
}

/** BTU per short ton and day from mg CO2/kg/h: the factor 220 of USDA Agriculture Handbook 66. */
export function btuPerShortTonDay(milligramsPerKgHour: number): number {
  return milligramsPerKgHour * 220;
}

/** kcal per tonne and day from mL CO2/kg/h: the factor 122 of the UC Davis produce facts. */
export function kilocaloriesFromMillilitres(millilitresPerKgHour: number): number {
  return millilitresPerKgHour * 122;
}

/** BTU per short ton and day from mL CO2/kg/h: the factor 440 of the UC Davis produce facts. */
export function btuFromMillilitres(millilitresPerKgHour: number): number {
  return millilitresPerKgHour * 440;
}

/** How many times faster at 10 K warmer, from two rates (any one unit) at two temperatures, °C. */
export function q10(rateCold: number, rateWarm: number, cold: number, warm: number): number {
  return (rateWarm / rateCold) ** (10 / (warm - cold));
}

/** The same from an activation energy, kJ/mol, between two temperatures, °C. */
export function q10FromActivationEnergy(energy: number, cold: number, warm: number): number {
  const inverse = 1 / (cold + ZERO_CELSIUS) - 1 / (warm + ZERO_CELSIUS);
  return q10(1, Math.exp(((energy * 1000) / GAS_CONSTANT) * inverse), cold, warm);
}

/** Apparent activation energy, kJ/mol, from two rates at two temperatures, °C. */
export function activationEnergy(rateCold: number, rateWarm: number, cold: number, warm: number): number {
  const inverse = 1 / (cold + ZERO_CELSIUS) - 1 / (warm + ZERO_CELSIUS);
  return (Math.log(rateWarm / rateCold) * GAS_CONSTANT) / inverse / 1000;
}

/**
 * Respiration of apples in air by the correlation of Becker and Fricke, mg CO2/kg/h, from °C. It lies near the rates
 * of summer varieties: for late ones it is about half too high at 0 °C, so no plan figure rests on it.
 */
export function beckerFrickeRate(temperature: number): number {
  return 5.6871e-4 * (1.8 * temperature + 32) ** 2.5977;
}

/** Michaelis constant of respiration, kPa oxygen, that a pull-down is reckoned with. */
export const michaelisConstant = referenceFigure(
  'oxygen at half the greatest respiration',
  '%',
  5,
  commonPractice(
    "At 2 % oxygen it gives 0.35 of the respiration in air, as the cut of 60 to 70 % measured by Bohling and Hansen 1983; constants of apples run about 1 to 5 kPa (Peppelenbos and van 't Leven 1996, Hertog and others 1998, from memory)",
  ),
);

/**
 * Respiration at an oxygen level as a share of that in air, by Michaelis and Menten; the effect of carbon dioxide left
 * out. For the days of the pull-down only: in store the measured share is used (`respirationInStore`).
 */
export function respirationAtOxygen(
  oxygen: Figure<'%'>,
  halfAt: Figure<'%'> = michaelisConstant,
): Figure<'1'> {
  return compute(
    'respiration as a share of that in air',
    '1',
    '(halfAt + 20.9) / 20.9 * oxygen / (halfAt + oxygen)',
    { oxygen, halfAt },
    (v) => (((v.halfAt + 20.9) / 20.9) * v.oxygen) / (v.halfAt + v.oxygen),
  );
}
