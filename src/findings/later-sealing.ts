import { mostDaysToSeal } from '../fill/weights';
import type { Regime } from '../fruit/types';
import { roomKeeping } from '../keeping/room-keeping';
import { type Day, firstDayOfWeek, weekOfDay } from '../plan/dates';
import type { Fill } from '../plan/model';
import { counted } from '../plan/wording';
import { isTooLate } from './happened';
import type { ComputedSeason } from './types';

/** A warm hold before cooling is part of the regime: its days are no delay. */
export function warmHoldDays(regime: Regime | undefined): number {
  return regime?.conditioning?.lasts.value ?? 0;
}

/** Days that a fill is sealed later after its first bin than fruit should wait for its gas; none or fewer: in time. */
export function daysSealedLate({ sealed, firstBin }: Fill, regime: Regime | undefined): number {
  if (!sealed || !firstBin) return 0;
  return sealed.value - firstBin.value - warmHoldDays(regime) - mostDaysToSeal;
}

/** Between the last bin and the seal, beyond this the fruit waits for no reason that the plan shows; common practice. */
export const MOST_DAYS_OPEN_AFTER_LAST_BIN = 5;

/** Days that a fill stands full before it is sealed, its warm hold aside. */
export function daysFull({ sealed, lastBin }: Fill, regime: Regime | undefined): number {
  return sealed && lastBin ? sealed.value - lastBin.value - warmHoldDays(regime) : 0;
}

/** The last day on which a fill is sealed neither long after its first bin nor long after its last. */
export function lastDayToSeal({ firstBin, lastBin }: Fill, regime: Regime | undefined): Day | undefined {
  const days = [
    firstBin && firstBin.value + mostDaysToSeal,
    lastBin && lastBin.value + MOST_DAYS_OPEN_AFTER_LAST_BIN,
  ].filter((day) => day !== undefined);
  return days.length === 0 ? undefined : Math.min(...days) + warmHoldDays(regime);
}

/** What waiting for its gas takes off a lot's storage life, as keeping reckons it and `explain` derives it. */
export interface LostWaiting {
  readonly lot: string;
  readonly days: number;
}

/** The lot of a fill that loses most by waiting; undefined where none does. */
export function mostLostWaiting({ keeping }: ComputedSeason, { id }: Fill): LostWaiting | undefined {
  return (keeping.get(id)?.lots ?? [])
    .flatMap(({ lot, storageLife: { origin } }): LostWaiting[] => {
      const days = origin.kind === 'computed' ? origin.inputs.lostBeforeSealing : undefined;
      return days && days.value > 0 ? [{ lot: lot.id, days: days.value }] : [];
    })
    .reduce<LostWaiting | undefined>((most, one) => (most && most.days >= one.days ? most : one), undefined);
}

/**
 * Whether a fill that is not sealed yet can be on a day: after its last bin and all that is recorded, and where the plan
 * knows on which days people work, on one of them.
 */
export function isSealableOn({ plan }: Pick<ComputedSeason, 'plan'>, fill: Fill, day: Day): boolean {
  const full = fill.lastBin ?? fill.firstBin;
  if (isTooLate(plan, { code: 'sealed-late', about: fill.id })) return false;
  if ((full && day <= full.value) || (plan.stand !== undefined && day <= plan.stand)) return false;
  if (!plan.packing) return true;
  const { daysAWeek, closed } = plan.packing;
  const isClosed = closed.some(({ value: { first, last } }) => first <= day && day <= last);
  return !isClosed && day - firstDayOfWeek(weekOfDay(day)) < daysAWeek;
}

/** From here on, days of storage life that are lost are worth a word. */
const WORTH_TELLING_DAYS = 0.5;

/**
 * What other days of filling and sealing cost a fill's fruit: the storage life that the lot loses that loses
 * most, as keeping reckons it, and the finding it would bring. Empty where it costs nothing.
 */
export function priceOfWaiting({ plan, filled: all }: ComputedSeason, moved: Fill): string {
  const filled = all.get(moved.id);
  if (!filled) return '';
  const before = roomKeeping(plan, filled).lots;
  const after = new Map(roomKeeping(plan, { ...filled, fill: moved }).lots.map((one) => [one.lot, one]));
  const lost = Math.max(
    0,
    ...before.map(
      ({ lot, storageLife }) => storageLife.value - (after.get(lot)?.storageLife.value ?? storageLife.value),
    ),
  );
  const late = daysSealedLate(moved, filled.regime);
  const life = lost < WORTH_TELLING_DAYS ? undefined : `${counted(Math.round(lost), 'day')} of storage life`;
  const found =
    late > Math.max(0, daysSealedLate(filled.fill, filled.regime))
      ? `\`sealed-late\` by ${counted(late, 'day')}`
      : undefined;
  return [life, found].filter((one) => one !== undefined).join(' and ');
}

/** The same behind what is advised, in brackets. */
export function inBrackets(price: string): string {
  return price === '' ? '' : ` (its price: ${price})`;
}
