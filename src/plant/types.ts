import type { Week } from '../plan/dates';
import type { Figure } from '../plan/figure';
import type { NitrogenSource, RefrigerationGroup, Scrubber } from '../plan/model';
import type { FilledRoom } from '../room/types';
import type { NitrogenWeek } from './nitrogen-hours';
import type { NitrogenQueue } from './nitrogen-queue';

/** Shared equipment over the season, by week. */
export interface PlantSeason {
  /** First and last week of the season, inclusive. */
  readonly firstWeek: Week;
  readonly lastWeek: Week;
  readonly scrubbers: readonly ScrubberSeason[];
  readonly nitrogen: readonly NitrogenSeason[];
  readonly refrigeration: readonly RefrigerationSeason[];
}

export interface ScrubberSeason {
  readonly scrubber: Scrubber;
  readonly rooms: readonly FilledRoom[];
  /** What it can remove at the carbon dioxide its rooms hold. */
  readonly capacity?: Figure<'kg/day'>;
  readonly weeks: readonly ScrubberWeek[];
  readonly peak?: ScrubberWeek;
  /** Carbon dioxide its rooms settle at when load and removal balance, in the peak week. */
  readonly settlesAt?: Figure<'%'>;
  /** Oxygen that its changes of beds carry into the rooms in a day, at the lowest oxygen among them. */
  readonly oxygenCarriedIn?: Figure<'m3'>;
}

export interface ScrubberWeek {
  readonly week: Week;
  readonly load: Figure<'kg/day'>;
  /** What it can remove in the week: less where it is out of use on some of its days. */
  readonly capacity?: Figure<'kg/day'>;
  /** Load as a share of it. */
  readonly share?: Figure<'%'>;
}

export interface NitrogenSeason {
  readonly source: NitrogenSource;
  readonly rooms: readonly FilledRoom[];
  /** Its rooms one after another, first sealed first. */
  readonly queue: NitrogenQueue;
  readonly weeks: readonly NitrogenWeek[];
}

export interface RefrigerationSeason {
  readonly group: RefrigerationGroup;
  readonly rooms: readonly FilledRoom[];
  /**
   * Highest daily load of each week: what rooms that are filled and cooled ask for, hour by hour within their coolers
   * and what the group leaves them, and the others to be held.
   */
  readonly weeks: readonly {
    readonly week: Week;
    readonly load: Figure<'kW'>;
    readonly share?: Figure<'%'>;
  }[];
}
