import type { Random } from '../plan/random';
import { mayJoin } from './likeness';
import { mayRun } from './limits';
import type { Offer, RoomLoad } from './load';
import type { FillState } from './state';
import type { FillProblem } from './types';
import { usualFillingDays, weights, wellFilled } from './weights';

/** What does not change while a problem is searched: which rooms are alike, and which regimes a lot may be kept in. */
export class Choices {
  /** By room: the first of the rooms like it. */
  readonly alike: readonly number[];
  readonly regimesOf: readonly (readonly number[])[];

  constructor(readonly problem: FillProblem) {
    const first = new Map<string, number>();
    this.alike = problem.rooms.map(
      ({ places, binsADay, ready, sealable, costInRegime, held, barred }, room) => {
        const never = (barred ?? []).map(({ regime }) => regime);
        const key = held
          ? `begun ${room}`
          : `${places} ${binsADay} ${ready} ${sealable} ${costInRegime} ${never}`;
        if (!first.has(key)) first.set(key, room);
        return first.get(key) as number;
      },
    );
    this.regimesOf = problem.lots.map(({ keeps }) =>
      keeps.flatMap((kept, regime) => (kept === null ? [] : [regime])),
    );
  }

  mayHold(room: number, regime: number): boolean {
    const at = this.problem.rooms[room];
    return at !== undefined && mayRun(this.problem, at, regime);
  }
}

/** Whether a room may take bins of a lot, both by their indexes. */
export type MayGo = (room: number, lot: number) => boolean;

const anywhere: MayGo = () => true;

interface Placing {
  readonly room: number;
  readonly regime: number;
  /** Bins of the lot by its arrivals. */
  readonly more: readonly number[];
  readonly score: number;
}

/**
 * Places the lots of `order` one after the other, each where it costs least: in a room being filled or an empty one,
 * whole where it can be, else as much as fits and the rest elsewhere. `blur` puts the choice off the cheapest, so that
 * another round finds other fills. Bins go only where they `mayGo`.
 */
export function refill(
  state: FillState,
  choices: Choices,
  order: readonly number[],
  random: Random,
  blur: number,
  mayGo: MayGo = anywhere,
): void {
  const over: number[] = [];
  order.forEach((lot, index) => {
    if ((state.leftBins[lot] ?? 0) === 0) return;
    const waiting = [...over, ...order.slice(index)];
    while ((state.leftBins[lot] ?? 0) > 0) {
      const placing = bestPlacing(state, choices, lot, waiting, random, blur, mayGo);
      if (!placing) {
        over.push(lot);
        return;
      }
      state.add(placing.room, placing.regime, lot, placing.more);
    }
  });
}

function bestPlacing(
  state: FillState,
  choices: Choices,
  lot: number,
  waiting: readonly number[],
  random: Random,
  blur: number,
  mayGo: MayGo,
): Placing | undefined {
  let best: Placing | undefined;
  const { problem } = state;
  const left = state.leftBins[lot] ?? 0;
  const keeps = problem.lots[lot]?.keeps ?? [];
  const offer = (room: number, regime: number, { cost, bins, more }: Offer, waste: number): void => {
    if (!Number.isFinite(cost)) return;
    const before = state.loads[room];
    const taken = bins - (before?.bins ?? 0);
    const another = state.costOfAnotherRoom(room, lot);
    const rest = taken < left ? weights.split : 0;
    const added = cost - (before?.cost ?? 0) - waste + another + rest;
    // A few bins are not worth it that a room full of fruit is sealed later.
    if (problem.rooms[room]?.held?.sealing && added >= weights.unplacedBin * taken) return;
    // Bins taken count a little, so that of two rooms that take a part the one that takes more comes first.
    const score = added - weights.unplacedBin * taken * 0.01 + blur * random();
    if (!best || score < best.score) best = { room, regime, more, score };
  };
  const seen = new Set<number>();
  for (let room = 0; room < state.loads.length; room++) {
    if (!mayGo(room, lot)) continue;
    const load = state.loads[room];
    if (load) {
      const found = keeps[load.regime] ? state.offerIn(room, load, lot) : undefined;
      if (found) offer(room, load.regime, found, 0);
      continue;
    }
    const alike = choices.alike[room] as number;
    if (seen.has(alike)) continue;
    seen.add(alike);
    const begun = problem.rooms[room]?.held !== undefined;
    for (const regime of choices.regimesOf[lot] ?? []) {
      const opened = choices.mayHold(room, regime) ? state.openedFor(room, regime, lot) : undefined;
      if (!opened) continue;
      const waste = begun ? 0 : emptyThatMayFill(state, waiting, regime, opened, room);
      const [part] = opened.parts;
      offer(room, regime, { cost: opened.cost, bins: opened.bins, more: part?.byArrival ?? [] }, waste);
    }
  }
  return best;
}

/** What a newly opened room is charged for empty places that other bins waiting to be placed may still take. */
function emptyThatMayFill(
  state: FillState,
  waiting: readonly number[],
  regime: number,
  load: RoomLoad,
  room: number,
): number {
  const { problem } = state;
  const places = problem.rooms[room]?.places ?? 0;
  const until = load.firstDay + usualFillingDays;
  let bins = 0;
  for (const lot of waiting) {
    if (load.bins + bins >= places) break;
    const one = problem.lots[lot];
    if (!one?.keeps[regime] || (state.leftBins[lot] ?? 0) === 0 || !mayJoin(load.likeness, one)) continue;
    const first = one.arrivals[0]?.day ?? 0;
    if (first >= load.firstDay - problem.mostWaitingDays && first < until) bins += state.leftBins[lot] ?? 0;
  }
  const filled = Math.min(places, load.bins + bins);
  const partly = load.bins < wellFilled * places && filled >= wellFilled * places ? weights.partlyFilled : 0;
  return weights.emptyPlace * (filled - load.bins) + partly + (weights.room * (filled - load.bins)) / places;
}
