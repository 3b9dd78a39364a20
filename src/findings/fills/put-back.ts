import { type Dropped, placedInto } from '../../fill/drop';
import type { FillState } from '../../fill/state';
import type { Steps } from '../../plan/steps';
import type { Finding } from '../types';
import type { Stand } from './stands';

/** What would put a lot into the room that it was taken out of, found by putting it there and finding all anew. */
export interface WayIn {
  readonly room: string;
  /** Other lots taken out of the room that go in with it. */
  readonly beside: readonly string[];
  /** Findings that would be new and would have to be let pass. */
  readonly codes: readonly string[];
  /** Money that the quick schedule would be worth more than with the proposal, negative for less; absent without one. */
  readonly worth?: number | undefined;
}

export interface PutBack {
  readonly stand: Stand;
  /** By lot. */
  readonly waysIn: ReadonlyMap<string, WayIn>;
}

/** The way in as a sentence; the price in the currency of the plan. */
export function wayInText({ room, codes, worth }: WayIn, currency: string): string {
  const amount = worth === undefined ? 0 : Math.round(Math.abs(worth));
  const worthText =
    worth === undefined
      ? ''
      : amount === 0
        ? ', and the quick schedule is worth as much'
        : `, and the quick schedule is worth ${[currency, amount.toLocaleString('en')].join(' ').trim()} ${worth > 0 ? 'more' : 'less'}`;
  const how =
    codes.length === 0 ? 'Put in all the same' : `With ${codes.map((code) => `--despite ${code}`).join(' ')}`;
  return `${how}, what was taken out of ${room} goes in${worthText}.`;
}

/** What the judge of a proposal knows of a stand. */
export interface Trial {
  /** `soon`: where something stands against it already without the courses of rooms, it ends there. */
  readonly try: (state: FillState, soon?: boolean) => Steps<Stand>;
  /** New findings that speak against it. */
  readonly against: (stand: Stand) => readonly Finding[];
  readonly worth: (stand: Stand) => number | undefined;
}

/** Rooms whose lots are put back, those with most bins first, and trials of fewer of the lots than all. */
const [MOST_ROOMS, MOST_FEWER] = [20, 12];

/**
 * Puts back what was taken out, room by room: as many of its lots, smallest first, as make nothing new and leave the
 * schedule worth no less. Of the others it tells what they would make.
 */
export function* putBack(
  start: Stand,
  out: readonly (Dropped & { bins: number })[],
  trial: Trial,
): Steps<PutBack> {
  const waysIn = new Map<string, WayIn>();
  let stand = start;
  let fewer = 0;
  const isGood = (tried: Stand) =>
    trial.against(tried).length === 0 && (trial.worth(tried) ?? 0) >= (trial.worth(stand) ?? 0) - 1e-6;
  for (const { room, lots } of byRoom(out).slice(0, MOST_ROOMS)) {
    const waiting = lots.filter((lot) => isLeft(stand.state, lot));
    if (waiting.length === 0) continue;
    const all = yield* trial.try(placedInto(stand.state, room, waiting));
    if (all.state.cost >= stand.state.cost) continue;
    if (isGood(all)) {
      stand = all;
      continue;
    }
    let [low, high, best] = [0, waiting.length, stand];
    while (high - low > 1 && fewer < MOST_FEWER) {
      fewer += 1;
      const count = Math.floor((low + high) / 2);
      const tried = yield* trial.try(placedInto(stand.state, room, waiting.slice(0, count)), true);
      if (isGood(tried)) [low, best] = [count, tried];
      else high = count;
    }
    stand = best;
    const codes = [...new Set(trial.against(all).map(({ code }) => code))].sort();
    const [now, then] = [trial.worth(stand), trial.worth(all)];
    const worth = now === undefined || then === undefined ? {} : { worth: then - now };
    const rest = waiting.slice(low);
    for (const lot of rest) {
      const beside = rest.filter((other) => other !== lot);
      if (!waysIn.has(lot)) waysIn.set(lot, { room, beside, codes, ...worth });
    }
  }
  return { stand, waysIn };
}

/** Lots by the room they were taken out of, smallest first; the room with most bins first. */
function byRoom(out: readonly (Dropped & { bins: number })[]): { room: string; lots: string[] }[] {
  const rooms = new Map<string, Map<string, number>>();
  for (const { room, lot, bins } of out) {
    if (lot === undefined) continue;
    const mine = rooms.get(room) ?? new Map<string, number>();
    mine.set(lot, Math.max(bins, mine.get(lot) ?? 0));
    rooms.set(room, mine);
  }
  const sum = (lots: ReadonlyMap<string, number>) => [...lots.values()].reduce((all, bins) => all + bins, 0);
  return [...rooms]
    .sort(([a, one], [b, other]) => sum(other) - sum(one) || (a < b ? -1 : 1))
    .map(([room, lots]) => ({
      room,
      lots: [...lots].sort(([a, x], [b, y]) => x - y || (a < b ? -1 : 1)).map(([lot]) => lot),
    }));
}

function isLeft({ problem, leftBins }: FillState, id: string): boolean {
  return (leftBins[problem.lots.findIndex((lot) => lot.id === id)] ?? 0) > 0;
}
