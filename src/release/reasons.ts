import { allowedAt, type Breach, breachesAt } from './breaches';
import { type Cure, curesOf, remembered } from './cures';
import { LEAST_CARTONS } from './least-cartons';
import { isOpened } from './pins';
import { Standing, type WhatIf } from './standing';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/** Cartons of a demand that a change leaves short beyond what is short already. */
export interface MoreShort {
  readonly demand: number;
  readonly cartons: number;
  /** Weeks in which fewer are sold. */
  readonly weeks: readonly number[];
}

/** A room opened in another week, everything else as it is. */
export interface OtherWeek {
  readonly week: number;
  /** Money less; negative where it would bring more. Absent where the room cannot be packed out at all. */
  readonly cost?: number;
  readonly breaks: readonly Breach[];
  readonly short: readonly MoreShort[];
}

/** The same with what the packhouse does: bins of the room packed in each week from then on; absent as the cost is. */
export interface OpenedIn extends OtherWeek {
  readonly packed?: ArrayLike<number>;
}

/** Why a room opens in its week. Rooms and demands are indexes into the problem's lists, weeks indexes too. */
export interface RoomReason {
  readonly room: number;
  readonly opens: number | null;
  readonly earlier?: OtherWeek;
  readonly later?: OtherWeek;
  /** For a room left closed: the week of its window in which opening it costs least, breaking nothing if it can be. */
  readonly instead?: OtherWeek;
  /** What leaving it closed would cost; for a room that opens. */
  readonly closed?: number;
  /** It has been opened: no other week is asked about. */
  readonly isOpened?: true;
}

export interface Reasons {
  readonly rooms: readonly RoomReason[];
  /** For each demand and week left short, what would cure it. */
  readonly cures: readonly Cure[];
}

/**
 * Why each room opens in its week, and what would cure each shortage: found by solving each change again, not from
 * templates. Costs hold with every other room's week and packing as they are, so they are never too low. `from`: the first
 * week that has not passed; a room that is pinned and left closed, or let go of its pin, is opened in none before.
 */
export function releaseReasons(problem: ReleaseProblem, schedule: ReleaseSchedule, from = 0): Reasons {
  const standing = new Standing(problem, schedule);
  const whatIf = remembered((room, week) => standing.whatIf(room, week), problem.weeks);
  return {
    rooms: problem.rooms.map((_, room) => roomReason(standing, room, whatIf, from)),
    cures: curesOf(standing, whatIf, undefined, from),
  };
}

/** The same for one room alone. */
export function reasonFor(problem: ReleaseProblem, schedule: ReleaseSchedule, room: number): RoomReason {
  return reasonIn(new Standing(problem, schedule), room);
}

/** The same of a schedule that stands already. */
export function reasonIn(standing: Standing, room: number): RoomReason {
  return roomReason(standing, room, (index, week) => standing.whatIf(index, week));
}

/** The same for one room in a week of the caller's choice. */
export function openedIn(standing: Standing, room: number, week: number): OpenedIn {
  let found: WhatIf | undefined;
  const other = otherWeek(standing, room, week, (index, at) => {
    found = standing.whatIf(index, at);
    return found;
  });
  return { ...other, ...(found && { packed: found.bins }) };
}

type Try = (room: number, week: number) => WhatIf | undefined;

function roomReason(standing: Standing, room: number, whatIf: Try, from = 0): RoomReason {
  const opens = standing.schedule.opens[room] ?? null;
  // Fruit from the field is packed when it is there; no other week could be asked about.
  if (standing.problem.rooms[room]?.fromField) return { room, opens };
  if (isOpened(standing.problem, room)) return { room, opens, isOpened: true };
  if (opens === null) {
    const instead = bestWeek(standing, room, whatIf, from);
    return { room, opens, ...(instead && { instead }) };
  }
  const closed = standing.whatIf(room, null)?.cost;
  return {
    room,
    opens,
    earlier: otherWeek(standing, room, opens - 1, whatIf),
    later: otherWeek(standing, room, opens + 1, whatIf),
    ...(closed !== undefined && { closed }),
  };
}

function otherWeek(standing: Standing, room: number, week: number, whatIf: Try): OtherWeek {
  const inSeason = week >= 0 && week < standing.problem.weeks;
  const found = inSeason ? whatIf(room, week) : undefined;
  return {
    week,
    ...(found && { cost: found.cost }),
    breaks: breachesAt(standing, room, week),
    short: found ? moreShort(standing, found) : [],
  };
}

/** The week that costs least of those that break nothing; where none is left, of the room's whole window. */
function bestWeek(standing: Standing, room: number, whatIf: Try, from: number): OtherWeek | undefined {
  const { earliest = 0, latest = -1, pinned = null } = standing.problem.rooms[room] ?? {};
  const first = pinned === null || from > latest ? earliest : Math.max(earliest, from);
  const window = Array.from({ length: Math.max(0, latest - first + 1) }, (_, index) => first + index);
  const best =
    cheapest(allowedAt(standing, room), room, whatIf) ?? cheapest(window, room, whatIf) ?? window[0];
  return best === undefined ? undefined : otherWeek(standing, room, best, whatIf);
}

function cheapest(weeks: readonly number[], room: number, whatIf: Try): number | undefined {
  let best: { readonly week: number; readonly cost: number } | undefined;
  for (const week of weeks) {
    const cost = whatIf(room, week)?.cost;
    if (cost !== undefined && (!best || cost < best.cost)) best = { week, cost };
  }
  return best?.week;
}

function moreShort({ problem, sold }: Standing, found: WhatIf): MoreShort[] {
  return found.touched.flatMap((demand) => {
    const fewer = Array.from(
      { length: problem.weeks },
      (_, week) => (sold[demand]?.[week] ?? 0) - (found.sold[demand]?.[week] ?? 0),
    );
    const cartons = fewer.reduce((sum, one) => sum + one, 0);
    const weeks = fewer.flatMap((one, week) => (one >= LEAST_CARTONS ? [week] : []));
    return cartons >= LEAST_CARTONS ? [{ demand, cartons, weeks }] : [];
  });
}
