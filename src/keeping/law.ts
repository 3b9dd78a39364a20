import { canonicalName } from '../fruit/data';
import { sources } from '../fruit/sources';
import { type Day, formatDay } from '../plan/dates';
import type { Source } from '../plan/figure';

/**
 * When the state rules of Washington and New York let fruit be called "CA". Planning aid only: the text in force and
 * the state's inspectors decide.
 */

/** Both states: oxygen at 5 % or below within 20 days of sealing. */
export const DAYS_TO_FIVE_PERCENT = 20;

/** Last day on which oxygen must have reached 5 %. */
export function fivePercentDue(sealed: Day): Day {
  return sealed + DAYS_TO_FIVE_PERCENT;
}

/** A room's dates as the rules see them. `fivePercent` is the day its oxygen reached 5 % or below. */
export interface RoomDates {
  readonly firstBin: Day;
  readonly sealed: Day;
  readonly fivePercent: Day;
}

export type ClaimPeriod =
  /** Days kept in controlled atmosphere before fruit may be called "CA". */
  | { readonly kind: 'days'; readonly days: number; readonly rule: string; readonly source: Source }
  | { readonly kind: 'no claim'; readonly why: string; readonly source: Source };

/** WAC 16-450-041: 45 continuous days for Gala and Jonagold, Bartlett and Bosc; 60 for all others. */
export function washingtonPeriod(variety: string, dates: RoomDates): ClaimPeriod {
  const source = sources.washingtonCaRule;
  const late = tooLate(dates);
  if (late) return { kind: 'no claim', why: late, source };
  const short = ['Gala', 'Jonagold', 'Bartlett', 'Bosc'].includes(canonicalName(variety));
  const rule = short ? 'WAC 16-450-041, 45 continuous days' : 'WAC 16-450-041, 60 continuous days';
  return { kind: 'days', days: short ? 45 : 60, rule, source };
}

const QUICK_VARIETIES = ['McIntosh', 'Cortland', 'Empire', 'Jonamac'];

/**
 * New York: 90 days, or 60 for McIntosh, Cortland, Empire and Jonamac where filling, sealing and 5 % oxygen took
 * 7 days at most; McIntosh must be filled and sealed within 14 days for any claim.
 */
export function newYorkPeriod(variety: string, dates: RoomDates): ClaimPeriod {
  const name = canonicalName(variety);
  const source = QUICK_VARIETIES.includes(name) ? sources.newYorkCaRule : sources.newYorkCaLaw;
  if (QUICK_VARIETIES.includes(name) && dates.fivePercent - dates.firstBin <= 7) {
    return {
      kind: 'days',
      days: 60,
      rule: '1 NYCRR 187.6(a), 5 % oxygen within 7 days of the first bin',
      source,
    };
  }
  const late = tooLate(dates);
  if (late) return { kind: 'no claim', why: late, source };
  if (name === 'McIntosh' && dates.sealed - dates.firstBin > 14) {
    return { kind: 'no claim', why: 'McIntosh was filled and sealed in more than 14 days', source };
  }
  return { kind: 'days', days: 90, rule: ninetyDayRule(name), source };
}

function ninetyDayRule(name: string): string {
  if (name === 'McIntosh') return '1 NYCRR 187.6(c), filled and sealed within 14 days';
  if (QUICK_VARIETIES.includes(name)) return '1 NYCRR 187.6(b), 5 % oxygen within 20 days of sealing';
  return 'New York Agriculture and Markets Law § 156-dd, 90 days';
}

/** First day on which the claim may be made, the period counted from the day oxygen reached 5 %. */
export function claimFrom(period: ClaimPeriod, fivePercent: Day): Day | undefined {
  return period.kind === 'days' ? fivePercent + period.days : undefined;
}

/**
 * Whole days from 5 % oxygen to `ended`, the day the room was opened or empty, where they are fewer than the period asks
 * for; undefined where they are enough, or where no claim is to be had anyway.
 */
export function daysCutShort(period: ClaimPeriod, fivePercent: Day, ended: Day): number | undefined {
  const from = claimFrom(period, fivePercent);
  return from === undefined || ended >= from ? undefined : Math.max(0, ended - fivePercent);
}

function tooLate({ sealed, fivePercent }: RoomDates): string | undefined {
  const due = fivePercentDue(sealed);
  if (fivePercent <= due) return undefined;
  return `oxygen must be at 5 % or below by ${formatDay(due)}, ${DAYS_TO_FIVE_PERCENT} days after sealing`;
}
