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
import { SECONDS_A_SLOT } from './work';

/** Cases that the part gets in a round whose bound falls fastest; every other gets one. */
const OF_FASTEST = 8;
/** How much of a case's fall goes into how fast a part is taken to fall. */
const OF_LAST_FALL = 0.08;

export type ProveByPricesOptions = Omit<ProveOptions, 'polish'>;

/** The season's parts, each with its cases. */
export class PartsByPrices {
  private readonly branching: readonly PriceBranching[];
  private readonly constant: number;
  private readonly rooms;
  /** How much a case lowers the bound of each part, of late. */
  private readonly falls: number[];
  private counted = 0;

  constructor(
    problem: ReleaseProblem,
    private readonly ascent: Ascent,
  ) {
    const { season, shared, prices, flatPrices } = ascent;
    this.rooms = pricedParts(problem, season, shared, prices);
    this.branching = this.rooms.map((part) => new PriceBranching(part, flatPrices));
    this.falls = this.branching.map(() => 0);
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

  /**
   * One case more in each part and some in the one whose bound falls fastest, as long as `goesOn`. False where nothing
   * is left to take apart.
   */
  round(goesOn: () => boolean): boolean {
    const before = this.cases;
    for (let part = 0; part < this.branching.length; part++) this.step(part, goesOn);
    const fastest = this.falls.indexOf(Math.max(...this.falls));
    for (let more = 0; more < OF_FASTEST; more++) this.step(fastest, goesOn);
    return this.cases > before;
  }

  private step(part: number, goesOn: () => boolean): void {
    const one = this.branching[part];
    if (!one || one.done || !goesOn()) return;
    const before = one.bound;
    one.step();
    const fell = one.done ? 0 : before - one.bound;
    this.falls[part] = (this.falls[part] ?? 0) * (1 - OF_LAST_FALL) + OF_LAST_FALL * fell;
    if (one.done) this.falls[part] = 0;
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
 * enough, nothing is left to take apart, or cases or counted seconds run out.
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
