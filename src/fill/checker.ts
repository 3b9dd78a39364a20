import { formatDay } from '../plan/dates';
import type { Entry, FillProblem, FillProposal, FillViolation, ProposedRoom } from './types';

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

function checkRoom(problem: FillProblem, { room: id, regime: name, entries }: ProposedRoom, say: Say): void {
  const pinned = problem.pinned.find(({ room }) => room === id);
  if (pinned) say('pinned fill', `${id} is used by ${pinned.fill}, which is fixed.`);
  const room = problem.rooms.find((one) => one.id === id);
  const regime = problem.regimes.find((one) => one.name === name);
  if (!room && !pinned) say('room', `${id} is not a free room.`);
  if (!regime) say('regime', `${id}: no lot may be kept in ${name}.`);
  if (!room || !regime) return;
  if (regime.sealed && !room.sealable) say('seal', `${id} cannot hold the atmosphere of ${name}.`);
  if (entries.length === 0) say('empty', `${id} is filled with nothing.`);
  const bins = sum(entries.map((entry) => entry.bins));
  if (bins > room.places) say('places', `${id} takes ${bins} bins and has ${room.places} places.`);
  for (const entry of entries) {
    checkEntry(problem, id, entry, say);
    if (room.ready !== null && entry.entered < room.ready)
      say('ready', `${id} is ready on ${formatDay(room.ready)}, not on ${formatDay(entry.entered)}.`);
    const lot = problem.lots.find((one) => one.id === entry.lot);
    if (lot && !lot.keeps[problem.regimes.indexOf(regime)])
      say('variety', `${id}: ${name} does not suit ${lot.variety} (${lot.id}).`);
  }
  for (const day of new Set(entries.map(({ entered }) => entered))) {
    const that = sum(entries.filter(({ entered }) => entered === day).map((entry) => entry.bins));
    if (that > room.binsADay)
      say('intake', `${id} takes ${that} bins on ${formatDay(day)}; ${room.binsADay} may come in.`);
  }
  const days = entries.length === 0 ? 0 : lastOf(entries) - firstOf(entries) + 1;
  if (days > problem.mostFillingDays)
    say('filling days', `${id} is filled over ${days} days; the most is ${problem.mostFillingDays}.`);
}

function checkEntry(problem: FillProblem, room: string, entry: Entry, say: Say): void {
  const { lot, picked, entered, bins } = entry;
  if (!Number.isInteger(bins) || bins <= 0) say('whole bins', `${room}: ${bins} bins of ${lot}.`);
  const wait = entered - picked;
  if (!(wait >= 0)) say('before picking', `${room}: ${lot} enters before it is picked.`);
  if (wait > problem.mostWaitingDays) say('waiting', `${room}: ${lot} waits ${wait} days.`);
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
        say('picking', `${taken} bins of ${lot.id} of ${formatDay(picked)} are placed; ${there} are there.`);
    }
    const over = sum(unplaced.filter(({ lot: id }) => id === lot.id).map((one) => one.bins));
    const fixed = problem.pinned.flatMap((fill) => fill.lots).filter((one) => one.lot === lot.id);
    const all = sum(mine.map((entry) => entry.bins)) + over + sum(fixed.map((one) => one.bins));
    if (over < 0 || all !== lot.allBins)
      say('bins', `${lot.id} has ${lot.allBins} bins; ${all} are accounted for.`);
  }
}

/** The cost written out again; see `weights.ts` for what each number stands for. */
function costOf(problem: FillProblem, { rooms, unplaced }: FillProposal): number {
  let cost = 1000 * sum(unplaced.map(({ bins }) => bins));
  const roomsOfLots = new Map<string, number>();
  for (const { room: id, regime: name, entries } of rooms) {
    const room = problem.rooms.find((one) => one.id === id);
    const regime = problem.regimes.findIndex((one) => one.name === name);
    const ids = [...new Set(entries.map(({ lot }) => lot))];
    for (const lot of ids) roomsOfLots.set(lot, (roomsOfLots.get(lot) ?? 0) + 1);
    const lots = problem.lots.filter((lot) => ids.includes(lot.id));
    const places = room?.places ?? 0;
    const bins = sum(entries.map((entry) => entry.bins));
    const days = lastOf(entries) - firstOf(entries) + 1;
    const terms = lots.flatMap(({ term }) => (term === null ? [] : [term]));
    const weeks = lots.map(({ keeps }) => keeps[regime]?.latest ?? 0);
    const spread = (list: readonly number[]) =>
      list.length === 0 ? 0 : Math.max(...list) - Math.min(...list);
    cost += 200 + (places - bins) + (bins < 0.9 * places ? 150 : 0) + (room?.costInRegime[regime] ?? 0);
    cost += 5 * Math.max(0, days - 7) + 55 * Math.max(0, days - 10);
    cost += sum(entries.map((entry) => (entry.entered - entry.picked) * entry.bins));
    cost += 0.1 * places * spread(terms) + 0.03 * places * Math.max(0, spread(weeks) - 4);
    cost += 2 * new Set(lots.map(({ grower }) => grower)).size;
    for (const entry of entries) {
      const keeps = lots.find((lot) => lot.id === entry.lot)?.keeps[regime];
      cost += entry.bins * (keeps?.costABin ?? Number.NaN);
    }
  }
  return cost + 60 * sum([...roomsOfLots.values()].map((count) => count - 1));
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
