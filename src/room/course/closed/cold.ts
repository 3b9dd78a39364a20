import type { Day } from '../../../plan/dates';
import { compute, countedFigure, type Figure } from '../../../plan/figure';
import type { BinType } from '../../../plan/model';
import { specificHeatOfBin, specificHeatOfFruit } from '../../bulk';
import { coolingHalfTime, noLag, sevenEighthsTime, temperatureAfter } from '../../cooling';
import { finite } from '../../figures';
import type { FilledRoom, IntakeDay } from '../../types';

/** Cooling in closed form: Y = j exp(-C t), with C = ln 2 / half-time. */

/**
 * Days from the first bin until all fruit is seven-eighths cool: the last day's fruit by the law, or the time in which
 * the cooler takes seven eighths of all field heat beside the rest of the load, whichever is longer.
 */
export function daysToColdClosed(
  filled: FilledRoom,
  binType: BinType | undefined,
  daysOfIntake = filled.intake.findLastIndex(({ bins }) => bins > 0) + 1,
): Figure<'days'> | undefined {
  if (daysOfIntake === 0) return undefined;
  const days = countedFigure('days of intake', 'days', daysOfIntake, 'first bin to last');
  const seven = sevenEighthsInDays(filled);
  const byLaw = compute(
    'days to all fruit cold by the law',
    'days',
    'days - 1 + seven',
    { days, seven },
    (v) => v.days - 1 + v.seven,
  );
  const byCooler = daysTheCoolerTakes(filled, binType);
  if (!byCooler) return byLaw;
  return compute(
    'days to all fruit cold, by the closed form',
    'days',
    'max(byLaw, byCooler)',
    { byLaw, byCooler },
    (v) => {
      return Math.max(v.byLaw, v.byCooler);
    },
  );
}

/** Days from the first bin until all fruit is seven-eighths cool at a daily intake, by the law alone. */
export function daysToColdAt(filled: FilledRoom, daily: Figure<'bins/day'>): Figure<'days'> | undefined {
  const { bins } = filled;
  if (!bins) return undefined;
  return compute(
    'days to all fruit cold at that daily intake',
    'days',
    'ceil(bins / daily) - 1 + seven',
    { bins, daily, seven: sevenEighthsInDays(filled) },
    (v) => Math.ceil(v.bins / v.daily) - 1 + v.seven,
  );
}

/** Days until one day's fruit is seven-eighths cool by the law alone. */
export function sevenEighthsInDays({ room }: FilledRoom): Figure<'days'> {
  const seven = sevenEighthsTime(room.coolingHalfTime ?? coolingHalfTime, room.coolingLag ?? noLag);
  return compute(
    'days to seven-eighths cool by the law',
    'days',
    'seven / 24',
    { seven },
    (v) => v.seven / 24,
  );
}

/** What the capacity adds: heat over what the cooler has left for it. Undefined where no cooler is stated. */
function daysTheCoolerTakes(filled: FilledRoom, binType: BinType | undefined): Figure<'days'> | undefined {
  const { intake, fruit, bins, meanFieldTemperature: field, regime, room } = filled;
  const capacity = room.coolerCapacity;
  const last = intake.at(-1);
  const tare = binType?.tare;
  const heatOfBins = specificHeatOfBin(binType);
  if (!capacity || !last || !fruit || !bins || !field || !regime || !tare || !heatOfBins) return undefined;
  const heat = compute(
    'seven eighths of the field heat of fruit and bins',
    'MJ',
    '7 / 8 * (fruit * 1000 * heatOfFruit + bins * tare * heatOfBins) * max(0, field - inside) / 1000',
    {
      fruit,
      heatOfFruit: specificHeatOfFruit(filled.varieties),
      bins,
      tare,
      heatOfBins,
      field,
      inside: regime.conditioning?.temperature ?? regime.temperature,
    },
    (v) =>
      ((7 / 8) *
        (v.fruit * 1000 * v.heatOfFruit + v.bins * v.tare * v.heatOfBins) *
        Math.max(0, v.field - v.inside)) /
      1000,
  );
  const other = otherHeat(last);
  if (!(capacity.value > other.value)) return undefined;
  return finite(
    compute(
      'days the cooler takes for it',
      'days',
      'heat * 1000 / (capacity - other) / 86400',
      { heat, capacity, other },
      (v) => (v.heat * 1000) / (v.capacity - v.other) / 86_400,
    ),
  );
}

/** All of a day's heat but that of cooling fruit and bins. */
function otherHeat({ heat, fieldHeat, binHeat }: IntakeDay): Figure<'kW'> {
  return compute(
    'heat beside the field heat on the last day of the intake',
    'kW',
    'heat - fieldHeat - binHeat',
    { heat, fieldHeat, binHeat },
    (v) => v.heat - v.fieldHeat - v.binHeat,
  );
}

/**
 * Bins a day whose field heat the cooler takes day after day, beside the rest of the load. A short intake may be larger:
 * what is left over is taken in the days after it. Undefined where no cooler is stated or the rest alone is too much.
 */
export function intakeTheCoolerKeepsUpWith(
  filled: FilledRoom,
  binType: BinType | undefined,
): Figure<'bins/day'> | undefined {
  const { intake, meanFieldTemperature: field, regime, room } = filled;
  const capacity = room.coolerCapacity;
  const last = intake.at(-1);
  const { netFruit, tare } = binType ?? {};
  const heatOfBins = specificHeatOfBin(binType);
  if (!capacity || !last || !field || !regime || !netFruit || !tare || !heatOfBins) return undefined;
  const inside = regime.conditioning?.temperature ?? regime.temperature;
  const heatOfBin = compute(
    'field heat of a full bin',
    'MJ',
    '(netFruit * heatOfFruit + tare * heatOfBins) * (field - inside) / 1000',
    {
      netFruit,
      heatOfFruit: specificHeatOfFruit(filled.varieties),
      tare,
      heatOfBins,
      field,
      inside,
    },
    (v) => ((v.netFruit * v.heatOfFruit + v.tare * v.heatOfBins) * (v.field - v.inside)) / 1000,
  );
  const other = otherHeat(last);
  if (!(heatOfBin.value > 0 && capacity.value > other.value)) return undefined;
  return compute(
    'bins a day that the cooler keeps up with',
    'bins/day',
    '(capacity - other) * 86400 / (heatOfBin * 1000)',
    { capacity, other, heatOfBin },
    (v) => ((v.capacity - v.other) * 86_400) / (v.heatOfBin * 1000),
  );
}

/** On the intake's hottest day: what the room would need beyond its cooler; negative where the cooler has to spare. */
export function beyondCooler({ intake, room }: FilledRoom): Figure<'kW'> | undefined {
  const capacity = room.coolerCapacity;
  const hottest = intake.reduce<IntakeDay | undefined>(
    (most, one) => (one.heat.value > (most?.heat.value ?? Number.NEGATIVE_INFINITY) ? one : most),
    undefined,
  );
  if (!capacity || !hottest) return undefined;
  return compute(
    'heat beyond the cooler on the hottest day of the intake',
    'kW',
    'heat - capacity',
    { heat: hottest.heat, capacity },
    (v) => v.heat - v.capacity,
  );
}

/** Mean temperature of one day's fruit at the end of its day by the law. */
export function temperatureByLaw({ intake, regime, room }: FilledRoom, day: Day): Figure<'degC'> | undefined {
  const field = intake.find((one) => one.day === day)?.fieldTemperature;
  if (!field || !regime) return undefined;
  return temperatureAfter(
    field,
    regime.conditioning?.temperature ?? regime.temperature,
    countedFigure('hours since it came in', 'h', 24, 'to the end of its day'),
    room.coolingHalfTime ?? coolingHalfTime,
    room.coolingLag ?? noLag,
  );
}
