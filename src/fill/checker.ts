import { formatDay } from '../plan/dates';
import { counted, isOrAre } from '../plan/wording';
import type {
  Entry,
  FillProblem,
  FillProposal,
  FillViolation,
  FreeRoom,
  HeldFruit,
  ProposedRoom,
} from './types';

/**
 * What is wrong with a proposal, read from the problem and the proposal alone: it shares no code with the search or
 * the exact model, and its numbers are written out again here on purpose. Empty for a good proposal.
 */
export function checkFill(problem: FillProblem, proposal: FillProposal): FillViolation[] {
  const found: FillViolation[] = [];
  const say = (kind: string, message: string): void => void found.push({ kind, message });
  const seen = new Set<string>();
  for (const proposed of proposal.rooms) {
    if (seen.has(proposed.room)) say('room twice', `${proposed.room} is filled twice.`);
    seen.add(proposed.room);
    checkRoom(problem, proposed, say);
  }
  checkBins(problem, proposal, say);
  if (found.length > 0) return found;
  const cost = costOf(problem, proposal);
  if (Math.abs(cost - proposal.cost) > 1e-6 * Math.max(1, Math.abs(cost)))
    say('cost', `The cost is ${cost}, not ${proposal.cost}.`);
  return found;
}

type Say = (kind: string, message: string) => void;

function checkRoom(problem: FillProblem, proposed: ProposedRoom, say: Say): void {
  const { room: id, regime: name, entries } = proposed;
  const pinned = problem.pinned.find(({ room }) => room === id);
  const room = problem.rooms.find((one) => one.id === id);
  const held = room?.held;
  if (pinned && pinned.fill !== held?.fill)
    say('pinned fill', `${id} is used by ${pinned.fill}, which is fixed.`);
  const regime = problem.regimes.find((one) => one.name === name);
  if (!room && !pinned) say('room', `${id} is not a free room.`);
  if (!regime) say('regime', `${id}: no lot may be kept in ${name}.`);
  if (!room || !regime) return;
  if (regime.sealed && !room.sealable) say('seal', `${id} cannot hold the atmosphere of ${name}.`);
  const barred = held ? undefined : room.barred?.find((one) => problem.regimes[one.regime] === regime);
  if (barred) say('barred room', `${id} may not be kept in ${name}: ${barred.reason}`);
  if (entries.length === 0) say('empty', `${id} is filled with nothing.`);
  const bins = sum(entries.map((entry) => entry.bins));
  const all = bins + (held?.bins ?? 0);
  if (all > room.places)
    say('places', `${id} holds ${counted(all, 'bin')} and has ${counted(room.places, 'place')}.`);
  if (held && problem.regimes[held.regime] !== regime)
    say('regime begun', `${id} is kept in ${problem.regimes[held.regime]?.name} already, not in ${name}.`);
  for (const entry of entries) {
    checkEntry(problem, id, entry, say);
    if (room.ready !== null && entry.entered < room.ready)
      say('ready', `${id} is ready on ${formatDay(room.ready)}, not on ${formatDay(entry.entered)}.`);
    if (held && entry.entered < held.firstDay)
      say('before the first bin', `${id}: the first bin is of ${formatDay(held.firstDay)}.`);
    const lot = problem.lots.find((one) => one.id === entry.lot);
    const bar = lot?.barred?.find((one) => problem.regimes[one.regime] === regime);
    if (bar) say('barred lot', `${id}: ${entry.lot} may not be kept in ${name}: ${bar.reason}`);
    if (lot && !lot.keeps[problem.regimes.indexOf(regime)])
      say('variety', `${id}: ${name} does not suit ${lot.variety} (${lot.id}).`);
  }
  for (const day of new Set(entries.map(({ entered }) => entered))) {
    const isHeldDay = held !== undefined && held.firstDay <= day && day <= held.lastDay;
    const that =
      sum(entries.filter(({ entered }) => entered === day).map((entry) => entry.bins)) +
      (isHeldDay ? held.binsADay : 0);
    if (that > room.binsADay)
      say(
        'intake',
        `${id} takes ${counted(that, 'bin')} on ${formatDay(day)}; ${room.binsADay} may come in.`,
      );
  }
  const by = held?.sealing?.lastBinBy ?? Number.POSITIVE_INFINITY;
  if (entries.length > 0 && lastOf(entries) > by)
    say('sealing', `${id}: after ${formatDay(by)} no bin may come in, or it would be sealed too late.`);
  checkGrowers(problem, proposed, room, say);
  const days = entries.length === 0 ? 0 : daysOf(entries, held);
  if (days > problem.mostFillingDays)
    say(
      'filling days',
      `${id} is filled over ${counted(days, 'day')}; the most is ${problem.mostFillingDays}.`,
    );
}

/** Fruit of a grower who is kept apart has no other's beside it, neither new nor of the fill the room has begun with. */
function checkGrowers(
  problem: FillProblem,
  { entries }: ProposedRoom,
  { id, held }: FreeRoom,
  say: Say,
): void {
  const lots = problem.lots.filter((one) => entries.some(({ lot }) => lot === one.id));
  const growers = new Set([...lots.map(({ grower }) => grower), ...(held?.growers ?? [])]);
  const isNew = lots.some(({ grower }) => held?.growers.includes(grower) !== true);
  const isApart = lots.some((one) => one.apart) || held?.apart === true;
  if (isApart && growers.size > 1 && (isNew || !held))
    say('growers apart', `${id} holds fruit of ${[...growers].join(' and ')}, of whom one is kept apart.`);
}

function checkEntry(problem: FillProblem, room: string, entry: Entry, say: Say): void {
  const { lot, picked, entered, bins } = entry;
  if (!Number.isInteger(bins) || bins <= 0) say('whole bins', `${room}: ${bins} bins of ${lot}.`);
  const wait = entered - picked;
  if (!(wait >= 0)) say('before picking', `${room}: ${lot} enters before it is picked.`);
  if (wait > problem.mostWaitingDays) say('waiting', `${room}: ${lot} waits ${counted(wait, 'day')}.`);
}

/** Every bin of every lot is in a room, left over, or in a fill of the plan; none is there twice. */
function checkBins(problem: FillProblem, { rooms, unplaced }: FillProposal, say: Say): void {
  const entries = rooms.flatMap((room) => room.entries);
  for (const name of new Set([...entries, ...unplaced].map(({ lot }) => lot)))
    if (!problem.lots.some(({ id }) => id === name)) say('lot', `There is no lot ${name} to be placed.`);
  for (const lot of problem.lots) {
    const mine = entries.filter((entry) => entry.lot === lot.id);
    for (const picked of new Set(mine.map((entry) => entry.picked))) {
      const there = lot.arrivals.find(({ day }) => day === picked)?.bins ?? 0;
      const taken = sum(mine.filter((entry) => entry.picked === picked).map((entry) => entry.bins));
      if (taken > there)
        say(
          'picking',
          `${counted(taken, 'bin')} of ${lot.id} of ${formatDay(picked)} ${isOrAre(taken)} placed; ${there} ${isOrAre(there)} there.`,
        );
    }
    const over = sum(unplaced.filter(({ lot: id }) => id === lot.id).map((one) => one.bins));
    const fixed = problem.pinned.flatMap((fill) => fill.lots).filter((one) => one.lot === lot.id);
    const all = sum(mine.map((entry) => entry.bins)) + over + sum(fixed.map((one) => one.bins));
    if (over < 0 || all !== lot.allBins)
      say('bins', `${lot.id} has ${counted(lot.allBins, 'bin')}; ${all} ${isOrAre(all)} accounted for.`);
  }
}

/** The cost written out again; see `weights.ts` for what each number stands for. */
function costOf(problem: FillProblem, { rooms, unplaced }: FillProposal): number {
  let cost = 1000 * sum(unplaced.map(({ bins }) => bins));
  for (const proposed of rooms) cost += costOfRoom(problem, proposed);
  return cost + 60 * splitsOf(problem, rooms) + 400 * roomsTooMany(problem, rooms);
}

function costOfRoom(problem: FillProblem, { room: id, regime: name, entries }: ProposedRoom): number {
  const room = problem.rooms.find((one) => one.id === id);
  const regime = problem.regimes.findIndex((one) => one.name === name);
  const lots = problem.lots.filter((lot) => entries.some((entry) => entry.lot === lot.id));
  const places = room?.places ?? 0;
  const held = room?.held;
  const bins = sum(entries.map((entry) => entry.bins));
  const partly = (count: number) => (count < 0.9 * places ? 150 : 0);
  const filling = (days: number) => 5 * Math.max(0, days - 7) + 55 * Math.max(0, days - 10);
  const unlike = (terms: readonly number[], weeks: readonly number[], growers: readonly string[]) =>
    0.1 * places * spread(terms) + 0.03 * places * Math.max(0, spread(weeks) - 4) + 2 * new Set(growers).size;
  const [terms, weeks, growers] = [held?.terms ?? [], held?.latest ?? [], held?.growers ?? []];
  let cost = held
    ? partly(held.bins + bins) - partly(held.bins) - bins
    : 200 + (places - bins) + partly(bins) + (room?.costInRegime[regime] ?? 0);
  cost += filling(daysOf(entries, held)) - (held ? filling(held.lastDay - held.firstDay + 1) : 0);
  cost += unlike(
    [...terms, ...lots.flatMap(({ term }) => (term === null ? [] : [term]))],
    [...weeks, ...lots.map(({ keeps }) => keeps[regime]?.latest ?? 0)],
    [...growers, ...lots.map(({ grower }) => grower)],
  );
  if (held) cost -= unlike(terms, weeks, growers);
  if (held?.sealing && entries.length > 0 && lastOf(entries) > held.lastDay)
    cost += 10 * held.bins * Math.max(0, lastOf(entries) + held.sealing.daysAfter - held.sealing.day);
  for (const entry of entries) {
    const keeps = lots.find((lot) => lot.id === entry.lot)?.keeps[regime];
    cost += entry.bins * (entry.entered - entry.picked + (keeps?.costABin ?? Number.NaN));
  }
  return cost;
}

/** Rooms that lots are put into beyond the first of each; a lot that a fill holds some of has its first. */
function splitsOf({ lots, rooms: all }: FillProblem, rooms: readonly ProposedRoom[]): number {
  return sum(
    lots.map((lot) => {
      const into = rooms.filter(
        ({ room, entries }) =>
          entries.some((entry) => entry.lot === lot.id) &&
          all.find(({ id }) => id === room)?.held?.lots.includes(lot.id) !== true,
      );
      return Math.max(0, into.length - (lot.inFills > 0 ? 0 : 1));
    }),
  );
}

/** Rooms beyond the first that fruit of growers to be kept together is put into. */
function roomsTooMany({ lots, pinned }: FillProblem, rooms: readonly ProposedRoom[]): number {
  const growers = new Set(lots.filter(({ together }) => together).map(({ grower }) => grower));
  return sum(
    [...growers].map((grower) => {
      const mine = new Set(lots.filter((lot) => lot.grower === grower).map(({ id }) => id));
      const before = new Set(pinned.filter((fill) => fill.together.includes(grower)).map(({ room }) => room));
      const after = new Set(before);
      for (const { room, entries } of rooms) if (entries.some(({ lot }) => mine.has(lot))) after.add(room);
      return Math.max(0, after.size - 1) - Math.max(0, before.size - 1);
    }),
  );
}

function spread(list: readonly number[]): number {
  return list.length === 0 ? 0 : Math.max(...list) - Math.min(...list);
}

/** From first bin to last, those among them that a fill has put into the room. */
function daysOf(entries: readonly Entry[], held: HeldFruit | undefined): number {
  const first = Math.min(firstOf(entries), held?.firstDay ?? Number.POSITIVE_INFINITY);
  const last = Math.max(lastOf(entries), held?.lastDay ?? Number.NEGATIVE_INFINITY);
  return last - first + 1;
}

function sum(list: readonly number[]): number {
  return list.reduce((total, one) => total + one, 0);
}

function firstOf(entries: readonly Entry[]): number {
  return Math.min(...entries.map(({ entered }) => entered));
}

function lastOf(entries: readonly Entry[]): number {
  return Math.max(...entries.map(({ entered }) => entered));
}
