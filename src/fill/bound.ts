import { FlowNetwork } from './flow';
import { intakeOn } from './intake';
import { mayRun } from './limits';
import { freePlaces } from './load';
import type { FillProblem, FreeRoom, LotToPlace } from './types';

export const LEAST_UNPLACED_RESTS_ON =
  'bin places, the days rooms are ready, daily intake and the varieties a room could hold, as if a room could hold several regimes at once';

/**
 * Bins that no fill of these rooms can place: all bins less the most that can flow from lots through the days of each
 * room into its places. That a room has one regime and one stretch of filling, and that
 * growers may be kept apart, is left aside, so the true least may be
 * higher, never lower.
 */
export function leastUnplaced(problem: FillProblem): number {
  const network = new FlowNetwork();
  const [source, sink] = [network.node(), network.node()];
  const rooms = problem.rooms.map((room) => {
    const node = network.node();
    network.edge(node, sink, Math.min(freePlaces(room), room.binsADay * problem.mostFillingDays));
    return { room, node, days: new Map<number, number>() };
  });
  let bins = 0;
  for (const { regimes, day, bins: arrived } of kindsOfBins(problem)) {
    bins += arrived;
    const from = network.node();
    network.edge(source, from, arrived);
    for (const { room, node, days } of rooms) {
      if (!mayHold(problem, room, regimes)) continue;
      for (let entered = day; entered <= day + problem.mostWaitingDays; entered++) {
        if (room.ready !== null && entered < room.ready) continue;
        if (room.held && entered < room.held.firstDay) continue;
        if (room.held?.sealing && entered > room.held.sealing.lastBinBy) continue;
        let at = days.get(entered);
        if (at === undefined) {
          at = network.node();
          days.set(entered, at);
          network.edge(at, node, intakeOn(room, entered));
        }
        network.edge(from, at, arrived);
      }
    }
  }
  return bins - network.mostFlow(source, sink);
}

interface KindOfBins {
  readonly regimes: readonly number[];
  readonly day: number;
  readonly bins: number;
}

/** Bins added up by picking day and the regimes that suit them. */
function kindsOfBins({ lots }: FillProblem): KindOfBins[] {
  const kinds = new Map<string, KindOfBins>();
  for (const lot of lots)
    for (const { day, bins } of lot.arrivals) {
      const regimes = regimesOf(lot);
      const key = `${day} ${regimes}`;
      kinds.set(key, { regimes, day, bins: bins + (kinds.get(key)?.bins ?? 0) });
    }
  return [...kinds.values()];
}

function regimesOf({ keeps }: LotToPlace): number[] {
  return keeps.flatMap((kept, regime) => (kept === null ? [] : [regime]));
}

function mayHold(problem: FillProblem, room: FreeRoom, regimes: readonly number[]): boolean {
  if (room.held) return regimes.includes(room.held.regime);
  return regimes.some((regime) => mayRun(problem, room, regime));
}
