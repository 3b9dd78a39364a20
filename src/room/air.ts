import { compute, type Figure, referenceFigure } from '../plan/figure';
import { buck, moistAir, physicalConstants } from './sources';
import { atmosphere } from './tightness';

/** Humid air. Pressures in pascals, contents for each kilogram of dry air. */

/** Saturation vapour pressure over water, by Buck (1996). */
export function saturationPressure(temperature: Figure<'degC'>): Figure<'Pa'> {
  return compute(
    'saturation vapour pressure',
    'Pa',
    '611.21 * exp((18.678 - temperature / 234.5) * temperature / (257.14 + temperature))',
    { temperature },
    (v) => 611.21 * Math.exp(((18.678 - v.temperature / 234.5) * v.temperature) / (257.14 + v.temperature)),
    buck,
  );
}

/** Water in air, kilograms for each kilogram of dry air. */
function humidityRatio(temperature: Figure<'degC'>, humidity: Figure<'%'>): Figure<'1'> {
  return compute(
    'water in the air, kg/kg',
    '1',
    '0.622 * humidity / 100 * saturation / (atmosphere - humidity / 100 * saturation)',
    { humidity, saturation: saturationPressure(temperature), atmosphere },
    (v) => {
      const vapour = (v.humidity / 100) * v.saturation;
      return (0.622 * vapour) / (v.atmosphere - vapour);
    },
    moistAir,
  );
}

/** Heat content of humid air, kilojoules for each kilogram of dry air above dry air at 0 °C. */
function enthalpy(temperature: Figure<'degC'>, humidity: Figure<'%'>): Figure<'1'> {
  return compute(
    'heat content of the air, kJ/kg',
    '1',
    '1.005 * temperature + water * (2501 + 1.88 * temperature)',
    { temperature, water: humidityRatio(temperature, humidity) },
    (v) => 1.005 * v.temperature + v.water * (2501 + 1.88 * v.temperature),
    moistAir,
  );
}

const dryAirConstant = referenceFigure('gas constant of dry air, J/(kg K)', '1', 287.05, physicalConstants);

/** Air at a temperature and relative humidity. */
export interface AirState {
  readonly temperature: Figure<'degC'>;
  readonly humidity: Figure<'%'>;
}

/** Heat that a cubic metre of outside air brings in when it takes the place of the room's air; zero if colder. */
export function airHeat(outside: AirState, inside: AirState): Figure<'kJ/m3'> {
  return compute(
    'heat in each cubic metre of outside air',
    'kJ/m3',
    'max(0, atmosphere / (gasConstant * (roomTemperature + 273.15)) * (outsideHeat - roomHeat))',
    {
      atmosphere,
      gasConstant: dryAirConstant,
      roomTemperature: inside.temperature,
      outsideHeat: enthalpy(outside.temperature, outside.humidity),
      roomHeat: enthalpy(inside.temperature, inside.humidity),
    },
    (v) =>
      Math.max(
        0,
        (v.atmosphere / (v.gasConstant * (v.roomTemperature + 273.15))) * (v.outsideHeat - v.roomHeat),
      ),
  );
}
