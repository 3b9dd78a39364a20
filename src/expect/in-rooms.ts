import { type Day, type Week, weekOfDay } from '../plan/dates';
import type { Plan } from '../plan/model';
import type { FilledRoom, LotInRoom } from '../room/types';
import { type Context, roomIndex, sum } from './context';

/** Which of a room's lots are meant. */
export type IsMeant = (lot: LotInRoom) => boolean;

/** Bins of the lots that are meant, as they went into the room. */
export function binsIn({ lots }: FilledRoom, isMeant: IsMeant): number {
  return lots.reduce((total, lot) => (isMeant(lot) ? total + lot.bins.value : total), 0);
}

/**
 * Bins of the lots that are meant in their room at the end of a day. What is recorded as packed counts to the day; after
 * the last recorded day what the schedule packs in the day's week is out, a room in equal parts of what is left of its lots.
 */
export function leftOn({ season, toCome }: Context, room: FilledRoom, isMeant: IsMeant, day: Day): number {
  const { plan, release } = season;
  const { id, firstBin, opened, emptied } = room.fill;
  if ((firstBin?.value ?? Number.NEGATIVE_INFINITY) > day || (emptied && emptied.value <= day)) return 0;
  const lots = room.lots.filter(isMeant);
  const left = lots.reduce((all, one) => all + Math.max(0, one.bins.value - packedBy(plan, id, one, day)), 0);
  // Emptied later, of which nobody wrote what was packed when: as much on each day.
  if (emptied && opened && !runsOf(plan, id).length)
    return left * (1 - Math.max(0, day + 1 - opened.value) / (emptied.value + 1 - opened.value));
  const isRecorded = toCome !== undefined && plan.stand !== undefined && day <= plan.stand;
  if (!release || (isRecorded && release.problem.standing?.isPacked)) return left;
  const { problem, result } = release;
  const index = roomIndex(season, id);
  const whole = problem.rooms[index]?.bins ?? 0;
  const weeks = Math.max(0, weekOfDay(day) - problem.firstWeek + 1);
  const packed = sum((result.schedule.packed[index] ?? []).slice(0, weeks));
  return whole > 0 ? left * (1 - Math.min(1, packed / whole)) : left;
}

/** The last week in which the lots that are meant are packed, as recorded or by the schedule. */
export interface LastPacked {
  /** Null where they never are. */
  readonly week: Week | null;
  /** Whether they are out already. */
  readonly isDone: boolean;
  /** Bins of them that are not out by the end of the week asked about. */
  readonly late: number;
}

/** `late` counts what is not packed by the end of week `by`: of what is only planned all that was not packed before. */
export function lastPacked(context: Context, room: FilledRoom, isMeant: IsMeant, by: Week): LastPacked {
  const { plan, release } = context.season;
  const { id, emptied } = room.fill;
  const lots = room.lots.filter(isMeant);
  const runs = runsOf(plan, id).filter(({ lot }) => lots.some((one) => one.lot.id === lot?.value));
  const packed = (until: Week) =>
    runs.reduce(
      (all, { day, bins }) => (day && weekOfDay(day.value) <= until ? all + (bins?.value ?? 0) : all),
      0,
    );
  const bins = binsIn(room, isMeant);
  const late = Math.max(0, bins - packed(by));
  if (emptied || (runs.length > 0 && bins - packed(Number.POSITIVE_INFINITY) < 0.5)) {
    const days = runs.flatMap(({ day }) => day?.value ?? []);
    const last = days.length > 0 ? Math.max(...days) : emptied?.value;
    return { week: last === undefined ? null : weekOfDay(last), isDone: true, late };
  }
  const planned = release?.result.schedule.packed[roomIndex(context.season, id)] ?? [];
  const last = planned.findLastIndex((one) => one >= 0.5);
  const week = release && last >= 0 ? release.problem.firstWeek + last : null;
  return { week, isDone: false, late };
}

function runsOf({ packed }: Plan, fill: string) {
  return [...packed.values()].filter((run) => run.fill?.value === fill);
}

function packedBy(plan: Plan, fill: string, { lot }: LotInRoom, day: Day): number {
  return runsOf(plan, fill).reduce(
    (all, run) =>
      run.lot?.value === lot.id && run.day && run.day.value <= day ? all + (run.bins?.value ?? 0) : all,
    0,
  );
}
