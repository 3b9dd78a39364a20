import { type Ascent, ascend, type LikelyOpening } from './ascent';
import { Budget } from './budget';
import type { LoadHighs } from './linear';
import { seasonModel } from './model';
import { boundAtPrices, PricedAgain } from './price-certificate';
import { MOST_CASES } from './proof-sizes';
import { type PricedCases, PricedProof, type Searched } from './prove-by-prices';
import { relaxationBound } from './relaxation-bound';
import { searchSchedule } from './search';
import { settledSchedule } from './settle';
import type { ReleaseProblem } from './types';

/** Turns of the ascent: about where it stops falling on made-up seasons of 60 rooms. */
const TURNS = 300;

/**
 * Seconds of cases that are looked at while a move of the search is made: about as long as the move takes. They are
 * counted and not timed, so that it is the same whether search and cases have a thread each or share one.
 */
const AHEAD_A_MOVE = 4e-6;

/**
 * Seconds of cases that lower the bound next to nothing: where the search takes no longer than that, looking at them ahead
 * would only take the processor from it.
 */
const TOO_FEW_SECONDS = 0.3;

/** Seconds of cases that do not wait for the search. */
export function secondsAhead({ moves, timeLimitSeconds }: PricingOptions): number {
  const seconds = Math.min(timeLimitSeconds, AHEAD_A_MOVE * moves);
  return seconds > TOO_FEW_SECONDS ? seconds : 0;
}

/**
 * What a search asks of prices. Asked here, each answer is worked out when it is asked for; asked of another thread, all of
 * it has been under way since that thread started. The answers are the same. They are asked for in this order, all but the
 * last at most once, and any may be left out.
 */
export interface Pricing {
  /** Weeks that rooms open in where prices decide. */
  openings(): Promise<readonly LikelyOpening[]>;
  /** A limit on the value of any schedule that the prices prove. */
  bound(): Promise<number>;
  /** A limit from the relaxation of the whole season, proved by its multipliers: for many rooms. */
  relaxed(): Promise<number>;
  /** A limit from cases at prices: for some rooms. Asked again with more seconds, it goes on. */
  cases(searched: Searched, onProgress: (share: number) => void): Promise<PricedCases>;
}

/** What a solve is told, as far as it matters here. */
export interface PricingOptions {
  readonly moves: number;
  readonly timeLimitSeconds: number;
  readonly mostCases?: number | undefined;
}

export interface PricingHooks {
  readonly loadHighs: LoadHighs;
  readonly shouldStop?: (() => boolean) | undefined;
}

/** Works the answers out, each when it is asked for. */
export class PricingHere implements Pricing {
  private ascent: Ascent | undefined;
  private again: PricedAgain | undefined;
  private proof: PricedProof | undefined;

  constructor(
    private readonly problem: ReleaseProblem,
    private readonly unmet: readonly number[],
    private readonly options: PricingOptions,
    private readonly hooks: PricingHooks,
  ) {}

  async openings(): Promise<readonly LikelyOpening[]> {
    return this.ascended().openings;
  }

  async bound(): Promise<number> {
    const { prices } = this.ascended();
    return boundAtPrices(this.problem, this.unmet, prices, this.checked());
  }

  async relaxed(): Promise<number> {
    const { linear } = seasonModel(this.problem, this.unmet, false);
    const time = new Budget(this.options.timeLimitSeconds);
    return relaxationBound(await this.hooks.loadHighs(), linear, ['corner'], time).bound;
  }

  async cases(searched: Searched, onProgress: (share: number) => void): Promise<PricedCases> {
    return this.casesAhead().until(searched, onProgress);
  }

  /** Takes those cases apart that do not wait for the search. */
  casesAhead(): PricedProof {
    if (this.proof) return this.proof;
    const { mostCases = MOST_CASES } = this.options;
    this.proof = new PricedProof(this.problem, this.unmet, this.ascended(), {
      mostCases,
      shouldStop: () => this.hooks.shouldStop?.() ?? false,
      checked: () => this.checked(),
    });
    this.proof.ahead(secondsAhead(this.options));
    return this.proof;
  }

  /** The season as both limits are checked with; looked at once. */
  private checked(): PricedAgain {
    this.again ??= new PricedAgain(this.problem, this.ascended().prices);
    return this.again;
  }

  private ascended(): Ascent {
    this.ascent ??= ascend(this.problem, this.unmet, {
      turns: TURNS,
      // A first plan is enough to know how far there is to go, and nobody has to be waited for.
      known: firstValue(this.problem, this.unmet),
      shouldStop: this.hooks.shouldStop,
    });
    return this.ascent;
  }
}

function firstValue(problem: ReleaseProblem, unmet: readonly number[]): number {
  return settledSchedule(problem, searchSchedule(problem, unmet, { seed: 1, moves: 0 })).value;
}
