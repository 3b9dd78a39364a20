import { loadOf } from './load';
import { lotsOf } from './new-fills';
import { Choices } from './refill';
import type { FillProblem, FillProposal } from './types';

/** A lot that the proposal puts into more than one room, or of which it leaves bins over beside those in a room. */
export interface BrokenLot {
  readonly lot: string;
  readonly rooms: readonly string[];
  /** Bins of it that find no room, though others do. */
  readonly leftOver: number;
  /**
   * Forced: no room could take it whole, were it empty, by its places, its days and what may come in on a day. Chosen: it
   * stands in two rooms so that fewer bins are left over, or fewer rooms used.
   */
  readonly kind: 'forced' | 'chosen';
}

export function brokenLots(problem: FillProblem, { rooms, unplaced }: FillProposal): BrokenLot[] {
  const choices = new Choices(problem);
  return problem.lots.flatMap((one, lot) => {
    const into = rooms.filter((room) => lotsOf(room).some(({ lot: id }) => id === one.id));
    const leftOver = unplaced.find(({ lot: id }) => id === one.id)?.bins ?? 0;
    if (into.length === 0 || into.length + (leftOver > 0 ? 1 : 0) < 2) return [];
    const kind = fitsWhole(problem, choices, lot) ? 'chosen' : 'forced';
    return [{ lot: one.id, rooms: into.map(({ room }) => room), leftOver, kind }];
  });
}

/** Whether no room could take the lot whole, were it empty. */
export function isForced(problem: FillProblem, id: string): boolean {
  const lot = problem.lots.findIndex((one) => one.id === id);
  return lot >= 0 && !fitsWhole(problem, new Choices(problem), lot);
}

function fitsWhole(problem: FillProblem, choices: Choices, lot: number): boolean {
  const one = problem.lots[lot];
  if (!one) return false;
  const part = { lot, bins: one.bins, byArrival: one.arrivals.map(({ bins }) => bins) };
  return problem.rooms.some((room, index) =>
    (choices.regimesOf[lot] ?? []).some(
      (regime) => choices.mayHold(index, regime) && loadOf(problem, room, regime, [part]) !== undefined,
    ),
  );
}
