import { checkFill } from '../../src/fill/checker';
import type { Entry, FillProblem, FillProposal } from '../../src/fill/types';

/**
 * The least cost over every fill there is: each bin of each picking day to each room and day it may enter, or to no
 * room, in every choice of regimes. The checker alone says what a fill costs and whether it may be.
 */
export function leastCost(problem: FillProblem): number {
  let least = Number.POSITIVE_INFINITY;
  for (const regimes of choicesOf(problem.rooms.length, problem.regimes.length))
    for (const moves of everyMove(problem, 0)) least = Math.min(least, costOf(problem, regimes, moves));
  return least;
}

interface Moved extends Entry {
  readonly room: number;
}

function costOf(problem: FillProblem, regimes: readonly number[], moves: readonly Moved[]): number {
  const rooms = problem.rooms.flatMap(({ id }, index) => {
    const entries = moves.filter((move) => move.room === index).map(({ room: _, ...entry }) => entry);
    return entries.length === 0
      ? []
      : [{ room: id, regime: problem.regimes[regimes[index] ?? 0]?.name ?? '', entries }];
  });
  const unplaced = problem.lots.flatMap((lot) => {
    const placed = moves.filter((move) => move.lot === lot.id).reduce((sum, { bins }) => sum + bins, 0);
    return placed < lot.bins ? [{ lot: lot.id, bins: lot.bins - placed }] : [];
  });
  const proposal: FillProposal = { rooms, unplaced, cost: -1 };
  const [violation] = checkFill(problem, proposal);
  // Of a fill that may be, the checker finds nothing wrong but the cost, and says the right one.
  const cost = violation?.kind === 'cost' ? /is (\S+),/.exec(violation.message)?.[1] : undefined;
  return cost === undefined ? Number.POSITIVE_INFINITY : Number(cost);
}

function choicesOf(rooms: number, regimes: number): number[][] {
  if (rooms === 0) return [[]];
  const rest = choicesOf(rooms - 1, regimes);
  return Array.from({ length: regimes }, (_, regime) => rest.map((one) => [regime, ...one])).flat();
}

/** Every way the bins of the arrivals from the `index`th on may go. */
function everyMove(problem: FillProblem, index: number): Moved[][] {
  const arrivals = problem.lots.flatMap((lot) =>
    lot.arrivals.map((arrival) => ({ lot: lot.id, ...arrival })),
  );
  const arrival = arrivals[index];
  if (!arrival) return [[]];
  const targets = problem.rooms.flatMap((_, room) =>
    Array.from({ length: problem.mostWaitingDays + 1 }, (__, wait) => ({
      room,
      entered: arrival.day + wait,
    })),
  );
  const rest = everyMove(problem, index + 1);
  return spreads(arrival.bins, targets.length).flatMap((counts) => {
    const moves = targets.flatMap((target, at) =>
      counts[at] ? [{ ...target, lot: arrival.lot, picked: arrival.day, bins: counts[at] }] : [],
    );
    return rest.map((more) => [...moves, ...more]);
  });
}

/** Ways to spread at most so many bins over targets. */
function spreads(bins: number, targets: number): number[][] {
  if (targets === 0) return [[]];
  return Array.from({ length: bins + 1 }, (_, here) =>
    spreads(bins - here, targets - 1).map((rest) => [here, ...rest]),
  ).flat();
}
