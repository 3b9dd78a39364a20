import { releaseProblem } from '../release/problem';
import type { JudgedSeason } from './types';

/**
 * In the place of a schedule once no fruit is left: nothing more is packed, and orders of weeks to come get what waits in
 * the cold store. Undefined where no packing is recorded, or the plan lacks what a schedule needs.
 */
export function releaseOfRecords({ plan, keeping }: JudgedSeason): JudgedSeason['release'] {
  const problem = releaseProblem(plan, keeping, { ofRecords: true });
  if (!problem?.standing?.isPacked || problem.rooms.length > 0) return undefined;
  const { demands, products, weeks } = problem;
  const nothing = new Array<number>(weeks).fill(0);
  const value = -demands.reduce(
    (all, { cartons, priceOfShortage }) =>
      all + priceOfShortage * cartons.reduce((sum, wanted) => sum + wanted, 0),
    0,
  );
  const schedule = {
    opens: [],
    packed: [],
    sold: demands.map(() => nothing),
    processed: products.map(() => nothing),
    // None, not less than none.
    value: value === 0 ? 0 : value,
  };
  const result = { schedule, bound: schedule.value, gap: 0, provenOptimal: true, conflicts: [] };
  return { problem, result: { ...result, boundRestsOn: 'the records: no fruit is left' } };
}
