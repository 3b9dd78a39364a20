import type { Day } from '../plan/dates';
import { daysPutOff } from './intake';
import { freePlaces } from './load';
import { entriesOf } from './proposal';
import { Choices, refill } from './refill';
import { FillState } from './state';
import type { FillProblem, FreeRoom, Remedy } from './types';

/** Lots left over for which remedies are tried, those with most bins first. */
const MOST_LOTS = 60;
/** Days more that bins might wait. */
const MORE_WAITING = [1, 2] as const;

/**
 * What would place all that is left over of a lot: a room ready sooner, more bins let in on a day, a longer wait,
 * growers who may share a room, a later sealing, and where none of these would do another room. Each is tried by placing
 * the lot anew where the limit is eased, all else as it is. None of the first five asks that a bin had gone in, or a
 * room been ready, before the problem's `today`: another room may still take what stands in the cold since.
 */
export function remediesFor(found: FillState): Remedy[] {
  const { problem } = found;
  const left = problem.lots.map((_, lot) => lot).filter((lot) => (found.leftBins[lot] ?? 0) > 0);
  left.sort((a, b) => (found.leftBins[b] ?? 0) - (found.leftBins[a] ?? 0) || a - b);
  return left.slice(0, MOST_LOTS).flatMap((lot) => {
    const eased = [
      ...readySooner(found, lot),
      ...moreADay(found, lot),
      ...longerWait(found, lot),
      ...growersShare(found, lot),
      ...sealedLater(found, lot),
    ];
    return eased.length > 0 ? eased : anotherRoom(found, lot);
  });
}

/** The room begun whose sealing would have to be put off least. */
function sealedLater(found: FillState, lot: number): Remedy[] {
  const { problem } = found;
  let best: (Remedy & { readonly kind: 'sealing' }) | undefined;
  problem.rooms.forEach(({ id, held }, room) => {
    if (!held?.sealing || !hasPlacesFor(found, lot, room)) return;
    const state = stillPlaced(found, lot, withRoom(problem, room, { held: { ...held, sealing: undefined } }));
    const load = state?.loads[room];
    if (!load) return;
    const instead = held.sealing.day;
    const day = instead + daysPutOff(held, held.firstDay + load.days - 1);
    if (day > instead && (!best || day - instead < best.day - best.instead))
      best = { lot: idOf(problem, lot), room: id, kind: 'sealing', day, instead };
  });
  return best ? [best] : [];
}

/** A room more, as large as what is left over of the lot, of the kind that takes most on a day. */
function anotherRoom(found: FillState, lot: number): Remedy[] {
  const { problem } = found;
  const places = found.leftBins[lot] ?? 0;
  const binsADay = Math.min(places, Math.max(0, ...problem.rooms.map((room) => room.binsADay)));
  if (binsADay === 0) return [];
  const costInRegime = problem.regimes.map(() => 0);
  const more = { id: '', places, binsADay, ready: null, sealable: true, costInRegime };
  const fits = placed(found, lot, { ...problem, rooms: [...problem.rooms, more] });
  return fits ? [{ lot: idOf(problem, lot), room: '', kind: 'room', places }] : [];
}

/** The room whose being ready later than it could be stands in the way least. */
function readySooner(found: FillState, lot: number): Remedy[] {
  const { problem } = found;
  const soonest = problem.today ?? null;
  let best: (Remedy & { readonly kind: 'ready' }) | undefined;
  problem.rooms.forEach(({ id, ready, held }, room) => {
    if (
      ready === null ||
      (soonest ?? Number.NEGATIVE_INFINITY) >= ready ||
      held ||
      !hasPlacesFor(found, lot, room)
    )
      return;
    const state = stillPlaced(found, lot, withRoom(problem, room, { ready: soonest }));
    const day = state?.loads[room]?.firstDay;
    if (day === undefined || day >= ready) return;
    if (!best || ready - day < best.instead - best.day)
      best = { lot: idOf(problem, lot), room: id, kind: 'ready', day, instead: ready };
  });
  return best ? [best] : [];
}

/** The room that needs the least more let in on a day, and how much. */
function moreADay(found: FillState, lot: number): Remedy[] {
  const { problem } = found;
  let best: (Remedy & { readonly kind: 'intake' }) | undefined;
  problem.rooms.forEach(({ id, places, binsADay }, room) => {
    if (!hasPlacesFor(found, lot, room)) return;
    const fits = (most: number) => stillPlaced(found, lot, withRoom(problem, room, { binsADay: most }));
    if (!fits(places)) return;
    let [low, high] = [binsADay, places];
    while (high - low > 1) {
      const tried = Math.floor((low + high) / 2);
      if (fits(tried)) high = tried;
      else low = tried;
    }
    if (!best || high / binsADay < best.binsADay / best.instead)
      best = { lot: idOf(problem, lot), room: id, kind: 'intake', binsADay: high, instead: binsADay };
  });
  return best ? [best] : [];
}

function longerWait(found: FillState, lot: number): Remedy[] {
  const { problem } = found;
  for (const more of MORE_WAITING) {
    const days = problem.mostWaitingDays + more;
    const eased = { ...problem, mostWaitingDays: days };
    const room = roomOf(found, lot, stillPlaced(found, lot, eased));
    if (room !== undefined)
      return [{ lot: idOf(problem, lot), room, kind: 'waiting', days, instead: problem.mostWaitingDays }];
  }
  return [];
}

function growersShare(found: FillState, lot: number): Remedy[] {
  const { problem } = found;
  if (!problem.lots.some(({ apart }) => apart)) return [];
  const lots = problem.lots.map((one) => ({ ...one, apart: false }));
  const rooms = problem.rooms.map((room) =>
    room.held ? { ...room, held: { ...room.held, apart: false } } : room,
  );
  const room = roomOf(found, lot, stillPlaced(found, lot, { ...problem, lots, rooms }));
  return room === undefined ? [] : [{ lot: idOf(problem, lot), room, kind: 'growers' }];
}

/** The fill with the rest of the lot placed under eased limits; undefined where bins of it are left over even so. */
function placed(found: FillState, lot: number, eased: FillProblem): FillState | undefined {
  const state = new FillState(eased);
  found.loads.forEach((load, room) => {
    if (load)
      state.set(room, {
        ...load,
        likeness: { ...load.likeness, apart: isApart(eased, load.parts) },
        tried: {},
      });
  });
  refill(state, new Choices(eased), [lot], () => 0, 0);
  return (state.leftBins[lot] ?? 0) === 0 ? state : undefined;
}

/** As `placed`; undefined also where bins would have had to go in before the problem's `today`. */
function stillPlaced(found: FillState, lot: number, eased: FillProblem): FillState | undefined {
  const state = placed(found, lot, eased);
  return state && changesPast(found, state) ? undefined : state;
}

/** Whether more bins of some lot go into some room before today than did. */
function changesPast(found: FillState, after: FillState): boolean {
  const { rooms, today } = found.problem;
  if (today === undefined) return false;
  return rooms.some((_, room) => {
    if (!after.loads[room]) return false;
    const before = binsInBefore(found, room, today);
    return [...binsInBefore(after, room, today)].some(([id, bins]) => bins > (before.get(id) ?? 0));
  });
}

/** By lot: bins that go into the room before the day. */
function binsInBefore({ problem, loads }: FillState, room: number, day: Day): Map<string, number> {
  const [at, load] = [problem.rooms[room], loads[room]];
  const bins = new Map<string, number>();
  if (!at || !load || load.firstDay >= day) return bins;
  for (const entry of entriesOf(problem, at, load))
    if (entry.entered < day) bins.set(entry.lot, (bins.get(entry.lot) ?? 0) + entry.bins);
  return bins;
}

/** Whether the room, as it is filled, has places for all that is left of the lot, in a regime for it. */
function hasPlacesFor({ problem, loads, leftBins }: FillState, lot: number, room: number): boolean {
  const at = problem.rooms[room];
  if (!at || freePlaces(at) - (loads[room]?.bins ?? 0) < (leftBins[lot] ?? 0)) return false;
  const regime = loads[room]?.regime ?? at.held?.regime;
  const keeps = problem.lots[lot]?.keeps ?? [];
  return regime === undefined ? keeps.some((one) => one !== null) : keeps[regime] !== null;
}

function isApart({ lots }: FillProblem, parts: readonly { readonly lot: number }[]): boolean {
  return parts.some(({ lot }) => lots[lot]?.apart === true);
}

/** The first room that holds more of the lot than before. */
function roomOf(found: FillState, lot: number, after: FillState | undefined): string | undefined {
  const binsIn = (state: FillState, room: number) =>
    state.loads[room]?.parts.find((part) => part.lot === lot)?.bins ?? 0;
  return found.problem.rooms.find((_, room) => after && binsIn(after, room) > binsIn(found, room))?.id;
}

function withRoom(problem: FillProblem, room: number, change: Partial<FreeRoom>): FillProblem {
  const rooms = problem.rooms.map((one, index) => (index === room ? { ...one, ...change } : one));
  return { ...problem, rooms };
}

function idOf({ lots }: FillProblem, lot: number): string {
  return lots[lot]?.id ?? '';
}
