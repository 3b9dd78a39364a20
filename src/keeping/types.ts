import type { StorageTerm } from '../fruit/types';
import type { Day, Week } from '../plan/dates';
import type { Figure } from '../plan/figure';
import type { Lot } from '../plan/model';
import type { FilledRoom, LotInRoom } from '../room/types';
import type { DisorderRisk } from './disorders';

/** What ends, or begins, the time in which a lot may leave the room; `cooling` alone is that of a room in air. */
export type Limit = LotLimit | 'law' | 'cooling and gas' | 'cooling' | 'season';

/** What ends a lot's time. */
export type LotLimit = 'storage life' | 'firmness' | 'disorder';

export interface LotKeeping {
  readonly lot: Lot;
  readonly inRoom: LotInRoom;
  /** The storage term its maturity suits; undefined without a maturity test. */
  readonly term: StorageTerm | undefined;
  /** Storage life after corrections for maturity, delay and treatment; median. */
  readonly storageLife: Figure<'days'>;
  /** Standard deviation of storage life. */
  readonly spread: Figure<'days'>;
  /** Expected firmness on a day, newtons; undefined where harvest firmness is not known. */
  firmnessOn(day: Day): number | undefined;
  /** Chance that the lot is still within standard at the end of the week. */
  withinStandard(week: Week): number;
  /** Last week it is within standard at the plan's confidence. */
  readonly latest: Week;
  readonly latestSetBy: LotLimit;
  /** Disorders that threaten it, the first to come first. */
  readonly disorders: readonly DisorderRisk[];
}

export interface WindowEdge {
  readonly week: Week;
  readonly limit: Limit;
  readonly lot?: Lot;
  /** The figure behind the edge, for `explain`. */
  readonly because: Figure;
}

/** When a room may be opened. `latest` is the last week in which opening still lets the room be emptied in time. */
export interface OpeningWindow {
  readonly earliest: WindowEdge;
  readonly bestBefore: WindowEdge;
  readonly latest: WindowEdge;
}

export interface RoomKeeping {
  readonly filled: FilledRoom;
  readonly lots: readonly LotKeeping[];
  /** Absent where the plan lacks what it needs. */
  readonly window?: OpeningWindow;
}
