import { compute, type Figure, referenceFigure } from '../plan/figure';
import type { TightnessTest } from '../plan/model';
import { finite } from './figures';
import { commonPractice, physicalConstants } from './sources';

export const atmosphere = referenceFigure('standard atmosphere', 'Pa', 101_325, physicalConstants);
export const oxygenInAir = referenceFigure(
  'oxygen in air',
  '%',
  20.9,
  commonPractice('Oxygen in dry air by volume, the value instruments are set to (20.93 to 20.95 % measured)'),
);

/** The time in which the test pressure halves, P(t) = P0 * 2^(-t / half-life); undefined where it did not fall. */
export function pressureHalfLife(test: TightnessTest): Figure<'min'> | undefined {
  if (!(test.from.value > test.to.value && test.to.value > 0 && test.after.value > 0)) return undefined;
  return compute(
    'half-life of the test pressure',
    'min',
    'time * log(2) / log(pressureAtStart / pressureAtEnd)',
    { time: test.after, pressureAtStart: test.from, pressureAtEnd: test.to },
    (v) => (v.time * Math.log(2)) / Math.log(v.pressureAtStart / v.pressureAtEnd),
  );
}

/** Leak at a pressure difference: Q = (V / Patm) * P * ln 2 / half-life, cubic metres an hour. */
export function leakFlow(
  volume: Figure<'m3'>,
  pressure: Figure<'Pa'>,
  halfLife: Figure<'min'>,
): Figure<'m3/h'> | undefined {
  return finite(
    compute(
      'leak at the test pressure',
      'm3/h',
      'volume / atmosphere * pressure * log(2) / (halfLife / 60)',
      { volume, atmosphere, pressure, halfLife },
      (v) => ((v.volume / v.atmosphere) * v.pressure * Math.log(2)) / (v.halfLife / 60),
    ),
  );
}

/** Gas that a rise of the barometer presses in, as a share of the gas volume. */
export function weatherShare(rise: Figure<'Pa'>): Figure<'%'> {
  return compute(
    'gas that the weather presses in',
    '%',
    '100 * rise / atmosphere',
    { rise, atmosphere },
    (v) => (100 * v.rise) / v.atmosphere,
  );
}

/** Gas that a fall of the room's temperature draws in, as a share of the gas volume; temperature before the fall. */
export function temperatureShare(fall: Figure<'K'>, temperature: Figure<'degC'>): Figure<'%'> {
  return compute(
    'gas that a fall in temperature draws in',
    '%',
    '100 * fall / (temperature + 273.15)',
    { fall, temperature },
    (v) => (100 * v.fall) / (v.temperature + 273.15),
  );
}

/** Points of oxygen by which air drawn in raises the room's level. */
export function oxygenRise(share: Figure<'%'>, oxygen: Figure<'%'>): Figure<'%'> {
  return compute(
    'rise in oxygen, points',
    '%',
    'share / 100 * (oxygenInAir - oxygen)',
    { share, oxygenInAir, oxygen },
    (v) => (v.share / 100) * (v.oxygenInAir - v.oxygen),
  );
}

/** Air that leaks through a room in service, from the leak in its test: the flow goes with the pressure. */
export function leakInService(
  leakAtTest: Figure<'m3/h'>,
  testPressure: Figure<'Pa'>,
  servicePressure: Figure<'Pa'>,
): Figure<'m3/h'> {
  return compute(
    'leak in service',
    'm3/h',
    'leakAtTest * servicePressure / testPressure',
    { leakAtTest, servicePressure, testPressure },
    (v) => (v.leakAtTest * v.servicePressure) / v.testPressure,
  );
}

/**
 * Air that rises of the barometer press in on a mean day; falls let as much gas out. A breather bag gives back what it
 * took up, and only what is beyond it comes from outside.
 */
export function weatherFlow(
  freeGasVolume: Figure<'m3'>,
  barometerRise: Figure<'Pa'>,
  breatherBag?: Figure<'m3'>,
): Figure<'m3/h'> {
  if (breatherBag) {
    return compute(
      'air that the weather presses in',
      'm3/h',
      'max(0, freeGasVolume * share / 100 - breatherBag) / 24',
      { freeGasVolume, share: weatherShare(barometerRise), breatherBag },
      (v) => Math.max(0, (v.freeGasVolume * v.share) / 100 - v.breatherBag) / 24,
    );
  }
  return compute(
    'air that the weather presses in',
    'm3/h',
    'freeGasVolume * share / 100 / 24',
    { freeGasVolume, share: weatherShare(barometerRise) },
    (v) => (v.freeGasVolume * v.share) / 100 / 24,
  );
}

/** What presses on a sealed room: mean difference in service, and the barometer's rises on a mean day. */
export interface Service {
  readonly servicePressure: Figure<'Pa'>;
  readonly barometerRise: Figure<'Pa'>;
}

/** Oxygen that air leaks and weather bring in, cubic metres an hour, at the room's oxygen level. */
export function oxygenLeak(
  leakAtTest: Figure<'m3/h'>,
  testPressure: Figure<'Pa'>,
  freeGasVolume: Figure<'m3'>,
  oxygen: Figure<'%'>,
  { servicePressure, barometerRise }: Service,
  breatherBag?: Figure<'m3'>,
): Figure<'m3/h'> {
  const inService = leakInService(leakAtTest, testPressure, servicePressure);
  const weather = weatherFlow(freeGasVolume, barometerRise, breatherBag);
  return compute(
    'oxygen that leaks in',
    'm3/h',
    '(inService + weather) * (oxygenInAir - oxygen) / 100',
    { inService, weather, oxygenInAir, oxygen },
    (v) => ((v.inService + v.weather) * (v.oxygenInAir - v.oxygen)) / 100,
  );
}

/** The same of a room whose leak was measured in service, the weather in it. */
export function oxygenLeakMeasured(inService: Figure<'m3/h'>, oxygen: Figure<'%'>): Figure<'m3/h'> {
  return compute(
    'oxygen that leaks in',
    'm3/h',
    'inService * (oxygenInAir - oxygen) / 100',
    { inService, oxygenInAir, oxygen },
    (v) => (v.inService * (v.oxygenInAir - v.oxygen)) / 100,
  );
}

/** The air leak that brings in just the oxygen the fruit uses. Above it, oxygen climbs. */
export function leakThatMatchesFruit(oxygenUse: Figure<'m3/h'>, oxygen: Figure<'%'>): Figure<'m3/h'> {
  return compute(
    'leak that matches what the fruit uses',
    'm3/h',
    'oxygenUse / ((oxygenInAir - oxygen) / 100)',
    { oxygenUse, oxygenInAir, oxygen },
    (v) => v.oxygenUse / ((v.oxygenInAir - v.oxygen) / 100),
  );
}

/**
 * The half-life a room must have at least so that its leak in service lets in no more oxygen than the fruit uses, what
 * the weather presses in taken off first; undefined where the weather alone brings in more.
 */
export function halfLifeNeeded(
  roomVolume: Figure<'m3'>,
  freeGasVolume: Figure<'m3'>,
  oxygenUse: Figure<'m3/h'>,
  oxygen: Figure<'%'>,
  { servicePressure, barometerRise }: Service,
  breatherBag?: Figure<'m3'>,
): Figure<'min'> | undefined {
  const matching = leakThatMatchesFruit(oxygenUse, oxygen);
  const weather = weatherFlow(freeGasVolume, barometerRise, breatherBag);
  if (!(matching.value > weather.value)) return undefined;
  return finite(
    compute(
      'half-life needed for the fruit to keep up with the leak',
      'min',
      'roomVolume / atmosphere * servicePressure * log(2) / (matching - weather) * 60',
      { roomVolume, atmosphere, servicePressure, matching, weather },
      (v) => (((v.roomVolume / v.atmosphere) * v.servicePressure * Math.LN2) / (v.matching - v.weather)) * 60,
    ),
  );
}
