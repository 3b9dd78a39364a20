import type { DemandSource, ProblemDemand, ReleaseProblem, ReleaseSchedule } from './types';

/** The products a demand may be filled from: those it names, else its own in every week. */
export function sourcesOf(problem: ReleaseProblem, demand: ProblemDemand): readonly DemandSource[] {
  return demand.from ?? [{ product: demand.product, until: problem.weeks - 1 }];
}

/** Cartons that a demand takes of each of its sources, by week. */
export function takenBy(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  demand: number,
): readonly { readonly product: number; readonly cartons: readonly number[] }[] {
  const one = problem.demands[demand];
  if (!one) return [];
  if (!one.from) return [{ product: one.product, cartons: schedule.sold[demand] ?? [] }];
  return one.from.map(({ product }, source) => ({
    product,
    cartons: schedule.soldFrom?.[demand]?.[source] ?? [],
  }));
}

/** Cartons of each product that are sold in each week: `[product][week]`. */
export function soldByProduct(problem: ReleaseProblem, schedule: ReleaseSchedule): Float64Array[] {
  const sold = problem.products.map(() => new Float64Array(problem.weeks));
  problem.demands.forEach((_, demand) => {
    for (const { product, cartons } of takenBy(problem, schedule, demand)) {
      const into = sold[product];
      if (!into) continue;
      for (let week = 0; week < problem.weeks; week++)
        into[week] = (into[week] as number) + (cartons[week] ?? 0);
    }
  });
  return sold;
}

/** A row of zeros for each source of each demand that names its sources. */
export function nothingSoldFrom(problem: ReleaseProblem): Float64Array[][] {
  return problem.demands.map(({ from }) => (from ?? []).map(() => new Float64Array(problem.weeks)));
}

/** `soldFrom` of a schedule, where some demand names its sources. */
export function soldFromPart(
  problem: ReleaseProblem,
  soldFrom: readonly (readonly ArrayLike<number>[])[],
): Pick<ReleaseSchedule, 'soldFrom'> {
  if (!problem.demands.some(({ from }) => from)) return {};
  return { soldFrom: soldFrom.map((sources) => sources.map((row) => Array.from(row))) };
}

/**
 * Products in groups that no demand reaches across: what is sold of one group changes nothing for another. Products of
 * a variety and class are one group where a demand may be filled from several of them.
 */
export function poolsOf(problem: ReleaseProblem): readonly (readonly number[])[] {
  const root = problem.products.map((_, product) => product);
  const find = (product: number): number => {
    let at = product;
    while (root[at] !== at) at = root[at] ?? at;
    return at;
  };
  for (const demand of problem.demands) {
    const [first, ...others] = sourcesOf(problem, demand);
    for (const other of others) {
      const [one, two] = [find(first?.product ?? 0), find(other.product)];
      root[Math.max(one, two)] = Math.min(one, two);
    }
  }
  const pools = new Map<number, number[]>();
  problem.products.forEach((_, product) => {
    const at = find(product);
    pools.set(at, [...(pools.get(at) ?? []), product]);
  });
  return [...pools.values()];
}
