import type { Regime } from '../fruit/types';
import type { Day, Week } from '../plan/dates';
import type { Figure } from '../plan/figure';
import type { Fill } from '../plan/model';
import type { LotInRoom } from '../room/types';
import { AlikeLots } from './alike';
import { surelyHolds, type Wanted, wantedChance } from './chance';
import { waitingOf } from './delay';
import { type DisorderRisk, lotDisorders } from './disorders';
import { firmnessCourse } from './firmness';
import { KeptLot } from './kept-lot';
import { type Lasting, type LastingInputs, lastingFigure } from './lasts';
import { termOf } from './maturity';
import { lastDayOfWeek, type Standing } from './standing';
import { lotLife } from './storage-life';
import type { LotKeeping } from './types';

/** A lot's keeping, and what its days are counted from, for the room's window. */
export interface LotTime {
  readonly keeping: LotKeeping;
  /** First day of picking: what its days count from. */
  readonly start: Day;
  readonly standing: Standing;
  /** The chance its keeping was made for. */
  readonly wanted: Wanted;
  readonly inputs: LastingInputs;
  /** Days from picking by which a disorder has it packed first. */
  readonly packedBy: Figure<'days'> | undefined;
}

/** Undefined where neither picking nor filling gives a day to count from. `confidence` is a share. */
export function lotTime(
  inRoom: LotInRoom,
  fill: Fill,
  regime: Regime,
  confidence: number,
): LotTime | undefined {
  return lotTimeFor(inRoom, new AlikeLots(fill, regime), wantedChance(confidence));
}

/** The same for the lots of a room: what those share that are alike is made once, and the chance is at hand. */
export function lotTimeFor(inRoom: LotInRoom, room: AlikeLots, wanted: Wanted): LotTime | undefined {
  const { lot, variety } = inRoom;
  const { fill, regime } = room;
  const { picked } = lot;
  const start = picked?.value.first ?? fill.firstBin?.value ?? fill.lastBin?.value ?? fill.sealed?.value;
  if (start === undefined) return undefined;

  const { term } = termOf(lot.maturity, variety);
  const alike = room.with(variety, term, lot.treatments);
  const life = lotLife(waitingOf(lot, picked, fill), variety, fill, regime, alike.life);
  const course = firmnessCourse(lot, variety, fill, regime, start, alike.softening);
  const least = variety.leastExitFirmness;
  const disorders = lotDisorders(lot, alike.threats, fill, start);
  const packedBy = firstOf(disorders);
  const standing = room.standing({
    start,
    life: life.life.value,
    spread: life.spread.value,
    course,
    least: least.value,
    packedBy: packedBy?.value,
  });
  const { days, setBy: latestSetBy } = standing.lasts(wanted);
  const latest = lastWholeWeek(start, days);
  const kept = { inRoom, term, life, standing, latest, latestSetBy, disorders };
  const inputs = { lotId: lot.id, lotLife: life, course, leastFirmness: least };
  return { keeping: new KeptLot(kept, room.kept), start, standing, wanted, inputs, packedBy };
}

/** How long a lot lasts with a chance. */
export function lastsWith({ standing }: LotTime, wanted: Wanted): Lasting {
  return standing.lasts(wanted);
}

/** The same days, with how they come about. */
export function lastsFigure({ inputs, standing, packedBy }: LotTime, wanted: Wanted): Figure<'days'> {
  const days = lastingFigure(inputs, standing.standard, wanted);
  return packedBy && packedBy.value < days.value ? packedBy : days;
}

/** Whether a lot is sure to last to the end of a week with a chance; where not, it may all the same. */
export function surelyLasts({ start, standing, packedBy }: LotTime, week: Week, wanted: Wanted): boolean {
  const days = lastDayOfWeek(week) - start;
  return days > 0 && !(packedBy && packedBy.value < days) && surelyHolds(standing.standard, days, wanted);
}

/** Days from picking by which a disorder has the lot packed first. */
function firstOf(disorders: readonly DisorderRisk[]): Figure<'days'> | undefined {
  let first: Figure<'days'> | undefined;
  for (const { packedBy } of disorders)
    if (packedBy && !(first && first.value <= packedBy.value)) first = packedBy;
  return first;
}

/** The last week whose Sunday comes before so many days from `start` are over. */
export function lastWholeWeek(start: Day, days: number): Week {
  // A hair more, so that a whole number of days is not lost to the last binary digit. Sunday of week w is 7w + 3.
  return Math.floor((start + days + 1e-6 - 3) / 7);
}
