import { finish, type Steps } from '../plan/steps';
import { CLOSED, type Placement, type SeasonState, spreadBins } from './season-state';

/** Ways to spread a room's bins over the weeks it stands open: evenly, or leaning to one end. */
const SHAPES: readonly ((since: number, count: number) => number)[] = [
  () => 1,
  (since, count) => count - since,
  (since) => since + 1,
  (since) => (since === 0 ? 1 : 0),
  (since, count) => (since === count - 1 ? 1 : 0),
];

/** Number of shapes worth trying for an emptying of so many weeks. */
export function shapesFor(count: number): number {
  return count === 1 ? 1 : SHAPES.length;
}

/** Relative bins of each week. */
export function shapeWeights(shape: number, count: number): number[] {
  const weight = SHAPES[shape] ?? SHAPES[0];
  return Array.from({ length: count }, (_, since) => weight?.(since, count) ?? 1);
}

/** Relative bins of each week, of every shape worth trying. */
export function allShapes(count: number): readonly (readonly number[])[] {
  return Array.from({ length: shapesFor(count) }, (_, shape) => shapeWeights(shape, count));
}

/** Shares of fruit from the field that are tried. */
const SHARES_FROM_FIELD = [1, 0.75, 0.5, 0.25, 0.1] as const;
const WHOLE = [1] as const;

/** Shares of a room's bins that are worth trying to pack: all of them, but for fruit from the field. */
export function sharesFor(state: SeasonState, room: number): readonly number[] {
  return state.isFromField(room) ? SHARES_FROM_FIELD : WHOLE;
}

/** First and last week a room may take: its window, or its pin alone. Undefined where there is none. */
export function weeksOf(
  state: SeasonState,
  room: number,
): { readonly first: number; readonly last: number } | undefined {
  const one = state.problem.rooms[room];
  if (!one) return undefined;
  const { earliest, latest, pinned } = one;
  if (pinned === null) return earliest <= latest ? { first: earliest, last: latest } : undefined;
  return pinned >= earliest && pinned <= latest ? { first: pinned, last: pinned } : undefined;
}

/**
 * Places each room of `order` where it brings most, one after the other, every week and shape tried. A room stays as
 * it is where nothing is better.
 */
export function placeBest(state: SeasonState, order: readonly number[]): boolean {
  return finish(placeBestSteps(state, order));
}

/** The same in steps, a room each. */
export function* placeBestSteps(state: SeasonState, order: readonly number[]): Steps<boolean> {
  let improved = false;
  const trial = { room: 0, week: 0, bins: new Float64Array(state.span) };
  const best = { room: 0, week: CLOSED, bins: new Float64Array(state.span) };
  const asOne: [Placement] = [trial];
  for (const room of order) {
    yield;
    state.lift(room);
    let bestChange = 1e-6;
    best.week = CLOSED;
    eachPlacement(state, room, trial, () => {
      const change = state.try(asOne);
      if (change <= bestChange) return;
      bestChange = change;
      best.week = trial.week;
      best.bins.set(trial.bins);
    });
    if (best.week === CLOSED) {
      state.putBack(room);
      continue;
    }
    best.room = room;
    state.commit([best], state.try([best]));
    improved = true;
  }
  return improved;
}

function eachPlacement(
  state: SeasonState,
  room: number,
  trial: { room: number; week: number; bins: Float64Array },
  visit: () => void,
): void {
  const weeks = weeksOf(state, room);
  if (!weeks) return;
  trial.room = room;
  let weights: readonly (readonly number[])[] = [];
  for (let week = weeks.first; week <= weeks.last; week++) {
    if (!state.mayOpen(room, week)) continue;
    trial.week = week;
    const count = state.emptyingWeeks(room, week);
    if (weights[0]?.length !== count) weights = allShapes(count);
    for (const share of sharesFor(state, room)) {
      for (const shape of weights) if (spreadBins(state, room, shape, week, trial.bins, share)) visit();
    }
  }
}

/** The order rooms are placed in: those that must leave first, then the larger, then by fill. */
export function greedyOrder(state: SeasonState, rooms: readonly number[]): number[] {
  const all = state.problem.rooms;
  const latest = (room: number) => all[room]?.latest ?? 0;
  const bins = (room: number) => all[room]?.bins ?? 0;
  return [...rooms].sort((a, b) => latest(a) - latest(b) || bins(b) - bins(a) || a - b);
}
