import type { DrawInputs } from './draw-inputs';
import { type Random, seededRandom } from './random';
import type { ReleaseProblem } from './types';

/** Nine of ten of a normal distribution lie within so many standard deviations, either side. */
const NINE_OF_TEN = 1.645;
/** Nothing shrinks below this share of the plan. */
const LEAST_FACTOR = 0.05;

/** A season that could come, as factors on the plan. */
export interface Draw {
  /** Bins of a variety in a room: `crop[room].get(variety)`. */
  readonly crop: readonly ReadonlyMap<string, number>[];
  /** Time from picking until a room's fruit falls below standard. */
  readonly storageLife: readonly number[];
  /** Packout of each product. */
  readonly packout: readonly number[];
  /** Cartons that each demand takes. */
  readonly demand: readonly number[];
}

/** The season as planned. */
export function plannedDraw(problem: ReleaseProblem): Draw {
  return {
    crop: problem.rooms.map(() => new Map<string, number>()),
    storageLife: problem.rooms.map(() => 1),
    packout: problem.products.map(() => 1),
    demand: problem.demands.map(() => 1),
  };
}

/**
 * Draws seasons, the same ones for the same seed on every machine and whatever the order of the plan's entries. A
 * variety's crop and the season's storage life are half of what a room differs by, the room's own luck the other half;
 * packout goes with the variety, demand with each customer's order.
 *
 * Every second season is the mirror of the one before, as far below the plan as that is above it: the plan is then in
 * the middle of every even number of seasons, and their mean tells what the ranges cost and not which way a few hundred
 * draws happen to lean.
 */
export function* drawSeasons(
  problem: ReleaseProblem,
  { ranges, rooms }: DrawInputs,
  seed: number,
): Generator<Draw, never> {
  const random = seededRandom(seed);
  const varieties = [...new Set(problem.products.map(({ variety }) => variety))].sort();
  const roomOrder = orderOf(problem.rooms.map(({ fill }) => fill));
  const demandOrder = orderOf(problem.demands.map(({ id }) => id));
  const share = (range: number, deviations: number) =>
    Math.max(LEAST_FACTOR, 1 + (range / NINE_OF_TEN) * deviations);
  for (;;) {
    const season = normal(random);
    const ofVariety = new Map(
      varieties.map((one) => [one, { crop: normal(random), packout: normal(random) }]),
    );
    const ofRoom = drawn(roomOrder, () => ({ crop: normal(random), life: normal(random) }));
    const ofDemand = drawn(demandOrder, () => normal(random));
    const both = (one: number, other: number) => (one + other) / Math.SQRT2;
    for (const side of [1, -1]) {
      yield {
        crop: ofRoom.map(({ crop }, room) => {
          const range = ranges.crop * (rooms[room]?.estimated ?? 1);
          return new Map(
            varieties.map((one) => [one, share(range, side * both(ofVariety.get(one)?.crop ?? 0, crop))]),
          );
        }),
        storageLife: ofRoom.map(({ life }) => share(ranges.storageLife, side * both(season, life))),
        packout: problem.products.map(({ variety }) =>
          share(ranges.packout, side * (ofVariety.get(variety)?.packout ?? 0)),
        ),
        demand: ofDemand.map((deviations) => share(ranges.demand, side * deviations)),
      };
    }
  }
}

/** A sum of twelve even numbers: normal enough within three deviations, and exact on every machine. */
function normal(random: Random): number {
  let sum = -6;
  for (let count = 0; count < 12; count++) sum += random();
  return sum;
}

function orderOf(names: readonly string[]): number[] {
  return names
    .map((_, index) => index)
    .sort((a, b) => {
      const [one, other] = [names[a] ?? '', names[b] ?? ''];
      return one < other ? -1 : one > other ? 1 : a - b;
    });
}

/** Values drawn in the given order, each at its own index. */
function drawn<T>(order: readonly number[], draw: () => T): T[] {
  const values = new Array<T>(order.length);
  for (const index of order) values[index] = draw();
  return values;
}
