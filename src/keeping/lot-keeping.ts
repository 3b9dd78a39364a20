import type { Regime } from '../fruit/types';
import { type Day, firstDayOfWeek, type Week } from '../plan/dates';
import type { Figure } from '../plan/figure';
import type { Fill, Lot } from '../plan/model';
import type { LotInRoom } from '../room/types';
import { type Standard, standardChance } from './chance';
import { type DisorderRisk, lotDisorders } from './disorders';
import { firmnessCourse, type PlainCourse, plainCourse, plainFirmness } from './firmness';
import { type Lasting, lasting } from './lasts';
import { termOf } from './maturity';
import { lotLife } from './storage-life';
import type { LotKeeping } from './types';

/** A lot's keeping, and how long it lasts at any confidence, for the room's window. */
export interface LotTime {
  readonly keeping: LotKeeping;
  /** First day of picking: what its days count from. */
  readonly start: Day;
  readonly lastsAt: (confidence: number) => Lasting;
}

/** Undefined where neither picking nor filling gives a day to count from. `confidence` is a share. */
export function lotTime(
  inRoom: LotInRoom,
  fill: Fill,
  regime: Regime,
  confidence: number,
): LotTime | undefined {
  const { lot, variety } = inRoom;
  const start = startOf(lot, fill);
  if (start === undefined) return undefined;

  const { term, reason } = termOf(lot.maturity, variety);
  const life = lotLife(lot, variety, fill, regime, term);
  const course = firmnessCourse(lot, variety, fill, regime, start);
  const least = variety.leastExitFirmness;
  const plain = course && plainCourse(course);
  const standard: Standard = {
    life: life.life.value,
    spread: life.spread.value,
    firmness: plain && { course: plain, least: least.value },
  };
  const inputs = { lotId: lot.id, lotLife: life, course, leastFirmness: least };
  const disorders = lotDisorders(inRoom, fill, regime, start);
  const packedBy = firstOf(disorders);
  const lasts = (wanted: number) => endedBy(packedBy, lasting(inputs, standard, wanted));
  const atConfidence = lasts(confidence);
  const lastsAt = (wanted: number) => (wanted === confidence ? atConfidence : lasts(wanted));
  const { days, setBy } = atConfidence;
  const keeping: LotKeeping = {
    lot,
    inRoom,
    term,
    termReason: reason,
    storageLife: life.life,
    spread: life.spread,
    firmnessOn: firmnessFrom(plain, start),
    withinStandard: chanceFrom(standard, packedBy?.value, start),
    latest: lastWholeWeek(start, days.value),
    latestSetBy: setBy,
    disorders,
  };
  return { keeping, start, lastsAt };
}

// These hold what they need and no more: a function made in `lotTime` would hold all that was made there.

function firmnessFrom(course: PlainCourse | undefined, start: Day): LotKeeping['firmnessOn'] {
  return (day) => course && plainFirmness(course, day - start);
}

function chanceFrom(
  standard: Standard,
  packedBy: number | undefined,
  start: Day,
): LotKeeping['withinStandard'] {
  return (week) => {
    const days = lastDayOfWeek(week) - start;
    return packedBy !== undefined && days > packedBy + 1e-6 ? 0 : standardChance(standard, days);
  };
}

/** Days from picking by which a disorder has the lot packed first. */
function firstOf(disorders: readonly DisorderRisk[]): Figure<'days'> | undefined {
  return disorders
    .flatMap(({ packedBy }) => packedBy ?? [])
    .reduce<Figure<'days'> | undefined>((a, b) => (a && a.value <= b.value ? a : b), undefined);
}

function endedBy(packedBy: Figure<'days'> | undefined, lasts: Lasting): Lasting {
  return packedBy && packedBy.value < lasts.days.value ? { days: packedBy, setBy: 'disorder' } : lasts;
}

/** The last week whose Sunday comes before so many days from `start` are over. */
export function lastWholeWeek(start: Day, days: number): Week {
  // A hair more, so that a whole number of days is not lost to the last binary digit. Sunday of week w is 7w + 3.
  return Math.floor((start + days + 1e-6 - 3) / 7);
}

function lastDayOfWeek(week: Week): Day {
  return firstDayOfWeek(week) + 6;
}

function startOf(lot: Lot, fill: Fill): Day | undefined {
  return lot.picked?.value.first ?? fill.firstBin?.value ?? fill.lastBin?.value ?? fill.sealed?.value;
}
