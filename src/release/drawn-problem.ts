import type { DrawInputs } from './draw-inputs';
import type { DrawnSales } from './drawn-firmness';
import { drawnFilling, keptShare } from './drawn-room';
import type { Draw } from './draws';
import type { ReleaseProblem } from './types';

/** Fruit past its life, which nobody wants. */
const SOFT = { variety: '', packClass: 'soft' } as const;

/**
 * The release problem of a season drawn: what is then in the rooms, packs out and is wanted. Fruit past its life is a
 * product that nobody wants, the last one; the risk of it is counted no more, since it is known. Without `sales` buyers
 * accept what they do as planned.
 */
export function drawnProblem(
  problem: ReleaseProblem,
  inputs: DrawInputs,
  draw: Draw,
  sales?: DrawnSales,
): ReleaseProblem {
  const { products } = problem;
  const into = sales?.products ?? products;
  return {
    ...problem,
    products: [...into, SOFT],
    rooms: problem.rooms.map((room, at) => {
      const { bins, mix } = drawnFilling(problem, inputs, at, draw);
      const aBin = room.cartonsABin.map((week) =>
        week.map(
          (cartons, product) =>
            cartons * (mix.get(products[product]?.variety ?? '') ?? 1) * (draw.packout[product] ?? 1),
        ),
      );
      return {
        ...room,
        bins: room.bins * bins,
        riskCost: room.riskCost.map(() => 0),
        cartonsABin: aBin.map((week, index) => {
          const kept = keptShare(inputs, at, index, draw);
          const all = week.reduce((sum, cartons) => sum + cartons, 0);
          if (!sales) return [...week.map((cartons) => cartons * kept), all * (1 - kept)];
          const row = into.map(() => 0);
          week.forEach((cartons, product) => {
            const own = sales.productOf(at, product);
            row[own] = (row[own] ?? 0) + cartons * kept;
          });
          return [...row, all * (1 - kept)];
        }),
      };
    }),
    demands: (sales?.demands ?? problem.demands).map((demand, at) => ({
      ...demand,
      cartons: demand.cartons.map((cartons) => cartons * (draw.demand[at] ?? 1)),
    })),
  };
}
