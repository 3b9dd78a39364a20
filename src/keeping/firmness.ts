import { regimeSuits } from '../fruit/data';
import type { Regime, Variety } from '../fruit/types';
import type { Day } from '../plan/dates';
import { compute, countedFigure, type Figure, referenceFigure } from '../plan/figure';
import type { Fill, Lot, OwnFirmness } from '../plan/model';
import {
  allowedFilling,
  daysPerMonth,
  firmnessTestSpread,
  softeningInAir,
  softeningSpread,
  treatedSoftening,
} from './assumptions';
import { coldFrom } from './delay';
import { isSealed } from './storage-life';

/**
 * A lot's firmness from harvest on: a loss while the room is filled, then so many newtons a month, straight. Softening
 * runs in a flat S in truth; over the months that matter a straight line is what growers' guides use.
 */
export interface FirmnessCourse {
  readonly atHarvest: Figure<'N'>;
  readonly lossWhileFilling: Figure<'N'>;
  /** Newtons a month once the room holds its gas; in an air room, from picking on. */
  readonly softening: Figure<'N/month'>;
  /** The same between the end of the usual filling time and a late sealing. */
  readonly softeningBeforeSealing: Figure<'N/month'>;
  /** Days from the first picking to the end of filling, and to sealing if that is later; 0 in an air room. */
  readonly filledAfter: number;
  readonly sealedAfter: number;
  /** Of a course that was fitted to samples: how well it is known. */
  readonly known?: KnownFirmness;
}

/** Doubt of a fitted course: least where so much has been lost, growing with what is lost before and after. */
export interface KnownFirmness {
  readonly lostByThen: Figure<'N'>;
  readonly spread: Figure<'N'>;
  /** Standard deviation of what is lost from then on, as a share of it. */
  readonly softeningSpread: Figure<'1'>;
}

/** The numbers of a course by themselves: who asks for many days needs no more, and holds no more in memory. */
export interface PlainCourse {
  readonly atHarvest: number;
  readonly lossWhileFilling: number;
  readonly softening: number;
  readonly softeningBeforeSealing: number;
  readonly filledAfter: number;
  readonly sealedAfter: number;
  readonly known:
    | { readonly lostByThen: number; readonly spread: number; readonly softeningSpread: number }
    | undefined;
}

const noLoss = referenceFigure('firmness lost while filling', 'N', 0, {
  citation: 'The loss comes while the atmosphere is set up; fruit in air softens faster from the start',
  known: 'common practice',
});

/** The lot's own where it has one, else the variety's from its firmness at harvest; undefined where it has neither. */
export function firmnessCourse(
  lot: Lot,
  variety: Variety,
  fill: Fill,
  regime: Regime,
  start: Day,
  softening = softeningOf(isTreated(lot.treatments), variety, regime),
): FirmnessCourse | undefined {
  const { ownFirmness } = lot;
  const atHarvest = ownFirmness?.atHarvest ?? lot.maturity?.firmness;
  if (!atHarvest) return undefined;
  const usual = courseOf(atHarvest, lot.picked, softening, variety, fill, regime, start);
  return ownFirmness ? fittedCourse(usual, ownFirmness, start) : usual;
}

/** Softening in a regime, which lots of one variety and treatment share. */
export interface Softening {
  readonly inStore: Figure<'N/month'>;
  readonly inAir: Figure<'N/month'>;
}

export function softeningOf(treated: boolean, variety: Variety, regime: Regime): Softening {
  const inStore = softeningInStore(treated, variety, regime);
  return { inStore, inAir: fasterInAir(inStore) };
}

export function isTreated(treatments: Lot['treatments']): boolean {
  for (const { value } of treatments) if (value === '1-mcp') return true;
  return false;
}

/** What is lost, times what the samples say of it; its doubt from the day on which it is known best. */
function fittedCourse(usual: FirmnessCourse, own: OwnFirmness, start: Day): FirmnessCourse {
  const times = <U extends 'N' | 'N/month'>(loss: Figure<U>) =>
    compute(
      `${loss.name}, as fitted`,
      loss.unit,
      'loss * softening',
      { loss, softening: own.softening },
      (v) => v.loss * v.softening,
    );
  const course = {
    ...usual,
    lossWhileFilling: times(usual.lossWhileFilling),
    softening: times(usual.softening),
    softeningBeforeSealing: times(usual.softeningBeforeSealing),
  };
  const lost = own.atHarvest.value - firmnessAfter(course, own.knownBest.value - start);
  const softeningSpread = compute(
    'spread of what is lost, as a share',
    '1',
    'spread / 100',
    { spread: own.softeningSpread },
    (v) => v.spread / 100,
  );
  const lostByThen = countedFigure(
    'firmness lost by the day it is known best',
    'N',
    lost,
    "the lot's own course up to that day",
    [own.knownBest.at],
  );
  return { ...course, known: { lostByThen, spread: own.spread, softeningSpread } };
}

/** By the variety and the regime alone. `start` is the lot's first day of picking. */
export function usualCourse(
  atHarvest: Figure<'N'>,
  lot: Lot,
  variety: Variety,
  fill: Fill,
  regime: Regime,
  start: Day,
): FirmnessCourse {
  const softening = softeningOf(isTreated(lot.treatments), variety, regime);
  return courseOf(atHarvest, lot.picked, softening, variety, fill, regime, start);
}

function courseOf(
  atHarvest: Figure<'N'>,
  picked: Lot['picked'],
  { inStore, inAir }: Softening,
  variety: Variety,
  fill: Fill,
  regime: Regime,
  start: Day,
): FirmnessCourse {
  const sealed = isSealed(fill, regime) ? fill.sealed?.value : undefined;
  const cold = Math.max(start, coldFrom(picked, fill) ?? start);
  const filled = sealed === undefined ? start : Math.min(cold + allowedFilling.value, Math.max(cold, sealed));
  return {
    atHarvest,
    lossWhileFilling: (sealed !== undefined && variety.firmnessLossWhileFilling) || noLoss,
    softening: sealed === undefined ? inAir : inStore,
    softeningBeforeSealing: inAir,
    filledAfter: filled - start,
    sealedAfter: Math.max(filled, sealed ?? filled) - start,
  };
}

/** The same for fruit that is in no room's regime but in cold air from picking on, and is packed at harvest. */
export function firmnessCourseInAir(lot: Lot, variety: Variety): FirmnessCourse | undefined {
  const atHarvest = lot.maturity?.firmness;
  if (!atHarvest) return undefined;
  const softening = fasterInAir(treated(isTreated(lot.treatments), variety.softening));
  return {
    atHarvest,
    lossWhileFilling: noLoss,
    softening,
    softeningBeforeSealing: softening,
    filledAfter: 0,
    sealedAfter: 0,
  };
}

/** Expected firmness so many days after the first picking, N. */
export function firmnessAfter(course: FirmnessCourse, days: number): number {
  return plainFirmness(plainCourse(course), days);
}

/** Standard deviation, N, of a firmness that is expected to be `now` N: of the test, and of what was lost. */
export function firmnessSpread(course: FirmnessCourse, now: number): number {
  return plainSpread(plainCourse(course), now);
}

export function plainCourse(course: FirmnessCourse): PlainCourse {
  const { filledAfter, sealedAfter, known } = course;
  return {
    atHarvest: course.atHarvest.value,
    lossWhileFilling: course.lossWhileFilling.value,
    softening: course.softening.value,
    softeningBeforeSealing: course.softeningBeforeSealing.value,
    filledAfter,
    sealedAfter,
    known: known && {
      lostByThen: known.lostByThen.value,
      spread: known.spread.value,
      softeningSpread: known.softeningSpread.value,
    },
  };
}

/** As `firmnessAfter`. */
export function plainFirmness(course: PlainCourse, days: number): number {
  const { filledAfter, sealedAfter } = course;
  const filling = filledAfter > 0 ? Math.min(1, Math.max(0, days / filledAfter)) : 1;
  return (
    course.atHarvest -
    course.lossWhileFilling * filling -
    course.softeningBeforeSealing * monthsBetween(filledAfter, Math.min(days, sealedAfter)) -
    course.softening * monthsBetween(sealedAfter, days)
  );
}

/** By how much it falls in a day so many days after the first picking, N. */
export function softensOn(course: PlainCourse, days: number): number {
  const { filledAfter, sealedAfter } = course;
  if (days > sealedAfter) return course.softening / daysPerMonth.value;
  if (days > filledAfter) return course.softeningBeforeSealing / daysPerMonth.value;
  return filledAfter > 0 ? course.lossWhileFilling / filledAfter : 0;
}

function monthsBetween(from: number, to: number): number {
  return Math.max(0, to - from) / daysPerMonth.value;
}

/** As `firmnessSpread`. */
export function plainSpread(course: PlainCourse, now: number): number {
  const lost = course.atHarvest - now;
  if (course.known) {
    const { spread, softeningSpread: share, lostByThen } = course.known;
    return Math.hypot(spread, share * (lost - lostByThen));
  }
  return Math.hypot(firmnessTestSpread.value, softeningSpread.value * lost);
}

/** By how much that standard deviation grows while firmness, expected to be `now` N, falls by so much more. */
export function spreadGrows(course: PlainCourse, now: number, falls: number): number {
  const { known } = course;
  const share = known ? known.softeningSpread : softeningSpread.value;
  const lost = course.atHarvest - now - (known ? known.lostByThen : 0);
  return (share * share * lost * falls) / plainSpread(course, now);
}

/** The planner's own value for the variety, else what the regime's source gives for it, else the variety's. */
function softeningInStore(has: boolean, variety: Variety, regime: Regime): Figure<'N/month'> {
  const ofRegime = regime.softening && regimeSuits(regime, variety) ? regime.softening : undefined;
  const softening = variety.softening.origin.kind === 'plan' ? variety.softening : ofRegime;
  return treated(has, softening ?? variety.softening);
}

function treated(has: boolean, untreated: Figure<'N/month'>): Figure<'N/month'> {
  if (!has) return untreated;
  return compute(
    'firmness lost a month with 1-MCP',
    'N/month',
    'softening * factor',
    { softening: untreated, factor: treatedSoftening },
    (v) => v.softening * v.factor,
  );
}

function fasterInAir(inStore: Figure<'N/month'>): Figure<'N/month'> {
  return compute(
    'firmness lost a month in cold air',
    'N/month',
    'inStore * factor',
    { inStore, factor: softeningInAir },
    (v) => v.inStore * v.factor,
  );
}
