import type { Ascent } from './ascent';
import type { Budget } from './budget';
import { gapOf } from './gap';
import type { Incumbent } from './incumbent';
import { boundOfParts, PRICED_CASES_REST_ON } from './parts-certificate';
import { PriceBranching } from './price-branching';
import type { PartsProof } from './price-tree';
import { pricedParts } from './priced-parts';
import type { ProveOptions } from './prove';
import { NO_GAP, TIME_LIMIT } from './prove';
import type { ReleaseProblem } from './types';

/** What looking at a slot is counted as, so that a time limit means the same on every machine: measured, and rounded up. */
const SECONDS_A_SLOT = 8e-8;

export type ProveByPricesOptions = Omit<ProveOptions, 'polish'>;

/** The season's parts, each with its cases. */
export class PartsByPrices {
  private readonly branching: readonly PriceBranching[];
  private readonly constant: number;
  private readonly rooms;
  private counted = 0;

  constructor(
    problem: ReleaseProblem,
    private readonly ascent: Ascent,
  ) {
    const { season, shared, prices, flatPrices } = ascent;
    this.rooms = pricedParts(problem, season, shared, prices);
    this.branching = this.rooms.map((part) => new PriceBranching(part, flatPrices));
    const weeks = flatPrices.length - prices.wanted.length;
    let constant = season.constant;
    for (let at = 0; at < weeks; at++) constant += (flatPrices[at] ?? 0) * (shared.amounts[at] ?? 0);
    this.constant = constant;
  }

  /** The bound as the cases stand; `proof` is what proves it. */
  get bound(): number {
    return this.branching.reduce((sum, { bound }) => sum + bound, this.constant);
  }

  get cases(): number {
    return this.branching.reduce((sum, { cases }) => sum + cases, 0);
  }

  get proof(): PartsProof {
    const parts = this.rooms.map(({ products, rooms }, at) => ({
      products,
      rooms,
      tree: this.branching[at]?.tree ?? { kind: 'leaf' as const, wanted: this.ascent.prices.wanted },
    }));
    return { prices: this.ascent.prices, parts };
  }

  /** One case more in each part, as long as `goesOn`. False where nothing is left to take apart. */
  round(goesOn: () => boolean): boolean {
    const before = this.cases;
    for (const one of this.branching) if (!one.done && goesOn()) one.step();
    return this.cases > before;
  }

  /** Takes the time of what was looked at since last asked. */
  spend(time: Budget): void {
    const slots = this.branching.reduce((sum, one) => sum + one.slots, 0);
    time.spend((slots - this.counted) * SECONDS_A_SLOT);
    this.counted = slots;
  }
}

/**
 * Lowers the bound by branch and bound at fixed prices of what varieties share, without the solver, until the gap is small
 * enough, nothing is left to take apart, or cases or time run out. Time is counted by what is looked at, so it repeats.
 */
export function proveByPrices(
  problem: ReleaseProblem,
  unmet: readonly number[],
  ascent: Ascent,
  best: Incumbent,
  { gap, mostCases, time, shouldStop, onProgress }: ProveByPricesOptions,
): void {
  if (time.spent) return;
  const parts = new PartsByPrices(problem, ascent);
  parts.spend(time);
  const goesOn = () => parts.cases < mostCases && !time.spent && !shouldStop();
  const enough = () => gapOf(best.value, Math.max(parts.bound, best.value)) <= Math.max(gap, NO_GAP);
  while (goesOn() && !enough() && parts.round(goesOn)) {
    parts.spend(time);
    onProgress(parts.cases / mostCases);
  }
  const bound = boundOfParts(problem, unmet, parts.proof);
  best.limit(bound, PRICED_CASES_REST_ON + (time.spent ? TIME_LIMIT : ''));
}
