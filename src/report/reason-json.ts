import { formatDay, formatWeek } from '../plan/dates';
import type { Plan } from '../plan/model';
import { counted } from '../plan/wording';
import type { Breach } from '../release/breaches';
import type { Cure } from '../release/cures';
import type { PolicyCure } from '../release/policy-cures';
import type { OtherWeek, RoomReason } from '../release/reasons';
import type { PinCure } from '../release/room-cure';
import type { ReleaseProblem, ReleaseSchedule } from '../release/types';
import { tidy } from './amounts';
import { present } from './parts';
import type { ReleaseReport } from './schemas';

type ReasonJson = ReleaseReport['rooms'][number]['reason'];
type OtherWeekJson = NonNullable<ReasonJson['earlier']>;
type CureJson = ReleaseReport['shortages'][number]['weeks'][number]['cure'];

/** A reason with weeks and demands by name; of a room that has been opened the day, which its fill tells. */
export function reasonJson(
  { fills }: Pick<Plan, 'fills'>,
  problem: ReleaseProblem,
  reason: RoomReason | undefined,
): ReasonJson {
  const fill = reason?.isOpened ? fills.get(problem.rooms[reason.room]?.fill ?? '') : undefined;
  const other = (one: OtherWeek | undefined) => one && otherWeekJson(problem, one);
  return present({
    earlier: other(reason?.earlier),
    later: other(reason?.later),
    closedCosts: reason?.closed === undefined ? undefined : tidy(reason.closed),
    opened: fill?.opened && {
      on: formatDay(fill.opened.value),
      ...present({ notRecorded: fill.openedByPacking }),
    },
    instead: other(reason?.instead),
  });
}

/** Another week of a room with weeks and demands by name. */
export function otherWeekJson(
  problem: ReleaseProblem,
  { week, cost, breaks, short }: OtherWeek,
): OtherWeekJson {
  const label = (index: number) => formatWeek(problem.firstWeek + index);
  const names = (room: number) => problem.rooms[room]?.room ?? '';
  return {
    week: label(week),
    ...present({ costs: cost === undefined ? undefined : tidy(cost) }),
    breaks: breaks.map((one) => ({ kind: one.kind, message: breachText(one, week, label, names) })),
    short: short.map(({ demand, cartons, weeks }) => ({
      demand: problem.demands[demand]?.id ?? '',
      cartons: tidy(cartons),
      weeks: weeks.map(label),
    })),
  };
}

function breachText(
  breach: Breach,
  week: number,
  label: (week: number) => string,
  names: (room: number) => string,
): string {
  switch (breach.kind) {
    case 'season':
      return 'it lies outside the season';
    case 'earliest':
      return `it may not open before ${label(breach.week)}`;
    case 'latest':
      return `it may open no later than ${label(breach.week)}`;
    case 'pin':
      return `it is pinned to ${label(breach.week)}`;
    case 'packing':
      return `the packhouse has only ${counted(breach.bins, 'bin')} left to run in ${weeksText(week, breach.until, label)}`;
    case 'order':
      return `it must open ${breach.before ? 'before' : 'after'} ${names(breach.room)}, which opens in ${label(breach.week)}`;
    case 'rooms-open':
      return `${breach.limit} rooms stand open in ${label(breach.week)} already, and no more may`;
  }
}

function weeksText(from: number, to: number, label: (week: number) => string): string {
  return from === to ? label(from) : `${label(from)}..${label(to)}`;
}

/** A cure with weeks and rooms by name. */
export function cureJson(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  cure: Cure,
  policy: readonly PolicyCure[] = [],
): CureJson {
  const label = (index: number) => formatWeek(problem.firstWeek + index);
  const { move, packing, unpin } = cure;
  const room = move && problem.rooms[move.room];
  const now = move ? (schedule.opens[move.room] ?? undefined) : undefined;
  return {
    ...present({
      room: move &&
        room && {
          room: room.room,
          fill: room.fill,
          opens: label(move.week),
          ...present({ insteadOf: now === undefined ? undefined : label(now) }),
          costs: tidy(move.cost),
          cartons: tidy(move.cartons),
          cartonsInWeek: tidy(move.inWeek),
          ...present({ also: move.also && alsoJson(problem, schedule, move.also) }),
        },
      packing: packing && {
        week: label(packing.week),
        bins: tidy(packing.bins),
        cartons: tidy(packing.cartons),
      },
      unpin: unpin && unpinJson(problem, schedule, unpin),
      policy: policy.length === 0 ? undefined : policy.map((one) => policyJson(problem, schedule, one)),
    }),
    smallerOrder: tidy(cure.left),
    nothingInReach: cure.nothingInReach,
  };
}

/** Another value of the plan's, and the room that gives the cartons then. */
function policyJson(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  { key, days, now, cartons, inWeek, room }: PolicyCure,
): NonNullable<CureJson['policy']>[number] {
  return {
    key,
    days,
    insteadOf: now,
    cartons: tidy(cartons),
    cartonsInWeek: tidy(inWeek),
    ...present({
      room: room && {
        ...alsoJson(problem, schedule, room),
        costs: tidy(room.cost),
        ...present({ also: room.also && alsoJson(problem, schedule, room.also) }),
      },
    }),
  };
}

/** The pin to take out, and what opening the room in the other week does. */
function unpinJson(problem: ReleaseProblem, schedule: ReleaseSchedule, unpin: PinCure): CureJson['unpin'] {
  const label = (index: number) => formatWeek(problem.firstWeek + index);
  const room = problem.rooms[unpin.room];
  if (!room || room.pinned === null) return undefined;
  const also = unpin.also && alsoJson(problem, schedule, unpin.also);
  const alsoPinned = unpin.also && problem.rooms[unpin.also.room]?.pinned;
  return {
    room: room.room,
    fill: room.fill,
    pinned: label(room.pinned),
    opens: label(unpin.week),
    costs: tidy(unpin.cost),
    cartons: tidy(unpin.cartons),
    cartonsInWeek: tidy(unpin.inWeek),
    cartonsStillShort: tidy(unpin.staysShort),
    ...present({
      also: also && {
        ...also,
        ...present({ pinned: typeof alsoPinned === 'number' ? label(alsoPinned) : undefined }),
      },
    }),
  };
}

/** The room that makes way, and its weeks. */
function alsoJson(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  { room, week }: Readonly<Record<'room' | 'week', number>>,
) {
  const label = (index: number) => formatWeek(problem.firstWeek + index);
  const [one, now] = [problem.rooms[room], schedule.opens[room] ?? undefined];
  return {
    room: one?.room ?? '',
    fill: one?.fill ?? '',
    opens: label(week),
    ...present({ insteadOf: now === undefined ? undefined : label(now) }),
  };
}
