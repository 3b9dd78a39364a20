import { allShapes, weeksOf } from './greedy';
import type { Random } from './random';
import { CLOSED, type SeasonState, spreadBins } from './season-state';

/** A placement that is filled in anew for each move. */
interface Changeable {
  room: number;
  week: number;
  readonly bins: Float64Array;
}

/** A room that moves in the same step, and its new week. */
type Beside = { readonly room: number; readonly week: number };

/** Of the moves of a search with chains, the share that shifts several rooms. */
const CHAINS = 0.1;
/** Weeks over which the rooms of a chain open, and how many there are at most. */
const [SHORTEST_CHAIN, LONGEST_CHAIN] = [2, 9];
const MOST_IN_CHAIN = 8;

/** Draws moves and makes those that are accepted. */
export class Mover {
  private readonly one: [Changeable];
  private readonly two: [Changeable, Changeable];
  private readonly chain: readonly Changeable[];
  /** Rooms that give a product of each room's: those it competes with. */
  private readonly rivals: readonly (readonly number[])[];
  /** Weights by emptying weeks and shape. */
  private readonly weights: readonly (readonly (readonly number[])[])[];

  constructor(
    private readonly state: SeasonState,
    private readonly rooms: readonly number[],
    private readonly random: Random,
    /** Whether rooms that open one after the other are shifted together now and then. */
    private readonly chains = false,
  ) {
    const blank = () => ({ room: 0, week: CLOSED, bins: new Float64Array(state.span) });
    this.rivals = rivalsOf(state, rooms);
    this.one = [blank()];
    this.two = [blank(), blank()];
    this.chain = Array.from({ length: chains ? MOST_IN_CHAIN : 0 }, blank);
    this.weights = Array.from({ length: state.span + 1 }, (_, count) => allShapes(count));
  }

  step(temperature: number): void {
    const { state, random } = this;
    const room = this.rooms[Math.floor(random() * this.rooms.length)] as number;
    const now = state.opens[room] as number;
    if (this.chains && random() < CHAINS && now !== CLOSED && this.isFree(room)) {
      this.shiftChain(room, temperature);
      return;
    }
    const kind = random();
    if (this.isPinned(room)) this.moveTo(room, now, temperature);
    else if (state.isFromField(room) && kind < 0.9) this.moveTo(room, this.anyWeek(room), temperature);
    else if (now === CLOSED || kind < 0.24) this.moveTo(room, this.anyWeek(room), temperature);
    else if (kind < 0.74) this.moveTo(room, now + Math.floor(random() * 7) - 3, temperature);
    else if (kind < 0.86) this.moveTo(room, now, temperature);
    else if (kind < 0.98) this.takePlace(room, temperature);
    else this.close(room, temperature);
  }

  private anyWeek(room: number): number {
    const weeks = weeksOf(this.state, room);
    return weeks ? weeks.first + Math.floor(this.random() * (weeks.last - weeks.first + 1)) : CLOSED;
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

  /** Opens a room in a rival's week; the rival takes its week, or any other. */
  private takePlace(room: number, temperature: number): void {
    const { state, random } = this;
    const rivals = this.rivals[room] ?? [];
    if (rivals.length === 0) return;
    const other = rivals[Math.floor(random() * rivals.length)] as number;
    const [weekOfRoom, weekOfOther] = [state.opens[room] as number, state.opens[other] as number];
    if (weekOfOther === CLOSED || weekOfOther === weekOfRoom || this.isPinned(other)) return;
    const elsewhere = random() < 0.5 ? weekOfRoom : this.anyWeek(other);
    const [first, second] = this.two;
    state.lift(room);
    state.lift(other);
    let fits = this.place(first, room, weekOfOther, { room: other, week: CLOSED });
    if (fits) {
      state.reserve(first, 1);
      fits = this.place(second, other, elsewhere, first);
      state.reserve(first, -1);
    }
    const change = fits ? state.try(this.two) : Number.NEGATIVE_INFINITY;
    if (this.accepts(change, temperature)) {
      state.commit(this.two, change);
    } else {
      state.putBack(room);
      state.putBack(other);
    }
  }

  /** Opens a room and its rivals of the weeks that follow, or lead to it, a week later, or earlier, all of them. */
  private shiftChain(room: number, temperature: number): void {
    const { state, random, chain } = this;
    const by = random() < 0.5 ? 1 : -1;
    const reach = SHORTEST_CHAIN + Math.floor(random() * (LONGEST_CHAIN - SHORTEST_CHAIN + 1));
    const now = state.opens[room] as number;
    const rooms = [room];
    for (const other of this.rivals[room] ?? []) {
      const week = state.opens[other] as number;
      const off = (week - now) * by;
      if (week === CLOSED || off < 0 || off > reach || !this.isFree(other)) continue;
      if (rooms.length < chain.length) rooms.push(other);
    }
    for (const one of rooms) state.lift(one);
    const placed: Changeable[] = [];
    const fits = rooms.every((one, at) => {
      const into = chain[at];
      // All are shifted alike, so an order among them that holds now holds then.
      if (!into || !this.place(into, one, (state.opens[one] as number) + by)) return false;
      state.reserve(into, 1);
      placed.push(into);
      return true;
    });
    for (const one of placed) state.reserve(one, -1);
    const change = fits ? state.try(placed) : Number.NEGATIVE_INFINITY;
    if (this.accepts(change, temperature)) state.commit(placed, change);
    else for (const one of rooms) state.putBack(one);
  }

  private isFree(room: number): boolean {
    return !this.isPinned(room) && !this.state.isFromField(room);
  }

  /** Fills in a placement with a shape drawn at random; false where week, limit or packhouse do not allow it. */
  private place(into: Changeable, room: number, week: number, beside?: Beside): boolean {
    const { state } = this;
    const weeks = weeksOf(state, room);
    if (!weeks || week < weeks.first || week > weeks.last || !state.mayOpen(room, week, beside)) return false;
    const shapes = this.weights[state.emptyingWeeks(room, week)] ?? [];
    const weights = shapes[Math.floor(this.random() * shapes.length)] ?? [];
    into.room = room;
    into.week = week;
    return spreadBins(state, room, weights, week, into.bins, randomShare(state, room, this.random));
  }

  private isPinned(room: number): boolean {
    return this.state.problem.rooms[room]?.pinned !== null;
  }

  private accepts(change: number, temperature: number): boolean {
    if (change === Number.NEGATIVE_INFINITY) return false;
    return change >= 0 || this.random() < Math.exp(change / temperature);
  }
}

/** How much of its fruit is packed: of fruit from the field a share drawn at random, often the whole; all of a room's. */
export function randomShare(state: SeasonState, room: number, random: Random): number {
  return state.isFromField(room) ? Math.min(1, 1.25 * random()) : 1;
}

function rivalsOf(state: SeasonState, rooms: readonly number[]): number[][] {
  const given = state.problem.rooms.map((room) =>
    state.problem.products.map((_, product) => room.cartonsABin.some((week) => (week[product] ?? 0) > 0)),
  );
  return given.map((products, room) =>
    rooms.filter(
      (other) => other !== room && products.some((gives, product) => gives && given[other]?.[product]),
    ),
  );
}
