import { mostDaysToSeal } from '../fill/weights';
import type { Regime } from '../fruit/types';
import { roomKeeping } from '../keeping/room-keeping';
import { type Day, firstDayOfWeek, weekOfDay } from '../plan/dates';
import type { Fill } from '../plan/model';
import { isTooLate } from './happened';
import { counted } from './say';
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
