import { compute, type Figure, referenceFigure } from '../plan/figure';
import { remark, sources } from './sources';
import type { Regime, Variety } from './types';

/** Heat given off per milligram of carbon dioxide, J; the handbooks' value for the burning of glucose. */
export const usualHeatPerMilligram = referenceFigure(
  'heat of respiration, J per mg CO2',
  '1',
  10.7,
  remark(sources.ashraeHeat, 'the 61 kcal rule of USDA Agriculture Handbook 66 gives 10.64 J/mg'),
);

interface RatePoint {
  readonly at: Figure<'degC'>;
  readonly rate: Figure<'mg/kg/h'>;
}

/**
 * Carbon dioxide given off in air at a temperature. Between two points of the variety's table the logarithm of the
 * rate runs straight; below the coldest and above the warmest point the nearest two are continued.
 */
export function respirationInAir(
  variety: Pick<Variety, 'name' | 'respiration'>,
  temperature: Figure<'degC'>,
): Figure<'mg/kg/h'> {
  const name = `respiration of ${variety.name} in air`;
  const [low, high] = neighbours(variety.respiration, temperature.value);
  if (!low) throw new RangeError(`${variety.name} has no respiration table`);
  if (!high) {
    return compute(name, 'mg/kg/h', 'rate', { rate: low.rate }, ({ rate }) => rate);
  }
  const inputs = {
    temperature,
    lowAt: low.at,
    low: low.rate,
    highAt: high.at,
    high: high.rate,
  };
  return compute(
    name,
    'mg/kg/h',
    'low * (high / low) ^ ((temperature - lowAt) / (highAt - lowAt))',
    inputs,
    (v) => alongLogarithm(v.low, v.high, v.temperature, v.lowAt, v.highAt),
  );
}

/** The same in plain numbers, mg/(kg h) at °C, for those who ask for many. */
export function respirationRateInAir(
  variety: Pick<Variety, 'name' | 'respiration'>,
  celsius: number,
): number {
  const [low, high] = neighbours(variety.respiration, celsius);
  if (!low) throw new RangeError(`${variety.name} has no respiration table`);
  if (!high) return low.rate.value;
  return alongLogarithm(low.rate.value, high.rate.value, celsius, low.at.value, high.at.value);
}

function alongLogarithm(low: number, high: number, at: number, lowAt: number, highAt: number): number {
  return low * (high / low) ** ((at - lowAt) / (highAt - lowAt));
}

/** Which end of the sources' range of respiration in store. */
export type RespirationCase = 'low' | 'expected' | 'high';

/** Carbon dioxide given off at a regime's temperature: in air for an air room, else the share that stays in store. */
export function respirationAtRegime(
  variety: Pick<Variety, 'name' | 'respiration' | 'respirationInStore'>,
  regime: Pick<Regime, 'temperature' | 'oxygen'>,
  which: RespirationCase = 'expected',
): Figure<'mg/kg/h'> {
  const inAir = respirationInAir(variety, regime.temperature);
  if (!regime.oxygen) return inAir;
  const inputs = { inAir, share: variety.respirationInStore[which] };
  return compute(
    `respiration of ${variety.name} in store`,
    'mg/kg/h',
    'inAir * share',
    inputs,
    (v) => v.inAir * v.share,
  );
}

/** Carbon dioxide per tonne and day: 24 h, 1000 kg to the tonne, 1,000,000 mg to the kilogram. */
export function carbonDioxidePerTonne(rate: Figure<'mg/kg/h'>): Figure<'kg/t/day'> {
  return compute(
    'carbon dioxide given off',
    'kg/t/day',
    'rate * 24 * 1000 / 1000000',
    { rate },
    (v) => (v.rate * 24 * 1000) / 1000000,
  );
}

/** Heat of respiration in watts per tonne of fruit. */
export function respirationHeat(
  rate: Figure<'mg/kg/h'>,
  heatPerMilligram: Figure<'1'> = usualHeatPerMilligram,
): Figure<'W/t'> {
  return compute(
    'heat of respiration',
    'W/t',
    'rate * heatPerMilligram * 1000 / 3600',
    { rate, heatPerMilligram },
    (v) => (v.rate * v.heatPerMilligram * 1000) / 3600,
  );
}

/** The respiration that gives off a stated heat: how tables printed in W/t are read, whose own rule is the usual. */
export function respirationFromHeat(name: string, heat: Figure<'W/t'>): Figure<'mg/kg/h'> {
  return compute(
    name,
    'mg/kg/h',
    'heat * 3600 / (heatPerMilligram * 1000)',
    { heat, heatPerMilligram: usualHeatPerMilligram },
    (v) => (v.heat * 3600) / (v.heatPerMilligram * 1000),
  );
}

/**
 * The two table points around a temperature, or the nearest two beyond the table's ends; one point alone stands for
 * every temperature.
 */
function neighbours(
  table: readonly RatePoint[],
  temperature: number,
): readonly [RatePoint | undefined, RatePoint | undefined] {
  let above = 0;
  while (above < table.length && !((table[above] as RatePoint).at.value >= temperature)) above++;
  const upper = above === table.length ? table.length - 1 : Math.max(above, 1);
  return [table[Math.max(upper - 1, 0)], upper > 0 ? table[upper] : undefined];
}
