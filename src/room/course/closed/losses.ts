import { sugarFermented } from '../../../fruit/fermentation';
import { compute, countedFigure, type Figure, referenceFigure } from '../../../plan/figure';
import { finite, sumOf } from '../../figures';
import { physicalConstants } from '../../sources';
import { transpirationOf } from '../../transpiration';
import type { FilledRoom } from '../../types';
import { vapourPressureDeficit, waterLoss } from '../../weight-loss';
import { DRY_MATTER } from '../point';
import type { RoomCourse } from '../types';

const dryMatterOfRespiration = referenceFigure(
  'dry matter used for each kilogram of carbon dioxide, kg',
  '1',
  DRY_MATTER,
  {
    ...physicalConstants,
    citation: 'Molar masses of glucose and carbon dioxide (IUPAC): 180.16 / (6 * 44.01)',
  },
);

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
  const loss = waterLoss(
    vapourPressureDeficit(regime.temperature, regime.humidity, filled.assumptions.humidityAtFruit),
    period,
    transpirationOf(filled.varieties),
  );
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

/** Dry matter used up for the carbon dioxide that respiration made, and the sugar that fermentation took. */
export function dryMatterClosed(made: Figure<'kg'>, { course }: Pick<RoomCourse, 'course'>): Figure<'kg'> {
  const name = 'dry matter the fruit used, by the closed form';
  const inputs = { made, dryMatter: dryMatterOfRespiration };
  const fermentedKg = course.points.at(-1)?.fermentedKg ?? 0;
  if (fermentedKg === 0) return compute(name, 'kg', 'made * dryMatter', inputs, (v) => v.made * v.dryMatter);
  const fermented = countedFigure(
    'carbon dioxide made by fermentation, of all that was made',
    'kg',
    fermentedKg,
    'integrated from sealing to opening',
  );
  return compute(
    name,
    'kg',
    '(made - fermented) * dryMatter + fermented * sugar',
    { ...inputs, fermented, sugar: sugarFermented },
    (v) => (v.made - v.fermented) * v.dryMatter + v.fermented * v.sugar,
  );
}
