import { regimeSuits } from '../fruit/data';
import type { Regime, Variety } from '../fruit/types';
import type { Day } from '../plan/dates';
import { compute, type Figure, referenceFigure } from '../plan/figure';
import type { Fill, Lot } from '../plan/model';
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
}

const noLoss = referenceFigure('firmness lost while filling', 'N', 0, {
  citation: 'The loss comes while the atmosphere is set up; fruit in air softens faster from the start',
  known: 'common practice',
});

/** Undefined where the lot has no firmness at harvest. `start` is its first day of picking. */
export function firmnessCourse(
  lot: Lot,
  variety: Variety,
  fill: Fill,
  regime: Regime,
  start: Day,
): FirmnessCourse | undefined {
  const atHarvest = lot.maturity?.firmness;
  if (!atHarvest) return undefined;
  const inStore = softeningInStore(lot, variety, regime);
  const inAir = fasterInAir(inStore);
  const sealed = isSealed(fill, regime) ? fill.sealed?.value : undefined;
  const cold = Math.max(start, coldFrom(lot, fill) ?? start);
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
  const softening = fasterInAir(treated(lot, variety.softening));
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
  const { filledAfter, sealedAfter } = course;
  const filling = filledAfter > 0 ? Math.min(1, Math.max(0, days / filledAfter)) : 1;
  return (
    course.atHarvest.value -
    course.lossWhileFilling.value * filling -
    course.softeningBeforeSealing.value * monthsBetween(filledAfter, Math.min(days, sealedAfter)) -
    course.softening.value * monthsBetween(sealedAfter, days)
  );
}

function monthsBetween(from: number, to: number): number {
  return Math.max(0, to - from) / daysPerMonth.value;
}

/** Standard deviation, N, of a firmness that is expected to be `now` N: of the test, and of what was lost. */
export function firmnessSpread(course: FirmnessCourse, now: number): number {
  return Math.hypot(firmnessTestSpread.value, softeningSpread.value * (course.atHarvest.value - now));
}

/** The planner's own value for the variety, else what the regime's source gives for it, else the variety's. */
function softeningInStore(lot: Lot, variety: Variety, regime: Regime): Figure<'N/month'> {
  const ofRegime = regime.softening && regimeSuits(regime, variety) ? regime.softening : undefined;
  const softening = variety.softening.origin.kind === 'plan' ? variety.softening : ofRegime;
  return treated(lot, softening ?? variety.softening);
}

function treated(lot: Lot, untreated: Figure<'N/month'>): Figure<'N/month'> {
  if (!lot.treatments.some(({ value }) => value === '1-mcp')) return untreated;
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
