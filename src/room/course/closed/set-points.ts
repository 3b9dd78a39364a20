import { compute, countedFigure, type Figure } from '../../../plan/figure';
import type { FilledRoom } from '../../types';
import type { RoomCourse } from '../types';

/** The oxygen that state rules ask for in the days after sealing. */
export const fivePerCent = countedFigure('oxygen that the rule asks for', '%', 5, 'the rule of the state');

/** The lowest oxygen set-point of a regime's stages. */
export function lowestSetPoint({ regime }: FilledRoom): Figure<'%'> | undefined {
  const later = (regime?.stages ?? []).flatMap(({ oxygen }) => (oxygen ? [oxygen] : []));
  const all = regime?.oxygen ? [regime.oxygen, ...later] : later;
  if (all.length === 0) return undefined;
  const inputs = Object.fromEntries(all.map((oxygen, index) => [`stage_${index + 1}`, oxygen]));
  return compute(
    'lowest oxygen set-point',
    '%',
    all.length === 1 ? 'stage_1' : `min(${Object.keys(inputs).join(', ')})`,
    inputs,
    (values) => Math.min(...Object.values<number>(values)),
  );
}

/** Hours from sealing until carbon dioxide is at the regime's set-point, read from the course's points. */
export function scrubbingBegins({ regime }: FilledRoom, { course }: RoomCourse): Figure<'h'> | undefined {
  const level = regime?.carbonDioxide?.value;
  if (level === undefined) return undefined;
  const { points } = course;
  const after = points.findIndex(({ carbonDioxide }) => carbonDioxide >= level - 1e-6);
  const [earlier, before, point] = [points[after - 2], points[after - 1], points[after]];
  if (!point || !before) return undefined;
  // At the set-point the level stops: how fast it came there is told by the points before.
  const [low, high] = earlier ? [earlier, before] : [before, point];
  const rise = (high.carbonDioxide - low.carbonDioxide) / (high.hours - low.hours);
  const hours = Math.min(point.hours, before.hours + (level - before.carbonDioxide) / rise);
  return countedFigure(
    'hours from sealing until carbon dioxide is at its set-point',
    'h',
    hours,
    'integrated since sealing; the last points before it are drawn on as a straight line',
  );
}
