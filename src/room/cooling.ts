import { compute, type Figure, referenceFigure } from '../plan/figure';
import type { BinType } from '../plan/model';
import { toUnit } from '../plan/quantity';
import { commonPractice, fanSource, handbook66HeatLoad, plasticHeatSource, rapidCooling } from './sources';

/** The terms of a room's heat load, each the mean over a day. */

export const specificHeatOfMaterial = {
  wood: referenceFigure('specific heat of wooden bins (0.5 kcal/kgK)', 'kJ/kgK', 2.093, handbook66HeatLoad),
  plastic: referenceFigure('specific heat of plastic bins', 'kJ/kgK', 1.9, plasticHeatSource),
} as const satisfies Record<NonNullable<BinType['material']>, Figure>;

/** The handbook's pears cool from 21 to 4.5 °C in their first day in a room at -1.1 °C: a half-time of 12.1 h. */
export const coolingHalfTime = referenceFigure('half-cooling time', 'h', 12.1, {
  ...handbook66HeatLoad,
  citation: `${handbook66HeatLoad.citation} (worked out from its example of pears in bins, 21 to 4.5 °C in a day at -1.1 °C; from memory, room cooling in bins runs from 12 to 24 h)`,
});
export const airChangesLoading = referenceFigure(
  'air changes a day while loading',
  '1',
  6,
  handbook66HeatLoad,
);
export const airChangesHolding = referenceFigure(
  'air changes a day, held in air',
  '1',
  1.8,
  handbook66HeatLoad,
);
const circulation = referenceFigure('air circulation, room volumes an hour', '1/h', 40, rapidCooling);
const fanPressure = referenceFigure('pressure the fans work against', 'Pa', 200, fanSource);
/** 3,112 kJ an hour for each horsepower, which is 2,684.5 kJ: motors take more than they give. */
const takenForRating = referenceFigure(
  "power a fan's motor takes, of its rating",
  '1',
  toUnit(3112 / 3600, 'power', 'hp'),
  {
    ...handbook66HeatLoad,
    citation: `${handbook66HeatLoad.citation} (fans give off 3,112 kJ an hour for each HP)`,
  },
);
const fanEfficiency = referenceFigure('efficiency of fans and motors', '%', 50, fanSource);

/** Fruit that follows the room at once. */
export const noLag = referenceFigure(
  "lag factor of the fruit's cooling",
  '1',
  1,
  commonPractice(
    'fruit in the air stream of a bin follows the room at once; above 1 it starts to cool later',
  ),
);

/**
 * Fruit temperature after some hours: the difference to the room halves in each half-time, and is the lag factor times
 * as large as without a lag once the fruit has begun to cool.
 */
export function temperatureAfter(
  start: Figure<'degC'>,
  room: Figure<'degC'>,
  time: Figure<'h'>,
  halfTime: Figure<'h'>,
  lag: Figure<'1'> = noLag,
): Figure<'degC'> {
  return compute(
    `fruit temperature after ${Number(time.value.toFixed(1))} h`,
    'degC',
    'room + (start - room) * min(1, lag * 2 ^ (-time / halfTime))',
    { start, room, time, halfTime, lag },
    (v) => v.room + (v.start - v.room) * Math.min(1, v.lag * 2 ** (-v.time / v.halfTime)),
  );
}

/** Hours for which fruit of a lag stays as it came: ln(lag) / C, where C = ln 2 / half-time. */
export function coolingWait(halfTime: Figure<'h'>, lag: Figure<'1'>): Figure<'h'> {
  return compute(
    'time before the fruit starts to cool',
    'h',
    'log(lag) / log(2) * halfTime',
    { lag, halfTime },
    (v) => (Math.log(v.lag) / Math.LN2) * v.halfTime,
  );
}

/** Time in which the difference to the room falls to an eighth, ln(8 lag) / C: three half-times without a lag. */
export function sevenEighthsTime(halfTime: Figure<'h'>, lag: Figure<'1'> = noLag): Figure<'h'> {
  return compute(
    'seven-eighths cooling time',
    'h',
    'log(8 * lag) / log(2) * halfTime',
    { lag, halfTime },
    (v) => (Math.log(8 * v.lag) / Math.LN2) * v.halfTime,
  );
}

/** Mean heat over a day of cooling a mass from one temperature to another; zero if it is already colder. */
export function heatOfCooling(
  name: string,
  mass: Figure<'kg'>,
  specificHeat: Figure<'kJ/kgK'>,
  warm: Figure<'degC'>,
  cold: Figure<'degC'>,
): Figure<'kW'> {
  return compute(
    name,
    'kW',
    'max(0, mass * specificHeat * (warm - cold) / 86400)',
    { mass, specificHeat, warm, cold },
    (v) => Math.max(0, (v.mass * v.specificHeat * (v.warm - v.cold)) / 86_400),
  );
}

/** Heat through walls, ceiling and floor; zero where it is colder outside. */
export function transmissionHeat(
  surface: Figure<'m2'>,
  heatTransfer: Figure<'W/m2K'>,
  outside: Figure<'degC'>,
  room: Figure<'degC'>,
): Figure<'kW'> {
  return compute(
    'heat through walls, ceiling and floor',
    'kW',
    'max(0, surface * heatTransfer * (outside - room) / 1000)',
    { surface, heatTransfer, outside, room },
    (v) => Math.max(0, (v.surface * v.heatTransfer * (v.outside - v.room)) / 1000),
  );
}

export function airChangeHeat(
  volume: Figure<'m3'>,
  changesADay: Figure<'1'>,
  heatInAir: Figure<'kJ/m3'>,
): Figure<'kW'> {
  return compute(
    'heat of outside air',
    'kW',
    'volume * changesADay * heatInAir / 86400',
    { volume, changesADay, heatInAir },
    (v) => (v.volume * v.changesADay * v.heatInAir) / 86_400,
  );
}

/** Heat of the cooler's fans at full circulation: flow times pressure over efficiency. */
export function fanHeat(volume: Figure<'m3'>): Figure<'kW'> {
  return compute(
    'heat of the fans',
    'kW',
    'volume * circulation / 3600 * fanPressure / (fanEfficiency / 100) / 1000',
    { volume, circulation, fanPressure, fanEfficiency },
    (v) => (((v.volume * v.circulation) / 3600) * v.fanPressure) / (v.fanEfficiency / 100) / 1000,
  );
}

/** Heat of fans whose motors' rating is known: what the motors take. */
export function fanHeatOfMotors(rating: Figure<'kW'>): Figure<'kW'> {
  return compute(
    'heat of the fans',
    'kW',
    'rating * takenForRating',
    { rating, takenForRating },
    (v) => v.rating * v.takenForRating,
  );
}

/** Respiration of a mass of fruit as heat, from watts for each tonne. */
export function respirationHeatOf(fruit: Figure<'kg'>, heatPerTonne: Figure<'W/t'>): Figure<'kW'> {
  return compute(
    'heat of respiration',
    'kW',
    'fruit / 1000 * heatPerTonne / 1000',
    { fruit, heatPerTonne },
    (v) => ((v.fruit / 1000) * v.heatPerTonne) / 1000,
  );
}
