import { finish, type Steps } from '../plan/steps';
import { Mover } from './moves';
import type { Random } from './random';
import type { SeasonState } from './season-state';

/** How often the caller is asked whether to go on. */
const MOVES_BETWEEN_REPORTS = 2048;
/** Moves of one step: about a millisecond. */
const MOVES_A_STEP = 64;

/** How many moves a run makes, and between which temperatures, as shares of the mean gain of a room. */
export interface Cooling {
  readonly moves: number;
  readonly hot: number;
  readonly cold: number;
  /** Whether rooms that open one after the other are shifted together now and then. */
  readonly chains?: boolean;
}

/** The best schedule so far, and how to go back to it. */
export class Best {
  private readonly opens: Int32Array;
  private readonly packed: Float64Array;
  value: number;

  constructor(state: SeasonState) {
    this.opens = state.opens.slice();
    this.packed = state.packed.slice();
    this.value = state.value;
  }

  note(state: SeasonState): void {
    if (state.value <= this.value) return;
    this.value = state.value;
    this.opens.set(state.opens);
    this.packed.set(state.packed);
  }

  restore(state: SeasonState): void {
    state.load(this.opens, this.packed);
    this.value = state.value;
  }
}

/** One cooling run from the present placements. True where it was stopped. */
export function anneal(
  state: SeasonState,
  rooms: readonly number[],
  cooling: Cooling,
  random: Random,
  best: Best,
  report: (share: number) => boolean,
): boolean {
  return finish(annealSteps(state, rooms, cooling, random, best, report));
}

/** The same in steps. */
export function* annealSteps(
  state: SeasonState,
  rooms: readonly number[],
  cooling: Cooling,
  random: Random,
  best: Best,
  report: (share: number) => boolean,
): Steps<boolean> {
  const { moves, hot, cold, chains } = cooling;
  const scale = Math.max(Math.abs(state.value), 1) / rooms.length;
  const cooler = (cold / hot) ** (1 / Math.max(1, moves));
  let temperature = hot * scale;
  const mover = new Mover(state, rooms, random, chains);
  for (let move = 0; move < moves; move++) {
    if (move % MOVES_BETWEEN_REPORTS === 0 && report(move / moves)) return true;
    if (move % MOVES_A_STEP === 0) yield;
    mover.step(temperature);
    best.note(state);
    temperature *= cooler;
  }
  report(1);
  return false;
}
