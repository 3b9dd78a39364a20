import type { Ascent } from './ascent';
import { gapOf } from './gap';
import { boundOfParts } from './parts-certificate';
import { PriceBranching } from './price-branching';
import type { PricedAgain } from './price-certificate';
import type { PartsProof } from './price-tree';
import { pricedParts } from './priced-parts';
import { NO_GAP } from './prove';
import type { ReleaseProblem } from './types';
import { SECONDS_A_SLOT } from './work';

/** Cases that the part gets in a round whose bound falls fastest; every other gets one. */
const OF_FASTEST = 8;
/** How much of a case's fall goes into how fast a part is taken to fall. */
const OF_LAST_FALL = 0.08;

/** The season's parts, each with its cases. */
export class PartsByPrices {
  private readonly branching: readonly PriceBranching[];
  private readonly constant: number;
  private readonly rooms;
  /** How much a case lowers the bound of each part, of late. */
  private readonly falls: number[];

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

  /** Seconds of work so far, by the slots that were looked at. */
  get seconds(): number {
    return SECONDS_A_SLOT * this.branching.reduce((sum, one) => sum + one.slots, 0);
  }
}

/** What a proof by cases at prices is held to. */
export interface PricedProofLimits {
  readonly mostCases: number;
  readonly shouldStop: () => boolean;
  /** The season looked at again at the ascent's prices, for the check of what is proven. */
  readonly checked: () => PricedAgain;
}

/** What is known of the season's schedule, and how far cases may go by it. */
export interface Searched {
  readonly value: number;
  /** Gap, as a share, that is good enough. */
  readonly gap: number;
  /** Seconds of counted work that cases may take in all. */
  readonly seconds: number;
  /** Whether these are all that there are, so that a bound is wanted whatever it is. */
  readonly isLast: boolean;
}

/** How far cases came. */
export interface PricedCases {
  /** What they prove; absent where there is more to come, since to prove it takes a while. */
  readonly bound: number | undefined;
  /** Whether counted seconds ended them. */
  readonly limited: boolean;
}

/**
 * Branch and bound at fixed prices of what varieties share, without the solver, in two stretches: some ahead, while it is
 * not known yet what the season's schedule brings, then the rest, until the gap to that is small enough, nothing is left to
 * take apart, or cases or counted seconds run out.
 */
export class PricedProof {
  private readonly parts: PartsByPrices;

  constructor(
    private readonly problem: ReleaseProblem,
    private readonly unmet: readonly number[],
    ascent: Ascent,
    private readonly limits: PricedProofLimits,
  ) {
    this.parts = new PartsByPrices(problem, ascent);
  }

  /** Takes cases apart until so many seconds have been counted in all. */
  ahead(seconds: number): void {
    this.goOn(seconds, () => false);
  }

  /** Goes on until so many seconds have been counted in all, or a schedule of the value is within the gap. */
  until({ value, gap, seconds, isLast }: Searched, onProgress: (share: number) => void): PricedCases {
    const enough = () => gapOf(value, Math.max(this.parts.bound, value)) <= Math.max(gap, NO_GAP);
    const limited = this.goOn(seconds, enough, onProgress);
    if (limited && !isLast) return { bound: undefined, limited };
    return {
      bound: boundOfParts(this.problem, this.unmet, this.parts.proof, this.limits.checked()),
      limited,
    };
  }

  /** True where seconds were what ended it. */
  private goOn(
    seconds: number,
    enough: () => boolean,
    onProgress: (share: number) => void = () => {},
  ): boolean {
    const { parts } = this;
    const { mostCases, shouldStop } = this.limits;
    const hasTime = () => parts.seconds < seconds;
    const goesOn = () => parts.cases < mostCases && hasTime() && !shouldStop();
    while (goesOn() && !enough()) {
      if (!parts.round(goesOn)) return false;
      onProgress(Math.max(parts.cases / mostCases, Math.min(1, parts.seconds / seconds)));
    }
    return !hasTime() && !enough();
  }
}
