import { compute, countedFigure, type Figure } from '../../../plan/figure';
import { airExchanged as airExchangedByPlan } from '../../exchange';
import { finite } from '../../figures';
import { oxygenInAir } from '../../tightness';
import type { FilledRoom } from '../../types';
import type { CourseRoom } from '../types';

/** Oxygen of a room that is left to its fruit and its leak: dC/dt = (exchanged (in air - C) - 100 use) / volume. */

/** Air that leaks and weather exchange in a room that draws in nothing else. */
export function airExchanged(filled: FilledRoom, course: CourseRoom): Figure<'m3/h'> {
  const { capacity, freeGasVolume, assumptions } = filled;
  return (
    airExchangedByPlan(capacity, freeGasVolume, assumptions) ??
    countedFigure(
      'air that leaks and weather exchange',
      'm3/h',
      course.leakM3h + course.weatherM3h,
      'no pressure test: the usual half-life is assumed',
    )
  );
}

/** A leak of a millionth of the fruit's use changes no digit that is shown, and would cost the logarithm its own. */
function leaks(exchanged: Figure<'m3/h'>, use: Figure<'m3/h'>): boolean {
  return exchanged.value > 1e-6 * use.value;
}

/** The level at which the fruit's use and the leak balance; below zero where the leak brings in less. */
export function balanceLevel(use: Figure<'m3/h'>, exchanged: Figure<'m3/h'>): Figure<'%'> {
  return compute(
    'oxygen at which use and leak balance',
    '%',
    'oxygenInAir - 100 * use / exchanged',
    { oxygenInAir, use, exchanged },
    (v) => v.oxygenInAir - (100 * v.use) / v.exchanged,
  );
}

/** Oxygen after some hours; a straight line where nothing leaks. */
export function levelAfter(
  from: Figure<'%'>,
  use: Figure<'m3/h'>,
  exchanged: Figure<'m3/h'>,
  volume: Figure<'m3'>,
  hours: Figure<'h'>,
): Figure<'%'> {
  const name = 'oxygen after the wait';
  if (!leaks(exchanged, use)) {
    const inputs = { oxygenFrom: from, use, volume, hours };
    return compute(name, '%', 'oxygenFrom - 100 * use / volume * hours', inputs, (v) => {
      return v.oxygenFrom - ((100 * v.use) / v.volume) * v.hours;
    });
  }
  const inputs = { oxygenFrom: from, balance: balanceLevel(use, exchanged), exchanged, volume, hours };
  return compute(
    name,
    '%',
    'balance + (oxygenFrom - balance) * exp(-exchanged * hours / volume)',
    inputs,
    (v) => v.balance + (v.oxygenFrom - v.balance) * Math.exp((-v.exchanged * v.hours) / v.volume),
  );
}

/** Hours in which fruit alone brings oxygen down; undefined where the leak keeps it from coming there. */
export function hoursByFruit(
  from: Figure<'%'>,
  to: Figure<'%'>,
  use: Figure<'m3/h'>,
  exchanged: Figure<'m3/h'>,
  volume: Figure<'m3'>,
): Figure<'h'> | undefined {
  const name = 'hours the fruit takes for the rest, with the leak';
  if (!leaks(exchanged, use)) {
    const inputs = { oxygenFrom: from, oxygenTo: to, use, volume };
    return finite(
      compute(name, 'h', 'volume * (oxygenFrom - oxygenTo) / 100 / use', inputs, (v) => {
        return (v.volume * (v.oxygenFrom - v.oxygenTo)) / 100 / v.use;
      }),
    );
  }
  const balance = balanceLevel(use, exchanged);
  if (balance.value >= to.value) return undefined;
  const inputs = { oxygenFrom: from, oxygenTo: to, balance, exchanged, volume };
  return finite(
    compute(
      name,
      'h',
      'volume / exchanged * log((oxygenFrom - balance) / (oxygenTo - balance))',
      inputs,
      (v) => (v.volume / v.exchanged) * Math.log((v.oxygenFrom - v.balance) / (v.oxygenTo - v.balance)),
    ),
  );
}
