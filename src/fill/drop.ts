import { type LoadPart, loadOf } from './load';
import { Choices, refill } from './refill';
import { FillState } from './state';
import type { FillProblem, FillProposal, ProposedRoom } from './types';

/** What is taken out of a proposal: a lot out of a room, or all that it puts into the room. */
export interface Dropped {
  readonly room: string;
  /** Undefined for all of the room. */
  readonly lot?: string | undefined;
}

/** The proposal as the search has it. A room whose bins could not go in as it says is left empty. */
export function stateOf(problem: FillProblem, proposal: FillProposal): FillState {
  const state = new FillState(problem);
  for (const proposed of proposal.rooms) {
    const room = problem.rooms.findIndex(({ id }) => id === proposed.room);
    const regime = problem.regimes.findIndex(({ name }) => name === proposed.regime);
    const at = problem.rooms[room];
    const load = at && loadOf(problem, at, regime, partsOf(problem, proposed));
    if (load) state.set(room, load);
  }
  return state;
}

function partsOf(problem: FillProblem, { entries }: ProposedRoom): LoadPart[] {
  return [...new Set(entries.map(({ lot }) => lot))].map((id) => {
    const lot = problem.lots.findIndex((one) => one.id === id);
    const byArrival = (problem.lots[lot]?.arrivals ?? []).map(({ day }) =>
      entries
        .filter((entry) => entry.lot === id && entry.picked === day)
        .reduce((sum, { bins }) => sum + bins, 0),
    );
    return { lot, byArrival, bins: byArrival.reduce((sum, bins) => sum + bins, 0) };
  });
}

/** The fill without what is dropped; nothing takes its places. */
export function without(found: FillState, dropped: readonly Dropped[]): FillState {
  const state = found.copy();
  const { problem } = state;
  problem.rooms.forEach((at, room) => {
    const mine = dropped.filter((one) => one.room === at.id);
    const load = state.loads[room];
    if (mine.length === 0 || !load) return;
    const lots = new Set(mine.map(({ lot }) => lot));
    const rest = lots.has(undefined)
      ? []
      : load.parts.filter(({ lot }) => !lots.has(problem.lots[lot]?.id ?? ''));
    const fewer = rest.length > 0 ? loadOf(problem, at, load.regime, rest) : undefined;
    state.empty(room);
    if (fewer) state.set(room, fewer);
  });
  return state;
}

/**
 * The fill with lots left over put where there are places: those that were dropped into other rooms than theirs, and
 * nothing into a room that was dropped as a whole. Only those of `among`, where it is given.
 */
export function placedElsewhere(
  found: FillState,
  dropped: readonly Dropped[],
  among?: readonly number[],
): FillState {
  const state = found.copy();
  const { problem } = state;
  const closed = new Set(dropped.map(({ room, lot }) => `${room}/${lot}`));
  const emptied = new Set(dropped.map(({ room }) => room));
  const left = among ?? lotsLeft(state);
  const isEmptied = (room: number) => !found.loads[room] && emptied.has(problem.rooms[room]?.id ?? '');
  refill(
    state,
    new Choices(problem),
    left,
    () => 0,
    0,
    (room, lot) => {
      return !isEmptied(room) && !closed.has(`${problem.rooms[room]?.id}/${problem.lots[lot]?.id}`);
    },
  );
  return state;
}

/** Lots with bins left over, those with most first. */
export function lotsLeft({ problem, leftBins }: FillState): number[] {
  const left = problem.lots.map((_, lot) => lot).filter((lot) => (leftBins[lot] ?? 0) > 0);
  return left.sort((a, b) => (leftBins[b] ?? 0) - (leftBins[a] ?? 0) || a - b);
}

/** The fill with what is left over of these lots put into one room beside what is in it, as far as it can go in. */
export function placedInto(found: FillState, room: string, lots: readonly string[]): FillState {
  const state = found.copy();
  const { problem } = state;
  const into = problem.rooms.findIndex(({ id }) => id === room);
  const order = lots.map((id) => problem.lots.findIndex((one) => one.id === id)).filter((lot) => lot >= 0);
  refill(
    state,
    new Choices(problem),
    order,
    () => 0,
    0,
    (at) => at === into,
  );
  return state;
}
