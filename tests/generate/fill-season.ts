import { fillProblem } from '../../src/fill/problem';
import type { FillProblem, LotToPlace } from '../../src/fill/types';
import { fruitData } from '../../src/fruit/data';
import { readPlan } from '../../src/plan/read';
import { generateSeason } from './season';

export interface FillSeason {
  readonly rooms: number;
  readonly seed: number;
  /** Bins of the harvest for each place of the rooms. */
  readonly load: number;
}

/**
 * The harvest of a generated season waiting for its rooms, none filled yet, each lot made larger or smaller so that so
 * many bins come for each place. Which rooms a planner would fill with what is forgotten, but for the days they are ready.
 */
export function fillSeason({ rooms, seed, load }: FillSeason): FillProblem {
  const plan = { ...readPlan(generateSeason({ rooms, seed })), fills: new Map() };
  const problem = fillProblem(plan, fruitData(plan));
  const sum = (list: readonly number[]) => list.reduce((total, one) => total + one, 0);
  const factor =
    (load * sum(problem.rooms.map(({ places }) => places))) / sum(problem.lots.map(({ bins }) => bins));
  return { ...problem, lots: problem.lots.map((lot) => resized(lot, factor)) };
}

function resized(lot: LotToPlace, factor: number): LotToPlace {
  let [before, after] = [0, 0];
  const arrivals = lot.arrivals.map(({ day, bins }) => {
    before += bins;
    const now = Math.round(before * factor) - after;
    after += now;
    return { day, bins: now };
  });
  return { ...lot, arrivals: arrivals.filter(({ bins }) => bins > 0), bins: after, allBins: after };
}
