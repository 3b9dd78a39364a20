import type { Day } from '../plan/dates';
import type { FillProblem, FreeRoom, HeldFruit } from './types';
import { easyFillingDays, usualFillingDays, weights } from './weights';

/** Bins by day of picking, from the first day on that has any. Never changed in place. */
export interface Pickings {
  readonly from: Day;
  readonly bins: readonly number[];
}

export interface Filling {
  /** The first day on which bins of the load go in; those a fill has begun with may be in before. */
  readonly firstDay: Day;
  /** From first bin to last, both counted, with what the room has begun with. */
  readonly days: number;
  /** Of days and of waiting. */
  readonly cost: number;
}

/** Bins that may still come into a room on a day: what a fill has begun with takes its share of its own days. */
export function intakeOn({ binsADay, held }: FreeRoom, day: Day): number {
  const taken = held && day >= held.firstDay && day <= held.lastDay ? held.binsADay : 0;
  return Math.max(0, binsADay - taken);
}

/**
 * How a room is filled with bins picked on these days: each goes in as early as it can. Where filling is slow, the
 * first bins may wait so that it begins, and so ends its count of days, later. Undefined where more come on a day than
 * may go in even though bins wait, or where it takes too long.
 */
export function bestFilling(problem: FillProblem, room: FreeRoom, pickings: Pickings): Filling | undefined {
  const earliest = Math.max(
    room.ready ?? Number.NEGATIVE_INFINITY,
    room.held?.firstDay ?? Number.NEGATIVE_INFINITY,
  );
  const soonest = fillingFrom(problem, room, pickings, earliest);
  // What does not go in from the first day on goes in from no later one.
  if (soonest === 'too many') return undefined;
  let best = soonest === 'too long' ? undefined : soonest;
  if (best && best.days <= easyFillingDays) return best;
  for (let later = 1; later <= problem.mostWaitingDays; later++) {
    const start = pickings.from + later;
    if (start <= earliest) continue;
    const filling = fillingFrom(problem, room, pickings, start);
    if (filling === 'too many') break;
    if (filling !== 'too long' && (!best || filling.cost < best.cost)) best = filling;
  }
  return best;
}

function fillingFrom(
  problem: FillProblem,
  room: FreeRoom,
  { from, bins }: Pickings,
  start: Day,
): Filling | 'too many' | 'too long' {
  const wait = problem.mostWaitingDays;
  // A picking day too many already cannot be filled in time, however bins wait.
  if (bins.length - 1 - wait >= problem.mostFillingDays) return 'too many';
  const { held, binsADay } = room;
  let all = 0;
  for (let index = 0; index < bins.length; index++) all += bins[index] as number;
  let [arrived, due, entered, waited, firstDay, lastDay] = [0, 0, 0, 0, 0, 0];
  for (let index = 0; entered < all; index++) {
    const day = from + index;
    if (index < bins.length) arrived += bins[index] as number;
    if (index >= wait && index - wait < bins.length) due += bins[index - wait] as number;
    const now = day < start ? 0 : Math.min(held ? intakeOn(room, day) : binsADay, arrived - entered);
    if (now > 0) {
      if (entered === 0) firstDay = day;
      lastDay = day;
    }
    entered += now;
    if (entered < due) return 'too many';
    waited += arrived - entered;
  }
  const days = held
    ? Math.max(lastDay, held.lastDay) - Math.min(firstDay, held.firstDay) + 1
    : lastDay - firstDay + 1;
  if (days > problem.mostFillingDays) return 'too long';
  let cost = costOfDays(days) + weights.waitingBinDay * waited;
  if (held) {
    if (lastDay > (held.sealing?.lastBinBy ?? lastDay)) return 'too long';
    cost += weights.sealingDayABin * held.bins * daysPutOff(held, lastDay);
    cost -= costOfDays(held.lastDay - held.firstDay + 1);
  }
  return { firstDay, days, cost };
}

/** Days by which sealing is put off for a last bin on this day; none for one no later than the plan's. */
export function daysPutOff({ sealing, lastDay: planned }: HeldFruit, lastDay: Day): number {
  if (!sealing || lastDay <= planned) return 0;
  return Math.max(0, lastDay + sealing.daysAfter - sealing.day);
}

function costOfDays(days: number): number {
  return (
    weights.fillingDay * Math.max(0, days - easyFillingDays) +
    weights.slowFillingDay * Math.max(0, days - usualFillingDays)
  );
}

/** The days of both; `more` by the days of picking of a lot. The caller's own, who may go on counting in it. */
export function withPickings(
  before: Pickings | undefined,
  more: readonly { readonly day: Day }[],
  bins: readonly number[],
): Pickings & { readonly bins: number[] } {
  let first = Number.POSITIVE_INFINITY;
  let last = Number.NEGATIVE_INFINITY;
  for (let index = 0; index < more.length; index++) {
    if (!bins[index]) continue;
    const { day } = more[index] as { day: Day };
    if (day < first) first = day;
    if (day > last) last = day;
  }
  const from = before ? Math.min(before.from, first) : first;
  const to = before ? Math.max(before.from + before.bins.length - 1, last) : last;
  const sum = new Array<number>(to - from + 1).fill(0);
  if (before)
    for (let index = 0; index < before.bins.length; index++)
      sum[before.from - from + index] = before.bins[index] as number;
  for (let index = 0; index < more.length; index++) {
    const count = bins[index];
    if (!count) continue;
    const at = (more[index] as { day: Day }).day - from;
    sum[at] = (sum[at] as number) + count;
  }
  return { from, bins: sum };
}
