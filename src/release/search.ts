import { greedyOrder, placeBest, shapesFor, shapeWeights, weeksOf } from './greedy';
import { packPinned, pinnedRooms } from './pins';
import { type Random, seededRandom } from './random';
import { CLOSED, type Placement, SeasonState, spreadBins } from './season-state';
import { polishShares } from './shares';
import type { ReleaseProblem, SearchOptions } from './types';

/** Opening weeks and bins as the search leaves them. */
export interface Found {
  /** Opening week of each room, -1 where it stays closed. */
  readonly opens: Int32Array;
  /** Bins packed: `packed[room][week]`. */
  readonly packed: readonly (readonly number[])[];
}

export interface SearchHooks {
  /** Called now and then with the share of moves made and the best value so far, delivering nothing counted as 0. */
  readonly onProgress?: ((share: number, value: number) => void) | undefined;
  readonly shouldStop?: (() => boolean) | undefined;
}

/** A cooling run shorter than this finds less than a longer one; longer ones are better split in two. */
const MOVES_A_ROOM_AND_RUN = 1200;
const MOST_RUNS = 12;

/** Temperatures as shares of the mean gain of a room. */
const [HOT, COLD] = [0.2, 0.002];

/** How often the hooks are asked. */
const MOVES_BETWEEN_HOOKS = 2048;

/**
 * Looks for good opening weeks: each room placed where it brings most, then simulated annealing that moves a room,
 * swaps two, spreads one differently or leaves one closed, then the split of each room over its weeks polished. Weeks
 * are what it finds; sales follow by rule. Moves are counted, never time, so the same seed finds the same.
 */
export function searchSchedule(
  problem: ReleaseProblem,
  unmet: readonly number[],
  options: SearchOptions,
  hooks: SearchHooks = {},
): Found {
  const state = new SeasonState(problem);
  const random = seededRandom(options.seed);
  const rooms = problem.rooms.map((_, room) => room).filter((room) => !unmet.includes(room));
  placePinned(state, problem, rooms);
  placeBest(state, greedyOrder(state, rooms));
  const best = new Best(state);
  const runs = runsFor(options.moves, rooms.length);
  const moves = Math.floor(options.moves / runs);
  for (let run = 0; run < runs && rooms.length > 0; run++) {
    const stopped = anneal(state, rooms, moves, random, best, (share) => {
      hooks.onProgress?.((run + share) / runs, best.value);
      return hooks.shouldStop?.() ?? false;
    });
    best.restore(state);
    while (placeBest(state, rooms) && !stopped);
    polishShares(state, rooms);
    best.note(state);
    if (stopped) break;
  }
  best.restore(state);
  return { opens: state.opens.slice(), packed: packedByWeek(state) };
}

function runsFor(moves: number, rooms: number): number {
  return Math.max(1, Math.min(MOST_RUNS, Math.floor(moves / (MOVES_A_ROOM_AND_RUN * Math.max(1, rooms)))));
}

/** The best schedule so far, and how to go back to it. */
class Best {
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

function placePinned(state: SeasonState, problem: ReleaseProblem, rooms: readonly number[]): void {
  const pinned = pinnedRooms(problem).filter(({ room }) => rooms.includes(room));
  const bins = packPinned(problem, pinned);
  if (!bins) throw new RangeError('pinned rooms collide: conflicts must be left out before the search');
  const placements: Placement[] = pinned.map(({ room, week }) => {
    const row = new Float64Array(state.span);
    row.set(bins.get(room)?.subarray(week, week + state.emptyingWeeks(room, week)) ?? []);
    return { room, week, bins: row };
  });
  state.commit(placements, state.try(placements));
}

/** One cooling run from the present placements. True where it was stopped. */
function anneal(
  state: SeasonState,
  rooms: readonly number[],
  moves: number,
  random: Random,
  best: Best,
  report: (share: number) => boolean,
): boolean {
  const scale = Math.max(Math.abs(state.value), 1) / rooms.length;
  const cooling = (COLD / HOT) ** (1 / Math.max(1, moves));
  let temperature = HOT * scale;
  const mover = new Mover(state, rooms, random);
  for (let move = 0; move < moves; move++) {
    if (move % MOVES_BETWEEN_HOOKS === 0 && report(move / moves)) return true;
    mover.step(temperature);
    best.note(state);
    temperature *= cooling;
  }
  report(1);
  return false;
}

/** Draws moves and makes those that are accepted. */
class Mover {
  private readonly one: [{ room: number; week: number; bins: Float64Array }];
  private readonly two: [
    { room: number; week: number; bins: Float64Array },
    { room: number; week: number; bins: Float64Array },
  ];
  /** Weights by emptying weeks and shape. */
  private readonly weights: readonly (readonly number[])[][];

  constructor(
    private readonly state: SeasonState,
    private readonly rooms: readonly number[],
    private readonly random: Random,
  ) {
    const blank = () => ({ room: 0, week: CLOSED, bins: new Float64Array(state.span) });
    this.one = [blank()];
    this.two = [blank(), blank()];
    this.weights = Array.from({ length: state.span + 1 }, (_, count) =>
      Array.from({ length: shapesFor(count) }, (__, shape) => shapeWeights(shape, count)),
    );
  }

  step(temperature: number): void {
    const { state, random } = this;
    const room = this.rooms[Math.floor(random() * this.rooms.length)] as number;
    const now = state.opens[room] as number;
    const kind = random();
    const pinned = state.problem.rooms[room]?.pinned !== null;
    if (pinned) this.moveTo(room, now, temperature);
    else if (kind < 0.5 && now !== CLOSED) this.moveTo(room, now + Math.floor(random() * 7) - 3, temperature);
    else if (kind < 0.62 && now !== CLOSED) this.swap(room, temperature);
    else if (kind < 0.64 && now !== CLOSED) this.close(room, temperature);
    else if (kind < 0.76 && now !== CLOSED) this.moveTo(room, now, temperature);
    else this.moveAnywhere(room, temperature);
  }

  private moveAnywhere(room: number, temperature: number): void {
    const weeks = weeksOf(this.state, room);
    if (!weeks) return;
    this.moveTo(room, weeks.first + Math.floor(this.random() * (weeks.last - weeks.first + 1)), temperature);
  }

  private moveTo(room: number, week: number, temperature: number): void {
    const { state } = this;
    state.lift(room);
    const change = this.place(this.one[0], room, week) ? state.try(this.one) : Number.NEGATIVE_INFINITY;
    if (this.accepts(change, temperature)) state.commit(this.one, change);
    else state.putBack(room);
  }

  private close(room: number, temperature: number): void {
    const { state } = this;
    const [placement] = this.one;
    placement.room = room;
    placement.week = CLOSED;
    state.lift(room);
    const change = state.try(this.one);
    if (this.accepts(change, temperature)) state.commit(this.one, change);
    else state.putBack(room);
  }

  /** Gives each of two rooms the other's week. */
  private swap(room: number, temperature: number): void {
    const { state } = this;
    const other = this.rooms[Math.floor(this.random() * this.rooms.length)] as number;
    const [weekOfRoom, weekOfOther] = [state.opens[room] as number, state.opens[other] as number];
    if (other === room || weekOfOther === CLOSED || weekOfOther === weekOfRoom) return;
    if (state.problem.rooms[other]?.pinned !== null) return;
    const [first, second] = this.two;
    state.lift(room);
    state.lift(other);
    let fits = this.place(first, room, weekOfOther);
    if (fits) {
      this.reserve(first, 1);
      fits = this.place(second, other, weekOfRoom);
      this.reserve(first, -1);
    }
    const change = fits ? state.try(this.two) : Number.NEGATIVE_INFINITY;
    if (this.accepts(change, temperature)) {
      state.commit(this.two, change);
    } else {
      state.putBack(room);
      state.putBack(other);
    }
  }

  /** Fills in a placement with a shape drawn at random; false where week, limit or packhouse do not allow it. */
  private place(
    into: { room: number; week: number; bins: Float64Array },
    room: number,
    week: number,
  ): boolean {
    const { state } = this;
    const weeks = weeksOf(state, room);
    if (!weeks || week < weeks.first || week > weeks.last || !state.mayOpen(room, week)) return false;
    const count = state.emptyingWeeks(room, week);
    const shapes = this.weights[count] ?? [];
    const weights = shapes[Math.floor(this.random() * shapes.length)] ?? [];
    into.room = room;
    into.week = week;
    return spreadBins(state.problem.rooms[room]?.bins ?? 0, weights, state.free, week, count, into.bins);
  }

  private reserve({ room, week, bins }: Placement, sign: number): void {
    const { state } = this;
    const count = state.emptyingWeeks(room, week);
    for (let since = 0; since < count; since++) {
      state.free[week + since] = (state.free[week + since] as number) - sign * (bins[since] as number);
      state.open[week + since] = (state.open[week + since] as number) + sign;
    }
  }

  private accepts(change: number, temperature: number): boolean {
    if (change === Number.NEGATIVE_INFINITY) return false;
    return change >= 0 || this.random() < Math.exp(change / temperature);
  }
}

function packedByWeek(state: SeasonState): number[][] {
  const { weeks } = state.problem;
  return state.problem.rooms.map((_, room) => {
    const row = new Array<number>(weeks).fill(0);
    const week = state.opens[room] as number;
    if (week === CLOSED) return row;
    const count = state.emptyingWeeks(room, week);
    for (let since = 0; since < count; since++)
      row[week + since] = state.packed[room * state.span + since] ?? 0;
    return row;
  });
}
