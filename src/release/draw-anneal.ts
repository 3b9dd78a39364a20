import type { DrawInputs } from './draw-inputs';
import { type DrawSpan, drawsOf } from './draw-tally';
import { drawnProblem } from './drawn-problem';
import { drawnFilling } from './drawn-room';
import { weeksOf } from './greedy';
import { randomShare } from './moves';
import { movable, packedIn, shapesOf, takeSchedule } from './placing';
import { type Random, seededRandom } from './random';
import { CLOSED, type Placement, SeasonState, spreadBins } from './season-state';
import type { ReleaseProblem, ReleaseSchedule } from './types';

export interface AnnealOptions {
  readonly span: DrawSpan;
  readonly seed: number;
  readonly moves: number;
  readonly unmet: readonly number[];
}

/** Opening weeks and bins as found: -1 for a room left closed. */
export interface Annealed {
  readonly opens: readonly number[];
  readonly packed: readonly (readonly number[])[];
}

/**
 * Temperatures as shares of the mean gain of a room. The start is a good schedule already: hotter loses it, and the
 * search has been there.
 */
const [HOT, COLD] = [0.02, 0.001];

/**
 * Simulated annealing from a schedule at hand on the mean of some seasons drawn, sales by the search's rule. Moves are
 * counted, never time, so the same seed finds the same.
 */
export function annealAcross(
  problem: ReleaseProblem,
  start: ReleaseSchedule,
  inputs: DrawInputs,
  { span, seed, moves, unmet }: AnnealOptions,
): Annealed {
  const rooms = movable(problem, unmet);
  const seasons = new Seasons(problem, start, inputs, span);
  const random = seededRandom(seed);
  let best = seasons.kept();
  if (rooms.length === 0) return best;
  const scale = Math.max(1, Math.abs(seasons.value)) / problem.rooms.length;
  const cooling = (COLD / HOT) ** (1 / Math.max(1, moves));
  let [temperature, bestValue, value] = [HOT * scale, seasons.value, seasons.value];
  for (let move = 0; move < moves; move++) {
    const change = seasons.step(rooms, random, (one) => one >= 0 || random() < Math.exp(one / temperature));
    value += change;
    if (value > bestValue + 1e-6) {
      bestValue = value;
      best = seasons.kept();
    }
    temperature *= cooling;
  }
  return best;
}

/** The season as planned, which says what may be done, and those drawn, which say what it is worth. */
class Seasons {
  private readonly planned: SeasonState;
  private readonly drawn: readonly { readonly state: SeasonState; readonly bins: readonly number[] }[];

  constructor(problem: ReleaseProblem, start: ReleaseSchedule, inputs: DrawInputs, span: DrawSpan) {
    this.planned = new SeasonState(problem);
    takeSchedule(this.planned, start);
    this.drawn = [...drawsOf(problem, inputs, span)].map((draw) => {
      const state = new SeasonState(drawnProblem(problem, inputs, draw));
      const bins = problem.rooms.map((_, room) => drawnFilling(problem, inputs, room, draw).bins);
      problem.rooms.forEach((_, room) => {
        const week = this.planned.opens[room] as number;
        if (week === CLOSED) return;
        const from = room * this.planned.span;
        const placement = this.scaled(
          { room, week, bins: this.planned.packed.subarray(from, from + this.planned.span) },
          bins,
        );
        state.commit([placement], state.try([placement]));
      });
      return { state, bins };
    });
  }

  /** Mean over the seasons drawn; delivering nothing counts as 0. */
  get value(): number {
    return this.drawn.reduce((sum, { state }) => sum + state.value, 0) / Math.max(1, this.drawn.length);
  }

  kept(): Annealed {
    return { opens: Array.from(this.planned.opens), packed: packedIn(this.planned) };
  }

  /** Tries one move and makes it where it is accepted; the change of the mean, 0 where it is not made. */
  step(rooms: readonly number[], random: Random, accepts: (change: number) => boolean): number {
    const room = rooms[Math.floor(random() * rooms.length)] ?? 0;
    const now = this.planned.opens[room] as number;
    const kind = random();
    const weeks = weeksOf(this.planned, room);
    if (!weeks) return 0;
    const anyWeek = weeks.first + Math.floor(random() * (weeks.last - weeks.first + 1));
    const near = now + Math.floor(random() * 7) - 3;
    if (kind > 0.75 && now !== CLOSED) {
      const other = rooms[Math.floor(random() * rooms.length)] ?? room;
      const there = this.planned.opens[other] as number;
      if (other === room || there === CLOSED || there === now) return 0;
      return this.made(
        [
          { room, week: there },
          { room: other, week: now },
        ],
        random,
        accepts,
      );
    }
    return this.made([{ room, week: now === CLOSED || kind < 0.2 ? anyWeek : near }], random, accepts);
  }

  private made(
    moves: readonly { readonly room: number; readonly week: number }[],
    random: Random,
    accepts: (change: number) => boolean,
  ): number {
    const { planned } = this;
    const before = moves.map(({ room }) => this.placed(room));
    for (const { room } of moves) planned.lift(room);
    const placements: Placement[] = [];
    for (const { room, week } of moves) {
      const placement = this.placement(room, week, random);
      if (!placement) break;
      planned.commit([placement], planned.try([placement]));
      placements.push(placement);
    }
    const fits = placements.length === moves.length;
    const change = fits
      ? this.drawn.reduce(
          (sum, { state, bins }) => sum + state.try(placements.map((one) => this.scaled(one, bins))),
          0,
        ) / Math.max(1, this.drawn.length)
      : Number.NEGATIVE_INFINITY;
    if (fits && accepts(change)) {
      for (const { state, bins } of this.drawn) {
        for (const { room } of placements) state.lift(room);
        const scaled = placements.map((one) => this.scaled(one, bins));
        state.commit(scaled, state.try(scaled));
      }
      return change;
    }
    for (const { room } of placements) planned.lift(room);
    planned.commit(before, planned.try(before));
    return 0;
  }

  private placed(room: number): Placement {
    const { planned } = this;
    const from = room * planned.span;
    return {
      room,
      week: planned.opens[room] as number,
      bins: planned.packed.slice(from, from + planned.span),
    };
  }

  private placement(room: number, week: number, random: Random): Placement | undefined {
    const { planned } = this;
    const weeks = weeksOf(planned, room);
    if (!weeks || week < weeks.first || week > weeks.last || !planned.mayOpen(room, week)) return undefined;
    const count = planned.emptyingWeeks(room, week);
    const bins = new Float64Array(planned.span);
    const shapes = shapesOf(count);
    const weights = shapes[Math.floor(random() * shapes.length)] ?? [];
    const share = randomShare(planned, room, random);
    return spreadBins(planned, room, weights, week, bins, share) ? { room, week, bins } : undefined;
  }

  private scaled({ room, week, bins }: Placement, share: readonly number[]): Placement {
    return { room, week, bins: bins.map((one) => one * (share[room] ?? 1)) };
  }
}
