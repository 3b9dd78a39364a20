import { respirationAtOxygen } from '../../../fruit/conversions';
import type { Regime } from '../../../fruit/types';
import type { Day } from '../../../plan/dates';
import { compute, countedFigure, type Figure } from '../../../plan/figure';
import { comesInEvenly } from '../../arrivals';
import { coolingHalfTime, noLag } from '../../cooling';
import { finite } from '../../figures';
import { carbonDioxideInAir } from '../../in-store';
import type { FilledRoom } from '../../types';
import { roomCelsius } from '../fruit-temperature';
import { roomTemperature } from '../of-plan';

/** What the fruit of a room does at a time and an oxygen level, for a pocket calculator. */
export interface FruitAt {
  readonly carbonDioxide: Figure<'kg/day'>;
  readonly oxygenUse: Figure<'m3/h'>;
}

/**
 * Mean temperature of all fruit some hours after the room is sealed: each day's fruit by halves towards the room since
 * its own day (later by its lag), the sum of a geometric row. After a warm hold, and in one, the room's own temperature stands for it.
 * Undefined where the plan lacks the dates or the regime.
 */
export function fruitTemperature(filled: FilledRoom, hours: Figure<'h'>): Figure<'degC'> | undefined {
  const { fill, regime, meanFieldTemperature: field, stepDown, room } = filled;
  const { firstBin, lastBin, sealed } = fill;
  if (!regime || !field || !firstBin || !lastBin || !sealed) return undefined;
  if (stepDown) {
    const celsius = roomCelsius(roomTemperature(filled, regime, sealed.value), hours.value);
    return countedFigure('temperature of the room', 'degC', celsius, 'the warm hold and its steps down');
  }
  if (!comesInEvenly(filled.arrivals))
    return finite(fruitTemperatureByDay(filled, regime, sealed.value, hours));
  const days = countedFigure(
    'days of intake',
    'days',
    lastBin.value - firstBin.value + 1,
    'first bin to last',
  );
  const since = countedFigure(
    'days from the last bin to sealing',
    'days',
    sealed.value - lastBin.value,
    'the dates of the fill',
  );
  return finite(
    compute(
      'mean temperature of the fruit',
      'degC',
      'inside + (field - inside) * min(1, lag * 2 ^ (-(24 * since + hours) / halfTime) * (1 - 2 ^ (-24 * days / halfTime)) / (days * (1 - 2 ^ (-24 / halfTime))))',
      {
        inside: regime.temperature,
        field,
        lag: room.coolingLag ?? noLag,
        since,
        hours,
        halfTime: room.coolingHalfTime ?? coolingHalfTime,
        days,
      },
      (v) =>
        v.inside +
        (v.field - v.inside) *
          Math.min(
            1,
            (v.lag *
              2 ** (-(24 * v.since + v.hours) / v.halfTime) *
              (1 - 2 ** ((-24 * v.days) / v.halfTime))) /
              (v.days * (1 - 2 ** (-24 / v.halfTime))),
          ),
    ),
  );
}

/** The same where days bring more and less, warmer and colder: each day's bins by themselves, and the mean of all. */
function fruitTemperatureByDay(
  { arrivals, room }: FilledRoom,
  { temperature: inside }: Regime,
  sealed: Day,
  hours: Figure<'h'>,
): Figure<'degC'> {
  const [halfTime, lag] = [room.coolingHalfTime ?? coolingHalfTime, room.coolingLag ?? noLag];
  const inputs: Record<string, Figure> = {};
  const terms: string[] = [];
  const masses: string[] = [];
  let [sum, all] = [0, 0];
  arrivals.forEach(({ day, bins, field }, index) => {
    if (!(bins.value > 0)) return;
    const of = (name: string) => `${name}_${index + 1}`;
    const since = countedFigure(
      'days from its coming in to sealing',
      'days',
      sealed - day,
      'the dates of the fill',
    );
    Object.assign(inputs, { [of('bins')]: bins, [of('field')]: field, [of('since')]: since });
    masses.push(of('bins'));
    terms.push(
      `${of('bins')} * (${of('field')} - inside) * min(1, lag * 2 ^ (-(24 * ${of('since')} + hours) / halfTime))`,
    );
    const part = Math.min(1, lag.value * 2 ** (-(24 * since.value + hours.value) / halfTime.value));
    sum += bins.value * (field.value - inside.value) * part;
    all += bins.value;
  });
  return compute(
    'mean temperature of the fruit',
    'degC',
    `inside + (${terms.join(' + ')}) / (${masses.join(' + ')})`,
    { inside, lag, hours, halfTime, ...inputs },
    (v) => v.inside + sum / all,
  );
}

/**
 * Carbon dioxide and oxygen of the fruit some hours after sealing at an oxygen level: the rate in air at the fruit's
 * temperature, times the share that the law of the course leaves of it. Undefined where the plan lacks what it needs.
 */
export function fruitAt(filled: FilledRoom, hours: Figure<'h'>, oxygen: Figure<'%'>): FruitAt | undefined {
  const { varieties, carbonDioxideInStore: inStore, oxygenUse: useInStore } = filled;
  const temperature = fruitTemperature(filled, hours);
  const inAir =
    temperature &&
    carbonDioxideInAir('carbon dioxide given off in air at that temperature', varieties, temperature);
  const share = shareAt(filled, oxygen);
  if (!inAir || !share || !inStore || !useInStore || !(inStore.value > 0)) return undefined;
  const carbonDioxide = compute(
    'carbon dioxide the fruit makes then',
    'kg/day',
    'inAir * share',
    { inAir, share },
    (v) => v.inAir * v.share,
  );
  const use = compute(
    'oxygen the fruit uses then',
    'm3/h',
    'useInStore * carbonDioxide / inStore',
    { useInStore, carbonDioxide, inStore },
    (v) => (v.useInStore * v.carbonDioxide) / v.inStore,
  );
  return { carbonDioxide, oxygenUse: use };
}

/** Respiration as a share of that in air: 1 in air, the long-term share at the regime's oxygen, along the curve. */
function shareAt(filled: FilledRoom, oxygen: Figure<'%'>): Figure<'1'> | undefined {
  const { regime, carbonDioxideInStore: inStore, carbonDioxideBeforePullDown: before } = filled;
  if (!regime?.oxygen || !inStore || !before) return undefined;
  const store = compute(
    'share of respiration that stays in store',
    '1',
    'inStore / before',
    { inStore, before },
    (v) => v.inStore / v.before,
  );
  const inputs = {
    store,
    here: respirationAtOxygen(oxygen),
    atStore: respirationAtOxygen(regime.oxygen),
  };
  const name = 'respiration as a share of that in air, by oxygen';
  return finite(
    oxygen.value <= regime.oxygen.value
      ? compute(name, '1', 'store * here / atStore', inputs, (v) => (v.store * v.here) / v.atStore)
      : compute(
          name,
          '1',
          'store + (1 - store) * (here - atStore) / (1 - atStore)',
          inputs,
          (v) => v.store + ((1 - v.store) * (v.here - v.atStore)) / (1 - v.atStore),
        ),
  );
}

/** The level that stands for a fall from one to another which slows as it goes: their logarithmic mean. */
export function meanLevel(oxygenFrom: Figure<'%'>, oxygenTo: Figure<'%'>): Figure<'%'> {
  return compute(
    'mean oxygen on the way',
    '%',
    '(oxygenFrom - oxygenTo) / log(oxygenFrom / oxygenTo)',
    { oxygenFrom, oxygenTo },
    (v) => (v.oxygenFrom - v.oxygenTo) / Math.log(v.oxygenFrom / v.oxygenTo),
  );
}
