import type { ComputedSeason } from '../findings/types';
import { countedFigure, type Figure } from '../plan/figure';
import { byHand } from '../room/by-hand';
import type { FilledRoom } from '../room/types';
import { type NamedFigure, named } from './named-figures';

/** A room's figures as one works them out on paper, to hold those of the balances against. */
export function byHandFigures(season: ComputedSeason, filled: FilledRoom, owner: string): NamedFigure[] {
  const { binType } = filled.room;
  return named(
    owner,
    byHand(filled, binType && season.plan.binTypes.get(binType.value), stayOf(season, filled)),
  );
}

/** Days from sealing to opening: by the schedule, else by the pin, else to the season's end. */
function stayOf({ courses }: ComputedSeason, { fill }: FilledRoom): Figure<'days'> | undefined {
  const course = courses?.courses.get(fill.id);
  return course && countedFigure('days sealed', 'days', course.room.untilHours / 24, 'sealing to opening');
}
