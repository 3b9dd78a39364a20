import { compute, countedFigure, type Figure } from '../../../plan/figure';
import { finite, sumOf } from '../../figures';
import type { FilledRoom } from '../../types';
import { vapourPressureDeficit, waterLoss } from '../../weight-loss';
import type { RoomCourse } from '../types';

/** Water that the fruit gives off from sealing to opening, all of it taken as cold: k * deficit * time * mass. */
export function waterLostClosed(
  filled: FilledRoom,
  { room }: Pick<RoomCourse, 'room'>,
): Figure<'kg'> | undefined {
  const { regime, varieties } = filled;
  if (!regime) return undefined;
  const fruit = sumOf(
    'fruit at sealing',
    'kg',
    varieties.map(({ fruit: one }, index) => [`variety_${index + 1}`, one] as const),
  );
  const period = countedFigure(
    'days from sealing to opening',
    'days',
    room.untilHours / 24,
    'the dates of the fill',
  );
  const loss = waterLoss(vapourPressureDeficit(regime.temperature, regime.humidity), period);
  return finite(
    compute(
      'water the fruit gave off, by the closed form',
      'kg',
      'loss / 100 * fruit',
      { loss, fruit },
      (v) => (v.loss / 100) * v.fruit,
    ),
  );
}
