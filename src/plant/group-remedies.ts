import type { FruitData } from '../fruit/types';
import type { Day } from '../plan/dates';
import type { Fill, Plan, RefrigerationGroup } from '../plan/model';
import { finish, type Steps } from '../plan/steps';
import { filledRoom } from '../room/filled-room';
import type { FilledRoom } from '../room/types';
import { type GroupRooms, type GroupRun, groupRoom, groupRooms, groupRun, keepsUpFrom } from './group-trial';
import { leastWholeSteps } from './try';
import type { Openings } from './weeks';

/** A refrigeration group with its rooms and when these open. */
export interface GroupAtWork {
  readonly plan: Plan;
  readonly fruit: FruitData;
  readonly group: RefrigerationGroup;
  readonly rooms: readonly FilledRoom[];
  readonly opens: Openings | undefined;
}

/** The least changes of each kind after which no day asks for more than the group gives; each was tried. */
export interface GroupRemedies {
  /** The first day on which its rooms ask for more than it gives. */
  readonly from?: Day;
  /** Fills whose fruit is cold later than with the group's capacity to themselves, and by how many days. */
  readonly coldLater: readonly { readonly fill: string; readonly days: number }[];
  /** Capacity that would do, whole kilowatts. */
  readonly capacityKw?: number;
  /** One room filled and sealed so many days later, the fewest days of those tried. */
  readonly later?: { readonly fill: string; readonly days: number };
  /** All rooms filled in the days of too much, each taking so many days more for it. */
  readonly slower?: { readonly fills: readonly string[]; readonly days: number };
}

/** Days by which a filling is moved or drawn out at most: past two weeks the fruit is better sold than kept waiting. */
const MOST_DAYS = 14;
/** Rooms ask for more in the worst hour than in the mean of its day, yet less than so many times as much. */
const HOURS_ABOVE_DAY = 2;
/** Rooms tried later one by one, those that ask most on the worst day first. */
const MOST_ROOMS_TRIED = 3;

/** A group as planned, and where its rooms stood on their first days, from which changes to them are tried. */
interface AsPlanned {
  readonly at: GroupAtWork;
  readonly planned: GroupRooms;
  readonly capacity: number;
  readonly run: GroupRun;
}

/** What would bring a group's load within its capacity, hour by hour again for each change. */
export function groupRemedies(at: GroupAtWork): GroupRemedies {
  return finish(groupRemediesSteps(at));
}

/** The same in steps. */
export function* groupRemediesSteps(at: GroupAtWork): Steps<GroupRemedies> {
  const capacity = at.group.capacity?.value;
  const planned = groupRooms(at.plan, at.rooms, at.opens);
  if (capacity === undefined || !planned) return { coldLater: [] };
  const run = yield* groupRun(planned, capacity, 'first days');
  const unbound = yield* groupRun(planned, Number.POSITIVE_INFINITY, 'worst hours');
  const coldLater = laterThan(unbound, run);
  const [first] = run.over;
  if (!first) return { coldLater };
  const days = new Set(run.over.map(({ day }) => day));
  const worst = run.over.reduce((most, one) => (one.kilowatts > most.kilowatts ? one : most));
  const asks = new Map(at.rooms.map((room, index) => [room, worst.byRoom[index] ?? 0]));
  const filling = at.rooms.filter(({ intake }) => intake.some(({ day }) => days.has(day)));
  const ask = (room: FilledRoom) => asks.get(room) ?? 0;
  // What the records say has been done is not moved any more.
  const done = (room: FilledRoom) => at.plan.progress.get(room.fill.id);
  const notBegun = filling.filter((room) => !done(room)?.firstBin);
  const notFull = filling.filter((room) => !done(room)?.lastBin);
  const tried: AsPlanned = { at, planned, capacity, run };
  return {
    from: first.day,
    coldLater,
    capacityKw: yield* leastCapacity(planned, capacity, unbound),
    later: yield* fewestDaysLater(
      tried,
      notBegun.sort((a, b) => ask(b) - ask(a)),
    ),
    slower: yield* fewestDaysMore(tried, notFull),
  };
}

/** Rooms whose fruit comes cold later than where none has to share. */
function laterThan(unbound: GroupRun, run: GroupRun): GroupRemedies['coldLater'] {
  return [...run.allColdAtHours].flatMap(([fill, hours]) => {
    const alone = unbound.allColdAtHours.get(fill) ?? Number.NaN;
    const shared = Number.isFinite(hours) ? hours / 24 : Number.POSITIVE_INFINITY;
    const days = shared - (Number.isFinite(alone) ? alone / 24 : 0);
    return days > 0.01 ? [{ fill, days }] : [];
  });
}

/**
 * Whole kilowatts that do. With as many as the worst hour asks for, all rooms go as if there were no end of it, and
 * with fewer they do so until the first hour that asks for more: so far nothing has to be marched again.
 */
function* leastCapacity(planned: GroupRooms, capacity: number, unbound: GroupRun): Steps<number | undefined> {
  const peak = unbound.kilowatts.reduce((most, one) => Math.max(most, one), 0);
  const asUnbound = Math.ceil(Math.max(unbound.worstHourKw, peak));
  const enough = function* (kilowatts: number): Steps<boolean> {
    if (kilowatts >= asUnbound) return true;
    const before = unbound.saved.findLast(({ worstHourKw }) => worstHourKw <= kilowatts)?.state;
    const gone = unbound.kilowatts.subarray(0, Math.max(0, (before?.day ?? 0) - planned.firstDay));
    return gone.every((one) => one <= kilowatts) && (yield* keepsUpFrom(planned, kilowatts, before));
  };
  const most = Math.ceil(HOURS_ABOVE_DAY * peak);
  return yield* leastWholeSteps(Math.floor(capacity), most, enough);
}

/** Of the rooms tried, the one that needs the fewest days; a later one is followed only while it may need fewer. */
function* fewestDaysLater(tried: AsPlanned, rooms: readonly FilledRoom[]): Steps<GroupRemedies['later']> {
  let best: GroupRemedies['later'];
  for (const { fill } of rooms.slice(0, MOST_ROOMS_TRIED)) {
    const does = (days: number) => keepsUp(tried, new Set([fill.id]), (one) => moved(one, days, days));
    const days: number | undefined = yield* leastWholeSteps(0, MOST_DAYS, does, best?.days);
    if (days !== undefined) best = { fill: fill.id, days };
  }
  return best;
}

function* fewestDaysMore(tried: AsPlanned, rooms: readonly FilledRoom[]): Steps<GroupRemedies['slower']> {
  const fills = rooms.map(({ fill }) => fill.id);
  const changed = new Set(fills);
  const days = yield* leastWholeSteps(0, MOST_DAYS, (more) =>
    keepsUp(tried, changed, (fill) => moved(fill, 0, more)),
  );
  return days === undefined ? undefined : { fills, days };
}

/** A fill with its first bin so many days later, and its last bin and seal so many. */
export function moved(fill: Fill, first: number, last: number): Fill {
  const later = <D extends { readonly value: Day }>(date: D, days: number): D => ({
    ...date,
    value: date.value + days,
  });
  return {
    ...fill,
    firstBin: fill.firstBin && later(fill.firstBin, first),
    lastBin: fill.lastBin && later(fill.lastBin, last),
    sealed: fill.sealed && later(fill.sealed, last),
  };
}

/** Whether the group keeps up with some of its rooms changed, none of which begins sooner for it. */
function* keepsUp(
  { at, planned, capacity, run }: AsPlanned,
  changed: ReadonlySet<string>,
  change: (fill: Fill) => Fill,
): Steps<boolean> {
  const begins = Math.min(
    ...planned.rooms.flatMap(({ filled, march }) =>
      changed.has(filled.fill.id) ? [march?.firstDay ?? Number.NEGATIVE_INFINITY] : [],
    ),
  );
  // Until the first of them begins all goes as planned.
  if ((run.over[0]?.day ?? Number.POSITIVE_INFINITY) < begins) return false;
  const rooms = [...planned.rooms];
  for (const [index, { filled }] of planned.rooms.entries()) {
    const { fill, capacity: size } = filled;
    if (!changed.has(fill.id)) continue;
    yield;
    const other = filledRoom(at.plan, at.fruit, change(fill), size);
    rooms[index] = groupRoom(at.plan, other, at.opens, planned.endDay);
  }
  const asBefore = rooms.every(({ march }, index) => {
    const known = planned.rooms[index]?.march;
    return march && known ? march.firstDay >= Math.min(begins, known.firstDay) : march === known;
  });
  const before = asBefore ? run.saved.find(({ state }) => state.day === begins) : undefined;
  return yield* keepsUpFrom({ ...planned, rooms }, capacity, before?.state, changed);
}
