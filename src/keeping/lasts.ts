import { compute, countedFigure, type Figure, referenceFigure } from '../plan/figure';
import { daysPerMonth, firmnessTestSpread, softeningSpread } from './assumptions';
import {
  daysOfBoth,
  daysOfLife,
  deviationsBelow,
  firmnessChance,
  firmnessHolds,
  lifeChance,
  MOST_DAYS,
  type Standard,
  type Wanted,
} from './chance';
import type { FirmnessCourse, KnownFirmness, PlainCourse } from './firmness';
import type { LotLife } from './storage-life';
import type { LotLimit } from './types';

/** How long a lot lasts at a confidence, and what ends it. */
export interface Lasting {
  /** Days from the first picking. */
  readonly days: number;
  readonly setBy: LotLimit;
}

/** What the explanation of a lot's time is made from. */
export interface LastingInputs {
  readonly lotId: string;
  readonly lotLife: LotLife;
  readonly course?: FirmnessCourse | undefined;
  readonly leastFirmness: Figure<'N'>;
}

/**
 * The days for which a lot is within standard with a chance of at least what is wanted. Where both storage life and
 * firmness count, the one that would end first alone is named, and is asked for the higher chance that makes up for the
 * doubt in the other.
 */
export function lasting(standard: Standard, wanted: Wanted): Lasting {
  const { confidence } = wanted;
  const { life, spread, firmness } = standard;
  const ofLife = daysOfLife(standard, wanted);
  const days = daysOfBoth(standard, wanted, ofLife);
  if (firmness && endsByFirmness(standard, wanted, ofLife)) {
    const deviations = deviationsNeeded(confidence, lifeChance(standard, days));
    return { days: plainDaysByFirmness(firmness.course, firmness.least, deviations), setBy: 'firmness' };
  }
  // Storage life with the chance that makes up for the other's doubt comes to these very days, unless that is cut short.
  if (ofLife < MOST_DAYS && life - days < MOST_DEVIATIONS * spread) return { days, setBy: 'storage life' };
  const deviations = deviationsNeeded(confidence, firmnessChance(standard, days));
  return { days: Math.max(0, life - deviations * spread), setBy: 'storage life' };
}

/** The same days, with how they come about. */
export function lastingFigure(inputs: LastingInputs, standard: Standard, wanted: Wanted): Figure<'days'> {
  const { confidence } = wanted;
  const ofLife = daysOfLife(standard, wanted);
  const days = daysOfBoth(standard, wanted, ofLife);
  if (inputs.course && endsByFirmness(standard, wanted, ofLife)) {
    const deviations = deviationsFor(confidence, lifeChance(standard, days), 'storage life');
    return daysByFirmness(inputs, inputs.course, deviations);
  }
  return daysByLife(inputs, deviationsFor(confidence, firmnessChance(standard, days), 'firmness'));
}

/** Chances fall with time: where firmness is doubtful on the day that storage life alone ends, it ends first. */
function endsByFirmness(standard: Standard, { deviations }: Wanted, ofLife: number): boolean {
  return ofLife > 0 && !firmnessHolds(standard, ofLife, deviations);
}

/** A chance beyond this is as good as certainty. */
const MOST_WANTED = 0.99999;
const MOST_DEVIATIONS = deviationsBelow(MOST_WANTED);

function daysByLife({ lotId, lotLife }: LastingInputs, deviations: Figure<'1'>): Figure<'days'> {
  return compute(
    `days from picking for which lot ${lotId} keeps`,
    'days',
    'max(0, life - deviations * spread)',
    { life: lotLife.life, deviations, spread: lotLife.spread },
    (v) => Math.max(0, v.life - v.deviations * v.spread),
  );
}

/**
 * The day on which expected firmness, less so many standard deviations, is down to the least. With what may be lost
 * (`d`, firmness at harvest less the least) and `z` deviations of hypot(test, share * lost), that is the `lost` which
 * solves lost + z * sqrt(test^2 + (share * lost)^2) = d.
 */
function daysByFirmness(
  { lotId, leastFirmness }: LastingInputs,
  course: FirmnessCourse,
  deviations: Figure<'1'>,
): Figure<'days'> {
  const mayBeLost = course.known
    ? mayBeLostOfFitted(leastFirmness, course, course.known, deviations)
    : mayBeLostOfUsual(leastFirmness, course, deviations);
  return daysToLose(lotId, course, mayBeLost);
}

/** The same from the day on which a fitted course is known best: `d` is what is left then above the least. */
function mayBeLostOfFitted(
  leastFirmness: Figure<'N'>,
  course: FirmnessCourse,
  { lostByThen, spread, softeningSpread: share }: KnownFirmness,
  deviations: Figure<'1'>,
): Figure<'N'> {
  return compute(
    'firmness that may be lost',
    'N',
    'max(0, lostByThen + (d - (z < 0 ? -1 : 1) * sqrt(max(0, d^2 - (1 - (z * share)^2) * (d^2 - (z * spread)^2)))) / (1 - (z * share)^2))',
    {
      lostByThen,
      d: compute(
        'firmness between the day it is known best and the least that may be sold',
        'N',
        'atHarvest - lostByThen - least',
        { atHarvest: course.atHarvest, lostByThen, least: leastFirmness },
        (v) => v.atHarvest - v.lostByThen - v.least,
      ),
      z: deviations,
      spread,
      share,
    },
    (v) => Math.max(0, v.lostByThen + lostWithin(v.d, v.z, v.spread, v.share)),
  );
}

function mayBeLostOfUsual(
  leastFirmness: Figure<'N'>,
  course: FirmnessCourse,
  deviations: Figure<'1'>,
): Figure<'N'> {
  return compute(
    'firmness that may be lost',
    'N',
    'max(0, (d - (z < 0 ? -1 : 1) * sqrt(max(0, d^2 - (1 - (z * share)^2) * (d^2 - (z * test)^2)))) / (1 - (z * share)^2))',
    {
      d: compute(
        'firmness between harvest and the least that may be sold',
        'N',
        'atHarvest - least',
        { atHarvest: course.atHarvest, least: leastFirmness },
        (v) => v.atHarvest - v.least,
      ),
      z: deviations,
      test: firmnessTestSpread,
      share: softeningSpread,
    },
    ({ d, z, test, share }) => Math.max(0, lostWithin(d, z, test, share)),
  );
}

/** Days in which so much firmness is lost: while filling, in air up to a late sealing, then in store. */
function daysToLose(lotId: string, course: FirmnessCourse, mayBeLost: Figure<'N'>): Figure<'days'> {
  const filledAfter = counted('days to the end of filling', course.filledAfter);
  const lateBy = counted('days from then to a late sealing', course.sealedAfter - course.filledAfter);
  const lostLate = compute(
    'firmness lost before a late sealing',
    'N',
    'softening * lateBy / daysPerMonth',
    { softening: course.softeningBeforeSealing, lateBy, daysPerMonth },
    (v) => (v.softening * v.lateBy) / v.daysPerMonth,
  );
  return compute(
    `days from picking for which lot ${lotId} stays firm`,
    'days',
    'filledAfter * min(1, mayBeLost / max(0.001, lostFilling)) + lateBy * min(1, max(0, mayBeLost - lostFilling) / max(0.001, lostLate)) + max(0, mayBeLost - lostFilling - lostLate) / max(0.001, softening) * daysPerMonth',
    {
      filledAfter,
      mayBeLost,
      lostFilling: course.lossWhileFilling,
      lateBy,
      lostLate,
      softening: course.softening,
      daysPerMonth,
    },
    (v) => lossTakes(v.mayBeLost, v.filledAfter, v.lostFilling, v.lateBy, v.lostLate, v.softening),
  );
}

/** Days as `daysToLose` tells: those of filling, of a late sealing, and in store. */
function lossTakes(
  mayBeLost: number,
  filledAfter: number,
  lostFilling: number,
  lateBy: number,
  lostLate: number,
  softening: number,
): number {
  return (
    filledAfter * Math.min(1, mayBeLost / Math.max(0.001, lostFilling)) +
    lateBy * Math.min(1, Math.max(0, mayBeLost - lostFilling) / Math.max(0.001, lostLate)) +
    (Math.max(0, mayBeLost - lostFilling - lostLate) / Math.max(0.001, softening)) * daysPerMonth.value
  );
}

/** The loss that, with `z` deviations of hypot(test, share * loss), comes to `d`. */
function lostWithin(d: number, z: number, test: number, share: number): number {
  const a = 1 - (z * share) ** 2;
  const root = Math.sqrt(Math.max(0, d ** 2 - a * (d ** 2 - (z * test) ** 2)));
  return (d - (z < 0 ? -1 : 1) * root) / a;
}

/** As `daysByFirmness`, which tells how it comes about. */
function plainDaysByFirmness(course: PlainCourse, least: number, z: number): number {
  const { known, filledAfter } = course;
  const lost = known ? known.lostByThen : 0;
  const d = course.atHarvest - lost - least;
  const mayBeLost = known
    ? Math.max(0, lost + lostWithin(d, z, known.spread, known.softeningSpread))
    : Math.max(0, lostWithin(d, z, firmnessTestSpread.value, softeningSpread.value));
  const lateBy = course.sealedAfter - filledAfter;
  const lostLate = (course.softeningBeforeSealing * lateBy) / daysPerMonth.value;
  return lossTakes(mayBeLost, filledAfter, course.lossWhileFilling, lateBy, lostLate, course.softening);
}

/** Standard deviations that one limit must be kept away by, so that both together hold with the confidence. */
function deviationsFor(confidence: number, otherChance: number, other: string): Figure<'1'> {
  const wanted = chanceNeeded(confidence, otherChance);
  const said = `${percent(confidence)} in all, ${other} holding with ${percent(otherChance)}`;
  return referenceFigure('standard deviations below the median', '1', deviationsBelow(wanted), {
    citation: `Normal distribution, for a chance of ${percent(wanted)} (${said})`,
    known: 'published',
  });
}

function deviationsNeeded(confidence: number, otherChance: number): number {
  return deviationsBelow(chanceNeeded(confidence, otherChance));
}

function chanceNeeded(confidence: number, otherChance: number): number {
  return Math.min(MOST_WANTED, confidence / Math.max(confidence, otherChance));
}

function counted(name: string, value: number): Figure<'days'> {
  return countedFigure(name, 'days', value, `${name}, from the first picking`);
}

function percent(share: number): string {
  return `${Math.round(share * 1000) / 10} %`;
}
