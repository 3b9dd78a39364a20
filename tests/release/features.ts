import type { Random } from '../../src/release/random';
import type { DemandSource, ProblemDemand, ReleaseProblem } from '../../src/release/types';

/**
 * The season with some products told apart: part of what some rooms give becomes a second product of the same variety
 * and class, which some demands take only up to a week, or not at all.
 */
export function withProductsApart(problem: ReleaseProblem, random: Random): ReleaseProblem {
  const { weeks } = problem;
  const count = problem.products.length;
  // Always one, or there would be nothing to tell.
  const split = problem.products.map((_, product) => product === 0 || random() < 0.4);
  const second = new Map(
    split.flatMap((is, product) => (is ? [product] : [])).map((product, at) => [product, count + at]),
  );
  const demands = problem.demands.map((demand, index): ProblemDemand => {
    const other = second.get(demand.product);
    if (other === undefined) return demand;
    // Of the first demand the two always differ: products that all demands take alike would be one.
    const first = problem.demands.findIndex((one) => one.product === demand.product) === index;
    const until = (): number => (random() < 0.4 ? weeks - 1 : Math.floor(random() * (weeks + 1)) - 1);
    const from: DemandSource[] = [
      { product: demand.product, until: first || random() < 0.6 ? weeks - 1 : until() },
      { product: other, until: first ? Math.min(weeks - 2, until()) : until() },
    ];
    return { ...demand, from: from.filter((one) => one.until >= 0) };
  });
  const rooms = problem.rooms.map((room) => {
    const share = [0, 0.4, 1][Math.floor(random() * 3)] ?? 0;
    return {
      ...room,
      cartonsABin: room.cartonsABin.map((cartons) => [
        ...cartons.map((aBin, product) => (split[product] ? aBin * (1 - share) : aBin)),
        ...[...second.keys()].map((product) => (cartons[product] ?? 0) * share),
      ]),
    };
  });
  const products = [
    ...problem.products,
    ...[...second.keys()].flatMap((product) => problem.products[product] ?? []),
  ];
  return { ...problem, products, demands, rooms };
}

/** The season with emptying that ends within a week. */
export function withPartWeeks(problem: ReleaseProblem, random: Random): ReleaseProblem {
  const share = 0.2 + 0.6 * random();
  return { ...problem, lastWeekBins: problem.packingBins.map((bins) => bins * share) };
}

/** The season with a price of uneven work, one of its weeks short and one without any work. */
export function withEvenWork(problem: ReleaseProblem, price: number): ReleaseProblem {
  const full = Math.max(...problem.packingBins);
  return { ...problem, evenWork: { price, fullWeeks: problem.packingBins.map((bins) => bins / full) } };
}

/**
 * The season with fruit of one of its kinds that is in no room: there for one to three weeks, in each of which some of
 * it can be packed.
 */
export function withFruitFromField(problem: ReleaseProblem, random: Random): ReleaseProblem {
  const { weeks } = problem;
  const like = problem.rooms[Math.floor(random() * problem.rooms.length)];
  if (!like) return problem;
  const { published: _, ...room } = like;
  const bins = Math.round(room.bins * (0.2 + random()));
  const week = Math.floor(random() * (weeks - 1));
  const weeksToEmpty = Math.min(weeks - week, 1 + Math.floor(random() * 3));
  return {
    ...problem,
    rooms: [
      ...problem.rooms,
      {
        ...room,
        fill: `field ${problem.rooms.length}`,
        room: 'a lot from the field',
        bins,
        weeksToEmpty,
        earliest: week,
        latest: week,
        bestBefore: week,
        pinned: null,
        riskCost: new Array<number>(weeks).fill(0),
        fromField: {
          lot: 'L1',
          mostBins: Array.from({ length: weeksToEmpty }, () => bins * (0.2 + random())),
        },
      },
    ],
  };
}
